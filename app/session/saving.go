package session

import "quarterstep/model/store"

// Path is where the document was opened from or last saved; empty for never.
func (s *Session) Path() string { return s.path }

// Dirty reports that closing now would lose work.
func (s *Session) Dirty() bool { return s.now.serial != s.saved }

// Save writes the document to path, whole or not at all, and remembers path.
func (s *Session) Save(path string) error {
	if err := store.Save(path, s.file()); err != nil {
		return err
	}
	s.path, s.saved, s.kept = path, s.now.serial, s.now.serial
	s.tell()
	return nil
}

// Autosave writes the document to path if it changed since it was last saved
// or autosaved, and reports whether it wrote. The document still counts as not
// saved.
func (s *Session) Autosave(path string) (bool, error) {
	if !s.Dirty() || s.now.serial == s.kept {
		return false, nil
	}
	if err := store.Save(path, s.file()); err != nil {
		return false, err
	}
	s.kept = s.now.serial
	return true, nil
}

func (s *Session) file() store.File {
	return store.File{Pattern: s.now.pattern, Pictures: s.pictures}
}
