package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"quarterstep/assets/words"
)

// Fault is a file that could not be read or written. Its words are a sentence
// for the sewist; Unwrap gives the cause.
type Fault struct {
	Say   string
	Cause error
}

func (f *Fault) Error() string { return f.Say }

// Unwrap is the cause.
func (f *Fault) Unwrap() error { return f.Cause }

// Plain says in plain words why path could not be read or written; an error
// that does not come from the disk stays as it is.
func Plain(path string, err error) error {
	if err == nil {
		return nil
	}
	name, folder := filepath.Base(path), filepath.Dir(path)
	say := func(what string) error { return &Fault{what, err} }
	if info, statErr := os.Stat(path); statErr == nil && info.IsDir() {
		return say(words.F("%s is a folder; give the name of a file", path))
	}
	switch {
	case diskFull(err):
		return say(words.F("there is no room left where %s lies; make room, or save to another place", name))
	case errors.Is(err, fs.ErrNotExist):
		if _, statErr := os.Stat(folder); statErr != nil {
			return say(words.F("the folder %s is not there; if it was on a stick or card, put that back in, or choose another place", folder))
		}
		return say(words.F("%s is not there", path))
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return say(words.F("%s may not be read or written here; choose another folder", path))
	case broken(err):
		return say(words.F("the disk, stick or card with %s does not answer; use another place", name))
	case errors.Is(err, syscall.ENAMETOOLONG):
		return say(words.F("the name %s is too long for this disk", name))
	}
	return err
}

// broken reports that a disk failed or was taken away.
func broken(err error) bool {
	for _, e := range []error{syscall.EIO, syscall.ENODEV, syscall.ENXIO, syscall.ESTALE} {
		if errors.Is(err, e) {
			return true
		}
	}
	return false
}
