package store

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// faulty is the disk of this machine until its call number at, which fails; a
// write that fails has written half of what it was given.
type faulty struct {
	system
	at      *int
	fault   error
	flushed *bool // that the call that failed was the flush of the folder
}

// turn reports whether this call is the one that fails.
func (d faulty) turn() bool {
	*d.at--
	return *d.at == -1
}

func (d faulty) create(path string) (newFile, error) {
	if d.turn() {
		return nil, d.fault
	}
	f, err := d.system.create(path)
	return faultyFile{f, d}, err
}

func (d faulty) rename(from, to string) error {
	if d.turn() {
		return d.fault
	}
	return d.system.rename(from, to)
}

func (d faulty) flush(folder string) error {
	if d.turn() {
		*d.flushed = true
		return d.fault
	}
	return d.system.flush(folder)
}

type faultyFile struct {
	newFile
	disk faulty
}

func (f faultyFile) Write(p []byte) (int, error) {
	if f.disk.turn() {
		n, _ := f.newFile.Write(p[:len(p)/2])
		return n, f.disk.fault
	}
	return f.newFile.Write(p)
}

func (f faultyFile) Chmod(mode fs.FileMode) error {
	if f.disk.turn() {
		return f.disk.fault
	}
	return f.newFile.Chmod(mode)
}

func (f faultyFile) Sync() error {
	if f.disk.turn() {
		return f.disk.fault
	}
	return f.newFile.Sync()
}

func (f faultyFile) Close() error {
	err := f.newFile.Close()
	if f.disk.turn() {
		return f.disk.fault
	}
	return err
}

// Whatever call to the disk fails, and with a full or a broken disk, the old
// file stays as it was, nothing is left beside it, and a sentence says so. Where
// only the folder's flush fails, the new file is there whole.
func TestEveryFaultOfTheDiskLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "apron.qstep")
	old := sample()
	old.Pattern.Name = "old"
	next := sample()
	next.Pictures = map[string][]byte{"front.jpg": bytes.Repeat([]byte("paper"), 10_000)}
	for fault, words := range map[error]string{syscall.ENOSPC: "no room left", syscall.EIO: "does not answer"} {
		calls := 0
		for ; ; calls++ {
			if err := Save(path, old); err != nil {
				t.Fatalf("saving the old file: %v", err)
			}
			was, _ := os.ReadFile(path)
			at, flush := calls, false
			err := replaceOn(faulty{at: &at, fault: fault, flushed: &flush}, path, func(w io.Writer) error { return Write(w, next) })
			if at >= 0 { // fewer calls than that: none failed
				if err != nil {
					t.Errorf("a sound disk: %v", err)
				}
				break
			}
			now, readErr := os.ReadFile(path)
			if !flush && (readErr != nil || !bytes.Equal(was, now)) {
				t.Errorf("%v at call %d: the old file changed (%v)", fault, calls, readErr)
			}
			if f, err := Load(path); flush && (err != nil || f.Pattern.Name != next.Pattern.Name) {
				t.Errorf("%v at the flush: %v", fault, err)
			}
			var said *Fault
			if !errors.As(err, &said) || !errors.Is(err, fault) || !strings.Contains(err.Error(), words) || !strings.Contains(err.Error(), "apron.qstep") && !flush {
				t.Errorf("%v at call %d: %v", fault, calls, err)
			}
			if all, _ := os.ReadDir(filepath.Dir(path)); len(all) != 1 {
				t.Errorf("%v at call %d: %d files in the folder", fault, calls, len(all))
			}
		}
		if calls < 8 {
			t.Errorf("only %d calls to the disk were tried", calls)
		}
	}
}

// An error of what is written is not blamed on the disk.
func TestAnErrorOfTheContentIsItsOwn(t *testing.T) {
	own := errors.New("a NaN")
	var said *Fault
	err := Replace(filepath.Join(t.TempDir(), "a"), func(w io.Writer) error { return own })
	if !errors.Is(err, own) || errors.As(err, &said) {
		t.Errorf("got %v", err)
	}
}

// A disk that is really full: Linux has one to write to.
func TestAFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no /dev/full")
	}
	defer full.Close()
	_, err = full.Write([]byte("x"))
	if err := Plain("b/apron.qstep", err); !strings.Contains(err.Error(), "no room left where apron.qstep lies") {
		t.Errorf("got %v", err)
	}
}

func TestFaultsInPlainWords(t *testing.T) {
	dir := t.TempDir()
	locked := filepath.Join(dir, "locked")
	for _, c := range []struct {
		path  string
		cause error
		say   string
	}{
		{filepath.Join(dir, "gone", "a.qstep"), fs.ErrNotExist, "on a stick"},
		{filepath.Join(dir, "a.qstep"), fs.ErrNotExist, "a.qstep is not there"},
		{locked, fs.ErrPermission, "choose another folder"},
		{locked, syscall.EROFS, "choose another folder"},
		{locked, syscall.ENODEV, "does not answer"},
		{locked, syscall.ENAMETOOLONG, "too long"},
		{dir, syscall.EISDIR, "is a folder"},
	} {
		err := Plain(c.path, &fs.PathError{Op: "open", Path: c.path, Err: c.cause})
		if !strings.Contains(err.Error(), c.say) || !errors.Is(err, c.cause) {
			t.Errorf("%v: %v", c.cause, err)
		}
	}
}
