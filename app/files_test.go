package app

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/model"
)

// left is the names of what is in a folder.
func left(t *testing.T, folder string) string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

func TestWriteFileLeavesTheOldFileOnFailure(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "front.svg")
	if err := WriteFile(path, func(w io.Writer) error { _, err := io.WriteString(w, "old"); return err }); err != nil {
		t.Fatal(err)
	}
	torn := errors.New("the sleeve cannot be written")
	err := WriteFile(path, func(w io.Writer) error {
		fmt.Fprint(w, "new, but only half")
		return torn
	})
	if !errors.Is(err, torn) || err.Error() != torn.Error() {
		t.Errorf("the error came back as %v", err)
	}
	if got, _ := os.ReadFile(path); string(got) != "old" || left(t, folder) != "front.svg" {
		t.Errorf("the file holds %q, the folder %s", got, left(t, folder))
	}
	if err := WriteFile(path, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(path); string(got) != "new" || left(t, folder) != "front.svg" {
		t.Errorf("the file holds %q, the folder %s", got, left(t, folder))
	}
}

// A file that others may not read stays so when it is written again, and a
// link goes on leading to its file.
func TestWriteFileKeepsRightsAndLinks(t *testing.T) {
	folder := t.TempDir()
	path, link := filepath.Join(folder, "own.pdf"), filepath.Join(folder, "link.pdf")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(link, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(path)
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(path); string(got) != "new" || info.Mode().Perm() != 0o600 {
		t.Errorf("the file holds %q with rights %v", got, info.Mode())
	}
	if to, err := os.Readlink(link); err != nil || to != path {
		t.Errorf("the link leads to %q, %v", to, err)
	}
}

func TestFilesAreToldInPlainWords(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string { return filepath.Join(folder, name) }
	for _, c := range []struct {
		path string
		err  error
		want string
	}{
		{file("gone.qstep"), fs.ErrNotExist, file("gone.qstep") + " is not there"},
		{file("a.qstep"), fmt.Errorf("opening: %w", fs.ErrPermission), file("a.qstep") + " may not be read or written here; choose another folder"},
		{file("a.qstep"), errors.New("the disk is full"), "a.qstep: the disk is full"},
		{folder, errors.New("rename x y"), folder + " is a folder; give the name of a file"},
	} {
		if got := plainFile(c.path, c.err); got.Error() != c.want {
			t.Errorf("%v is told as %q, want %q", c.err, got, c.want)
		}
	}
	if _, err := Open(file("gone.qstep")); err == nil || !strings.HasSuffix(err.Error(), "gone.qstep is not there") {
		t.Errorf("opening what is not there: %v", err)
	}
	if err := Save(filepath.Join(folder, "no", "a.qstep"), model.Pattern{}); err == nil || !strings.Contains(err.Error(), "is not there") {
		t.Errorf("saving into no folder: %v", err)
	}
	if _, err := Open(folder); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("opening a folder: %v", err)
	}
	if names := left(t, folder); names != "" {
		t.Errorf("left behind: %s", names)
	}
}

// A pattern that breaks a rule is not saved over a sound one.
func TestSaveRefusesWhatCannotBeRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "blouse.qstep")
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	if err := Save(path, p); err != nil {
		t.Fatal(err)
	}
	spoilt := p
	spoilt.Target.Place = 99
	if err := Save(path, spoilt); err == nil || !strings.Contains(err.Error(), "off the chart") {
		t.Errorf("saving a spoilt pattern: %v", err)
	}
	got, err := Open(path)
	if err != nil || got.Target.Place != p.Target.Place || len(got.Pieces) != len(p.Pieces) {
		t.Errorf("the sound pattern is gone: %v", err)
	}
}

// A device is written to and stays what it is; a full one is told in plain
// words. /dev/full is always full (Linux, full(4)).
func TestAFullDevice(t *testing.T) {
	const full = "/dev/full"
	info, err := os.Stat(full)
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		t.Skip("there is no " + full + " here")
	}
	err = WriteFile(full, func(w io.Writer) error { _, err := io.WriteString(w, "a page"); return err })
	if err == nil || !strings.HasPrefix(err.Error(), "there is no room left where full lies") || strings.Contains(err.Error(), "\n") {
		t.Errorf("it says %v", err)
	}
	if now, err := os.Stat(full); err != nil || now.Mode() != info.Mode() {
		t.Errorf("it is now %v, %v", now, err)
	}
	if err := WriteFile(os.DevNull, func(w io.Writer) error { _, err := io.WriteString(w, "a page"); return err }); err != nil {
		t.Errorf("what takes all: %v", err)
	}
}
