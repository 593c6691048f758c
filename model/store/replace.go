package store

import (
	"bufio"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// Replace puts what write gives at path, whole or not at all, with the rights
// the old file had: it is written beside the old file, flushed to the disk,
// takes the old one's name, and the folder is flushed. On an error the old file
// is untouched and nothing is left behind; only where the folder's flush itself
// fails the new file is there, whole, but may be lost with the power. An error of
// the disk is a plain sentence that names the file and says what to do; an error
// of write comes back as it is.
func Replace(path string, write func(io.Writer) error) error {
	return replaceOn(system{}, path, write)
}

// disk is what Replace asks of a file system.
type disk interface {
	// create makes a new file beside path.
	create(path string) (newFile, error)
	rename(from, to string) error
	remove(name string) error
	// flush has the disk keep the names in a folder.
	flush(folder string) error
}

// newFile is a file being written.
type newFile interface {
	io.WriteCloser
	Name() string
	Chmod(fs.FileMode) error
	Sync() error
}

func replaceOn(d disk, path string, write func(io.Writer) error) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // write the file a link leads to, not over the link
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	tmp, err := d.create(path)
	if err != nil {
		return Plain(path, err)
	}
	var own error // of write, not of the disk
	buffered := bufio.NewWriter(tmp)
	disky := &faithful{to: buffered}
	if own = write(disky); own == nil {
		err = firstOf(buffered.Flush, func() error { return tmp.Chmod(mode) }, tmp.Sync)
	}
	if disky.err != nil {
		own, err = nil, disky.err
	}
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	if own == nil && err == nil {
		err = d.rename(tmp.Name(), path)
	}
	if own != nil || err != nil {
		_ = d.remove(tmp.Name()) // what matters is why it was not written
		return errors.Join(own, Plain(path, err))
	}
	return Plain(path, d.flush(filepath.Dir(path)))
}

// faithful remembers that the disk, not the writer, failed.
type faithful struct {
	to  io.Writer
	err error
}

func (f *faithful) Write(p []byte) (int, error) {
	n, err := f.to.Write(p)
	if err != nil {
		f.err = err
	}
	return n, err
}

// firstOf does one after another until one fails.
func firstOf(steps ...func() error) error {
	for _, f := range steps {
		if err := f(); err != nil {
			return err
		}
	}
	return nil
}

// system is the disk of this machine.
type system struct{}

func (system) create(path string) (newFile, error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*")
	if err != nil {
		return nil, err // a nil *os.File would be a newFile that is not nil
	}
	return f, nil
}

func (system) rename(from, to string) error { return os.Rename(from, to) }

func (system) remove(name string) error { return os.Remove(name) }

// flush asks the disk to keep the folder's names. Only an error of the disk
// itself counts: not every system can flush a folder, and the file is safe
// either way.
func (system) flush(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return nil
	}
	err = d.Sync()
	_ = d.Close()
	if errors.Is(err, syscall.EIO) || errors.Is(err, syscall.ENOSPC) {
		return err
	}
	return nil
}
