package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"quarterstep/model"
	"quarterstep/model/store"
)

// Open reads a project file. A file that cannot be used gives one sentence.
func Open(path string) (model.Pattern, error) {
	f, err := OpenFile(path)
	return f.Pattern, err
}

// Save writes p as a new project file; an older file there stays whole until
// the new one is complete.
func Save(path string, p model.Pattern) error { return SaveFile(path, store.File{Pattern: p}) }

// OpenFile is Open with the pictures that belong to the pattern.
func OpenFile(path string) (store.File, error) {
	f, err := store.Load(path)
	if err != nil {
		return store.File{}, plainFile(path, err)
	}
	return f, nil
}

// SaveFile is Save with the pictures that belong to the pattern.
func SaveFile(path string, f store.File) error {
	if err := store.Save(path, f); err != nil {
		return plainFile(path, err)
	}
	return nil
}

// WriteFile writes what write gives to path. Nothing is written when write
// fails; an older file there stays whole until the new one is complete.
func WriteFile(path string, write func(io.Writer) error) error {
	var buf bytes.Buffer
	if err := write(&buf); err != nil {
		return err
	}
	write = func(w io.Writer) error {
		_, err := buf.WriteTo(w)
		return err
	}
	put := store.Replace
	if isDevice(path) {
		put = writeDevice
	}
	if err := put(path, write); err != nil {
		return plainFile(path, err)
	}
	return nil
}

// isDevice reports whether path is there and neither a file nor a folder: a
// pipe or a device, which is written to and not replaced.
func isDevice(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.Mode().IsRegular() && !info.IsDir()
}

func writeDevice(path string, write func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}

// plainFile says in plain words why a file could not be read or written, and
// names the file in an error that is not the disk's.
func plainFile(path string, err error) error {
	var said *store.Fault
	if err = store.Plain(path, err); errors.As(err, &said) {
		return said
	}
	return fmt.Errorf("%s: %w", filepath.Base(path), err)
}
