package safekeeping

import (
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/gofrs/flock"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/store"
)

// Leftover is unsaved work of a window that ended without closing.
type Leftover struct {
	Name    string // of the pattern
	Home    string // the file it belongs to; empty for none yet
	Pieces  int
	Changes int       // steps since it was saved
	Last    string    // the last of them
	When    time.Time // it was kept

	dir string
}

// Left lists the unsaved work in folder dir that no window holds, the latest
// first.
func Left(dir string) []Leftover {
	entries, err := os.ReadDir(filepath.Join(dir, journals))
	if err != nil {
		return nil
	}
	var out []Leftover
	for _, e := range entries {
		own := filepath.Join(dir, journals, e.Name())
		if !e.IsDir() || held(own) {
			continue
		}
		if l, ok := leftIn(own); ok {
			out = append(out, l)
		} else if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > time.Minute {
			_ = os.RemoveAll(own) // an empty journal, not one that is just begun; if it stays it is looked at again
		}
	}
	slices.SortFunc(out, func(a, b Leftover) int { return b.When.Compare(a.When) })
	return out
}

// held reports whether a window that is still open keeps this journal.
func held(dir string) bool {
	lock := flock.New(filepath.Join(dir, lockName))
	ok, err := lock.TryLock()
	if err != nil || !ok {
		return true
	}
	_ = lock.Unlock()
	return false
}

// leftIn is the work in a journal. What is told of it may lack; the work itself
// counts.
func leftIn(dir string) (Leftover, bool) {
	info, err := os.Stat(filepath.Join(dir, workName))
	if err != nil {
		return Leftover{}, !errors.Is(err, fs.ErrNotExist)
	}
	l := Leftover{dir: dir, When: info.ModTime()}
	if f, err := os.Open(filepath.Join(dir, aboutName)); err == nil {
		defer f.Close()
		var a about
		if json.NewDecoder(io.LimitReader(f, 1<<16)).Decode(&a) == nil {
			l.Name, l.Home, l.Pieces, l.Changes, l.Last = a.Name, a.Home, a.Pieces, a.Changes, a.Last
		}
	}
	return l, true
}

// Read is the work itself.
func (l Leftover) Read() (store.File, error) {
	f, err := store.Load(filepath.Join(l.dir, workName))
	if err != nil {
		return f, words.Errorf("bringing unsaved work back: %w", err)
	}
	for _, q := range f.Pattern.Pictures {
		data, err := l.picture(q.File)
		if err != nil {
			continue // the picture is lost, what was traced from it is not
		}
		if f.Pictures == nil {
			f.Pictures = map[string][]byte{}
		}
		f.Pictures[q.File] = data
	}
	return f, nil
}

// picture is one kept in the journal, by a name that leads to no other folder.
func (l Leftover) picture(name string) ([]byte, error) {
	if !model.PictureFile(name) {
		return nil, words.Errorf("%q cannot be the name of a picture", name)
	}
	f, err := os.Open(filepath.Join(l.dir, pictureDir, name))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, store.MostPicture+1))
	if err == nil && len(data) > store.MostPicture {
		err = store.ErrTooBig
	}
	return data, err
}

// Drop throws the work away.
func (l Leftover) Drop() error {
	if err := os.RemoveAll(l.dir); err != nil {
		return words.Errorf("throwing unsaved work away: %w", store.Plain(l.dir, err))
	}
	return nil
}
