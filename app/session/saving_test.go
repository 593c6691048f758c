package session

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"quarterstep/model"
	"quarterstep/model/store"
)

func TestSaveAndOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "apron.qstep")
	pictures := map[string][]byte{"front.jpg": {1, 2}}
	named := apron(t)
	named.Pictures = []model.Picture{{ID: "f1", File: "front.jpg", PerMM: 5}}
	must(t, store.Save(path, store.File{Pattern: named, Pictures: pictures}))
	s, err := Open(path)
	must(t, err)
	if s.Path() != path || s.Dirty() {
		t.Errorf("opened: path %s, dirty %v", s.Path(), s.Dirty())
	}
	heard := counted(s)
	must(t, s.Do("rename", rename("A")))
	if !s.Dirty() {
		t.Error("an edit does not count")
	}
	must(t, s.Preview(rename("B")))
	must(t, s.Save(path))
	if s.Dirty() || !s.Previewing() || *heard != 3 {
		t.Errorf("saved: dirty %v, heard %d", s.Dirty(), *heard)
	}
	s.Cancel()
	s.Undo()
	if !s.Dirty() {
		t.Error("undone past the saved state, and closing would lose nothing?")
	}
	s.Redo()
	if s.Dirty() {
		t.Error("redone to the saved state, and still dirty")
	}
	f, err := store.Load(path)
	must(t, err)
	if f.Pattern.Name != "A" || !reflect.DeepEqual(f.Pictures, pictures) || f.Home != "" {
		t.Errorf("on disk: %s, %d pictures, home %q", f.Pattern.Name, len(f.Pictures), f.Home)
	}
}

func TestASaveThatFailsChangesNothing(t *testing.T) {
	s := open1(t)
	must(t, s.Do("rename", rename("A")))
	heard := counted(s)
	if err := s.Save(filepath.Join(t.TempDir(), "no", "such", "folder.qstep")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v", err)
	}
	if !s.Dirty() || s.Path() != "" || *heard != 0 {
		t.Errorf("dirty %v, path %q, heard %d", s.Dirty(), s.Path(), *heard)
	}
	if _, err := Open(filepath.Join(t.TempDir(), "gone.qstep")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
}

func TestRecovery(t *testing.T) {
	dir := t.TempDir()
	home, kept := filepath.Join(dir, "apron.qstep"), filepath.Join(dir, "new", "recovery.qstep")
	if _, err := Recover(kept); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("nothing was kept: %v", err)
	}
	s := open1(t)
	must(t, s.Save(home))
	autosave := func(want bool) {
		t.Helper()
		wrote, err := s.Autosave(kept)
		must(t, err)
		if wrote != want {
			t.Errorf("autosave wrote: %v, want %v", wrote, want)
		}
	}
	autosave(false) // all is saved
	must(t, s.Do("rename", rename("A")))
	autosave(true)
	autosave(false) // kept already
	must(t, s.Do("rename", rename("B")))
	autosave(true)
	if !s.Dirty() || s.Path() != home {
		t.Errorf("after autosave: dirty %v, path %s", s.Dirty(), s.Path())
	}
	r, err := Recover(kept)
	must(t, err)
	if r.Pattern().Name != "B" || r.Path() != home || !r.Dirty() {
		t.Errorf("recovered %s of %s, dirty %v", r.Pattern().Name, r.Path(), r.Dirty())
	}
	must(t, r.Save(home))
	if r.Dirty() {
		t.Error("saved and still dirty")
	}
	must(t, Forget(kept))
	must(t, Forget(kept))
	if _, err := os.Stat(kept); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the copy is still there: %v", err)
	}
	// A folder that cannot be made: the document goes on.
	must(t, s.Do("rename", rename("C")))
	if _, err := s.Autosave(filepath.Join(home, "recovery.qstep")); err == nil {
		t.Error("a copy was kept below a file")
	}
	autosave(true)
}

// A picture that the document names is kept with the project; taken off, it is
// gone from the file, and back again with undo.
func TestPicturesGoWithTheirNames(t *testing.T) {
	s := open1(t)
	s.KeepPicture("a.jpg", []byte{7})
	add := func(p model.Pattern) (model.Pattern, error) {
		p.Pictures = []model.Picture{{ID: "a", File: "a.jpg", PerMM: 5}}
		return p, nil
	}
	path := filepath.Join(t.TempDir(), "a.qstep")
	kept := func() int {
		t.Helper()
		must(t, s.Save(path))
		f, err := store.Load(path)
		must(t, err)
		return len(f.Pictures)
	}
	if kept() != 0 {
		t.Error("a picture that nothing names is saved")
	}
	must(t, s.Do("add", add))
	if kept() != 1 || s.Picture("a.jpg")[0] != 7 {
		t.Error("the picture is not kept")
	}
	s.Undo()
	if kept() != 0 {
		t.Error("taken off, the picture stays in the file")
	}
	s.Redo()
	if kept() != 1 {
		t.Error("redone, the picture is lost")
	}
}
