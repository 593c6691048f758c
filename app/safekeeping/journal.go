package safekeeping

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/gofrs/flock"

	"quarterstep/assets/words"
	"quarterstep/model/store"
)

// settle is how long after a note it is written, so that a run of quick edits
// is written once. It leaves three quarters of a second for the writing; half a
// second was once too little on a machine with many programs busy.
const settle = 250 * time.Millisecond

const (
	journals   = "journal" // folder of the journals of all windows
	workName   = "work.qstep"
	aboutName  = "about.json"
	lockName   = "lock"
	pictureDir = "pictures"
)

// Work is a document that was not saved.
type Work struct {
	File    store.File // Home is the path it was opened from or saved at, if any
	Changes int        // steps since it was saved
	Last    string     // the last of them, as it reads after "Undo"
}

// Journal keeps the latest unsaved work of one window. It may be used from
// several goroutines.
type Journal struct {
	dir     string
	lock    *flock.Flock
	trouble func(error)

	mu    sync.Mutex // of what waits
	next  *Work
	timer *time.Timer

	writing sync.Mutex       // of the folder
	kept    map[string]*byte // pictures written, by the first byte of their data
}

// OpenJournal begins a journal in folder dir. What goes wrong when it is written
// is told to trouble, from another goroutine.
func OpenJournal(dir string, trouble func(error)) (*Journal, error) {
	all := filepath.Join(dir, journals)
	if err := os.MkdirAll(all, 0o700); err != nil {
		return nil, words.Errorf("keeping unsaved work: %w", store.Plain(all, err))
	}
	own, err := os.MkdirTemp(all, time.Now().UTC().Format("20060102-150405-*"))
	if err != nil {
		return nil, words.Errorf("keeping unsaved work: %w", store.Plain(all, err))
	}
	j := &Journal{dir: own, lock: flock.New(filepath.Join(own, lockName)), trouble: trouble}
	if ok, err := j.lock.TryLock(); !ok {
		return nil, words.Errorf("keeping unsaved work: %w", errors.Join(err, os.RemoveAll(own)))
	}
	return j, nil
}

// Note keeps work in place of what was noted before, soon, without waiting for
// the disk. What it holds must not be written into afterwards.
func (j *Journal) Note(work Work) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.next = &work
	if j.timer == nil {
		j.timer = time.AfterFunc(settle, func() {
			if err := j.Flush(); err != nil && j.trouble != nil {
				j.trouble(err)
			}
		})
	}
}

// Flush writes what was noted now.
func (j *Journal) Flush() error {
	j.writing.Lock()
	defer j.writing.Unlock()
	work := j.waiting()
	if work == nil {
		return nil
	}
	if err := j.write(*work); err != nil {
		return words.Errorf("keeping unsaved work: %w", err)
	}
	return nil
}

// waiting takes what is to be written.
func (j *Journal) waiting() *Work {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.timer != nil {
		j.timer.Stop()
	}
	work := j.next
	j.next, j.timer = nil, nil
	return work
}

// about is what is told of work before it is read.
type about struct {
	Name    string    `json:"name"`
	Home    string    `json:"home,omitempty"`
	Pieces  int       `json:"pieces"`
	Changes int       `json:"changes"`
	Last    string    `json:"last"`
	When    time.Time `json:"when"`
}

// write puts the pictures down first: the pattern that names them comes when
// they are there.
func (j *Journal) write(work Work) error {
	if err := j.writePictures(work.File.Pictures); err != nil {
		return err
	}
	f := work.File
	f.Pictures = nil
	if err := store.Save(filepath.Join(j.dir, workName), f); err != nil {
		return err
	}
	p := f.Pattern
	return store.Replace(filepath.Join(j.dir, aboutName), func(w io.Writer) error {
		return json.NewEncoder(w).Encode(about{p.Name, f.Home, len(p.Pieces), work.Changes, work.Last, time.Now()})
	})
}

func (j *Journal) writePictures(pictures map[string][]byte) error {
	for name, data := range pictures {
		if len(data) == 0 || j.kept[name] == &data[0] {
			continue
		}
		folder := filepath.Join(j.dir, pictureDir)
		if err := os.MkdirAll(folder, 0o700); err != nil {
			return store.Plain(folder, err)
		}
		err := store.Replace(filepath.Join(folder, name), func(w io.Writer) error {
			_, err := w.Write(data)
			return err
		})
		if err != nil {
			return err
		}
		if j.kept == nil {
			j.kept = map[string]*byte{}
		}
		j.kept[name] = &data[0]
	}
	return nil
}

// Clear forgets the work: it is saved, or not wanted.
func (j *Journal) Clear() error {
	j.writing.Lock()
	defer j.writing.Unlock()
	j.waiting()
	j.kept = nil
	var err error
	for _, name := range []string{workName, aboutName, pictureDir} { // the work first: without it there is nothing to offer
		err = errors.Join(err, store.Plain(j.dir, os.RemoveAll(filepath.Join(j.dir, name))))
	}
	return err
}

// Close ends the journal in good order: nothing of it will be offered.
func (j *Journal) Close() error {
	err := j.Clear()
	return errors.Join(err, j.lock.Unlock(), os.RemoveAll(j.dir))
}
