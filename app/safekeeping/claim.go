package safekeeping

import (
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"quarterstep/assets/words"
	"quarterstep/model/store"
)

const openDir = "open"

// Claim is one window's hold on a project file, until it is let go or the
// window ends, however it ends. The zero Claim holds nothing.
type Claim struct{ lock *flock.Flock }

// Take holds the project file at path for this window; held is false where
// another window has it. Folder dir is where the windows of this person on this machine tell
// each other.
func Take(dir, path string) (c Claim, held bool, err error) {
	folder := filepath.Join(dir, openDir)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return Claim{}, false, words.Errorf("looking whether another window has the file: %w", store.Plain(folder, err))
	}
	c.lock = flock.New(filepath.Join(folder, key(path)))
	held, err = c.lock.TryLock()
	if err != nil {
		return Claim{}, false, words.Errorf("looking whether another window has the file: %w", err)
	}
	if !held {
		return Claim{}, false, nil
	}
	return c, true, nil
}

// Release lets the file go.
func (c Claim) Release() {
	if c.lock != nil {
		_ = c.lock.Unlock() // the file is let go at the latest when the window ends
	}
}

// PrintedFile is where what was last printed of the project at path is kept.
func PrintedFile(dir, path string) string { return filepath.Join(dir, "printed", key(path)+".json") }
