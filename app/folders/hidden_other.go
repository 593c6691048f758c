//go:build !windows

package folders

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"quarterstep/assets/words"
)

// hidden reports whether the system keeps a file out of sight: here a dot at the
// head of its name says so, which List looks for itself.
func hidden(fs.FileInfo) bool { return false }

// drives are the sticks and drives that the system has put below the folders it
// keeps for them (the Filesystem Hierarchy Standard's /media and /mnt, and what
// udisks and macOS use), and the whole computer.
func drives() []Place {
	var roots []string
	switch user := os.Getenv("USER"); {
	case runtime.GOOS == "darwin":
		roots = []string{"/Volumes"}
	case user != "":
		roots = []string{filepath.Join("/run/media", user), filepath.Join("/media", user), "/mnt"}
	default:
		roots = []string{"/media", "/mnt"}
	}
	return append(mounted(roots), Place{Name: words.T("This computer"), Path: "/", Sort: Drive})
}

// mounted are the folders in roots, without looking into any of them: one may be
// a machine that does not answer.
func mounted(roots []string) []Place {
	var out []Place
	for _, root := range roots {
		found, err := os.ReadDir(root)
		if err != nil {
			continue
		}
		for _, d := range found {
			if d.IsDir() {
				out = append(out, Place{Name: d.Name(), Path: filepath.Join(root, d.Name()), Sort: Drive})
			}
		}
	}
	return out
}
