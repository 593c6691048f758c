package session

import (
	"context"
	"os"
	"time"

	"quarterstep/model/store"
)

// Open reads a project file.
func Open(path string) (*Session, error) { return OpenUntil(context.Background(), path) }

// OpenUntil is Open until ctx ends, whose error it then returns; a disk that keeps it
// waiting keeps it all the same.
func OpenUntil(ctx context.Context, path string) (*Session, error) {
	read := stampOf(path)
	f, err := store.Load(path)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s, err := NewUntil(ctx, f.Pattern)
	if err != nil {
		return nil, err
	}
	s.pictures, s.path, s.stamp = f.Pictures, path, read
	return s, nil
}

// Path is where the document was opened from or last saved; empty for never.
func (s *Session) Path() string { return s.path }

// Dirty reports that closing now would lose work.
func (s *Session) Dirty() bool { return s.now.serial != s.saved || s.pending() }

// Save writes the document to path, whole or not at all, and remembers path. A
// gesture under way is not part of it.
func (s *Session) Save(path string) error {
	write, done := s.Saving(path)
	if err := write(); err != nil {
		return err
	}
	done()
	return nil
}

// Saving is Save in two halves: write writes the document as it is now, and may
// run on any goroutine while the session goes on; after it, without an error, done
// notes on the session's goroutine that so much is saved.
func (s *Session) Saving(path string) (write func() error, done func()) {
	f, serial, written := s.file(), s.now.serial, stamp{}
	write = func() error {
		if err := store.Save(path, f); err != nil {
			return err
		}
		written = stampOf(path)
		return nil
	}
	return write, func() {
		s.path, s.saved, s.stamp = path, serial, written
		s.tell()
	}
}

func (s *Session) file() store.File {
	return store.File{Pattern: s.now.pattern, Pictures: s.named()}
}

// File is the document as it would be saved, with the path it was opened from
// or last saved at as its Home.
func (s *Session) File() store.File {
	f := s.file()
	f.Home = s.path
	return f
}

// Changes is how many steps lie between the document and the saved one.
func (s *Session) Changes() int {
	if s.now.serial == s.saved {
		return 0
	}
	for i, st := range s.past {
		if st.serial == s.saved {
			return len(s.past) - i
		}
	}
	for i, st := range s.future {
		if st.serial == s.saved {
			return len(s.future) - i
		}
	}
	return len(s.past) + s.before
}

// Recover opens work that was never saved as a document that wants saving,
// changes steps ahead of the file it belongs to; its Path is the file's Home.
func Recover(f store.File, changes int) (*Session, error) {
	s, err := New(f.Pattern)
	if err != nil {
		return nil, err
	}
	s.pictures, s.path, s.saved, s.before = f.Pictures, f.Home, -1, max(changes, 1)
	return s, nil
}

// Part takes the document from its file: it has none until it is saved. It is for
// a document that is opened as a copy.
func (s *Session) Part() { s.path, s.stamp = "", stamp{} }

// stamp tells one state of a file on disk from another.
type stamp struct {
	size int64
	when time.Time
}

// stampOf is the state of the file at path; the zero stamp where there is none.
func stampOf(path string) stamp {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime()}
}

// ChangedUnderneath reports that the file of the document was changed by
// another program since it was opened or saved here, so that saving over it
// would lose what the other wrote.
func (s *Session) ChangedUnderneath() bool { return s.Underneath()() }

// Underneath is ChangedUnderneath of the document as it is now, to be asked on any
// goroutine: the disk may keep it waiting.
func (s *Session) Underneath() func() bool {
	path, was := s.path, s.stamp
	return func() bool {
		if path == "" || was == (stamp{}) {
			return false
		}
		now := stampOf(path)
		return now != stamp{} && now != was
	}
}
