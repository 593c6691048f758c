package session

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"quarterstep/model/store"
)

// Open reads a project file.
func Open(path string) (*Session, error) {
	s, _, err := open(path)
	if err != nil {
		return nil, err
	}
	s.path = path
	return s, nil
}

func open(path string) (*Session, store.File, error) {
	f, err := store.Load(path)
	if err != nil {
		return nil, f, err
	}
	s, err := New(f.Pattern)
	if err != nil {
		return nil, f, err
	}
	s.pictures = f.Pictures
	return s, f, nil
}

// Path is where the document was opened from or last saved; empty for never.
func (s *Session) Path() string { return s.path }

// Dirty reports that closing now would lose work.
func (s *Session) Dirty() bool { return s.now.serial != s.saved }

// Save writes the document to path, whole or not at all, and remembers path. A
// gesture under way is not part of it.
func (s *Session) Save(path string) error {
	if err := store.Save(path, s.file()); err != nil {
		return err
	}
	s.path, s.saved, s.kept = path, s.now.serial, s.now.serial
	s.tell()
	return nil
}

func (s *Session) file() store.File {
	return store.File{Pattern: s.now.pattern, Pictures: s.named()}
}

// Autosave keeps a copy of the document for recovery at path, making its
// folder, when there is work that was neither saved nor kept yet. It reports
// whether it wrote. The document still counts as not saved.
func (s *Session) Autosave(path string) (bool, error) {
	if !s.Dirty() || s.now.serial == s.kept {
		return false, nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return false, fmt.Errorf("keeping a copy for recovery: %w", err)
	}
	f := s.file()
	f.Home = s.path
	if err := store.Save(path, f); err != nil {
		return false, fmt.Errorf("keeping a copy for recovery: %w", err)
	}
	s.kept = s.now.serial
	return true, nil
}

// Recover opens the copy kept at autosave as a document that wants saving; its
// Path is the file it is a copy of. Where nothing was kept the error is
// fs.ErrNotExist.
func Recover(autosave string) (*Session, error) {
	s, f, err := open(autosave)
	if err != nil {
		return nil, err
	}
	s.path, s.saved = f.Home, -1
	return s, nil
}

// Forget removes the copy kept at autosave, if there is one: after closing in
// good order there is nothing to recover.
func Forget(autosave string) error {
	if err := os.Remove(autosave); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("removing the copy for recovery: %w", err)
	}
	return nil
}
