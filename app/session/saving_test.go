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

// Work brought back wants saving, knows where it belongs and how far it is
// ahead.
func TestRecovery(t *testing.T) {
	home := filepath.Join(t.TempDir(), "apron.qstep")
	s := open1(t)
	must(t, s.Save(home))
	for _, name := range []string{"A", "B", "C"} {
		must(t, s.Do("rename to "+name, rename(name)))
	}
	s.Undo()
	if s.Changes() != 2 {
		t.Errorf("%d changes, want 2", s.Changes())
	}
	r, err := Recover(s.File(), s.Changes())
	must(t, err)
	if r.Pattern().Name != "B" || r.Path() != home || !r.Dirty() || r.Changes() != 2 {
		t.Errorf("recovered %s of %s, dirty %v, %d changes", r.Pattern().Name, r.Path(), r.Dirty(), r.Changes())
	}
	must(t, r.Do("rename", rename("D")))
	if r.Changes() != 3 {
		t.Errorf("%d changes, want 3", r.Changes())
	}
	must(t, r.Save(home))
	if r.Dirty() || r.Changes() != 0 {
		t.Errorf("saved: dirty %v, %d changes", r.Dirty(), r.Changes())
	}
	r.Undo()
	r.Undo()
	if r.Changes() != 1 {
		t.Errorf("undone to before saving: %d changes, want 1", r.Changes())
	}
}

// A file that another program wrote since is known; one that is gone is not
// taken for changed.
func TestChangedUnderneath(t *testing.T) {
	home := filepath.Join(t.TempDir(), "apron.qstep")
	s := open1(t)
	must(t, s.Save(home))
	o, err := Open(home)
	must(t, err)
	if s.ChangedUnderneath() || o.ChangedUnderneath() {
		t.Error("nobody wrote, and it counts as changed")
	}
	must(t, o.Do("rename", rename("longer by far")))
	must(t, o.Save(home))
	if !s.ChangedUnderneath() || o.ChangedUnderneath() {
		t.Errorf("changed by the other: %v, by itself: %v", s.ChangedUnderneath(), o.ChangedUnderneath())
	}
	must(t, os.Remove(home))
	if s.ChangedUnderneath() {
		t.Error("a file that is gone counts as changed")
	}
	must(t, s.Save(home))
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

// What is changed while a save is under way is not in the file, and not taken for
// saved.
func TestAChangeWhileSaving(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.qstep")
	s := open1(t)
	must(t, s.Do("rename", rename("A")))
	write, done := s.Saving(path)
	must(t, s.Do("rename", rename("B")))
	must(t, write())
	if !s.Dirty() || s.Path() != "" {
		t.Errorf("before it is noted: dirty %v, path %q", s.Dirty(), s.Path())
	}
	done()
	if !s.Dirty() || s.Path() != path || s.ChangedUnderneath() {
		t.Errorf("with a change since: dirty %v, path %q, changed underneath %v", s.Dirty(), s.Path(), s.ChangedUnderneath())
	}
	f, err := store.Load(path)
	must(t, err)
	if f.Pattern.Name != "A" {
		t.Errorf("saved %q", f.Pattern.Name)
	}
	s.Undo()
	if s.Dirty() {
		t.Error("undone to what was saved, and still dirty")
	}
}
