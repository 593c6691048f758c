package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Save writes f to path. It writes beside the old file, waits until the disk
// has it, and only then takes the old one's place: on an error the old file is
// untouched and nothing is left behind.
func Save(path string, f File) error {
	if err := Replace(path, func(w io.Writer) error { return Write(w, f) }); err != nil {
		return fmt.Errorf("saving the pattern: %w", err)
	}
	return nil
}

// Load reads the project file at path; errors as Read.
func Load(path string) (File, error) {
	f, err := load(path)
	if err != nil {
		return File{}, fmt.Errorf("opening the pattern: %w", err)
	}
	return f, nil
}

func load(path string) (File, error) {
	in, err := os.Open(path)
	if err != nil {
		return File{}, err
	}
	defer in.Close()
	info, err := in.Stat()
	if err != nil {
		return File{}, err
	}
	if !info.Mode().IsRegular() {
		return File{}, ErrNotOurs
	}
	return Read(in, info.Size())
}

// Replace puts what write gives at path, whole or not at all, with the rights
// the old file had. On an error the old file is untouched and nothing is left
// behind.
func Replace(path string, write func(io.Writer) error) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // write the file a link leads to, not over the link
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	tmp, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return err
	}
	buffered := bufio.NewWriter(tmp)
	if err = write(buffered); err == nil {
		err = errors.Join(buffered.Flush(), tmp.Chmod(mode), tmp.Sync())
	}
	err = errors.Join(err, tmp.Close())
	if err == nil {
		err = os.Rename(tmp.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(tmp.Name()))
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// syncFolder asks the disk to keep the new name too. Not every system can; the
// file itself is safe either way.
func syncFolder(dir string) {
	d, err := os.Open(dir)
	if err != nil {
		return
	}
	_ = d.Sync()
	_ = d.Close()
}
