package safekeeping

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"quarterstep/app"
	"quarterstep/app/session"
	"quarterstep/model"
	"quarterstep/model/store"
)

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func demo(t testing.TB) model.Pattern {
	t.Helper()
	p, err := app.DemoBlouse()
	must(t, err)
	return p
}

func journal(t testing.TB, dir string) *Journal {
	t.Helper()
	j, err := OpenJournal(dir, func(err error) { t.Error(err) })
	must(t, err)
	return j
}

// abandon ends a journal as a crash does: its lock goes, its folder stays.
func abandon(t testing.TB, j *Journal) {
	t.Helper()
	must(t, j.lock.Unlock())
}

func rename(name string) session.Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Name = name
		return p, nil
	}
}

func TestWhatACrashLeaves(t *testing.T) {
	dir := t.TempDir()
	home := filepath.Join(dir, "blouse.qstep")
	doc, err := session.New(demo(t))
	must(t, err)
	must(t, doc.Save(home))
	j := journal(t, dir)
	j.Follow(doc)
	doc.KeepPicture("front.jpg", []byte{1, 2, 3})
	must(t, doc.Do("add a photo", func(p model.Pattern) (model.Pattern, error) {
		p.Pictures = []model.Picture{{ID: "f", Name: "front", File: "front.jpg", PerMM: 5}}
		return p, nil
	}))
	must(t, doc.Do("rename", rename("Lantern")))
	must(t, j.Flush())
	if got := Left(dir); len(got) != 0 {
		t.Fatalf("work of a window that is open is offered: %+v", got)
	}
	abandon(t, j)
	left := Left(dir)
	if len(left) != 1 {
		t.Fatalf("%d leftovers, want 1", len(left))
	}
	l := left[0]
	if l.Name != "Lantern" || l.Home != home || l.Changes != 2 || l.Last != "rename" || l.Pieces != len(demo(t).Pieces) || time.Since(l.When) > time.Minute {
		t.Errorf("it is told of as %+v", l)
	}
	f, err := l.Read()
	must(t, err)
	if f.Pattern.Name != "Lantern" || f.Home != home || !bytes.Equal(f.Pictures["front.jpg"], []byte{1, 2, 3}) {
		t.Errorf("read %s of %s with %d pictures", f.Pattern.Name, f.Home, len(f.Pictures))
	}
	must(t, l.Drop())
	if got := Left(dir); len(got) != 0 {
		t.Errorf("thrown away, and offered: %+v", got)
	}
}

// Saved, undone to the saved state, or closed in good order: nothing is offered.
func TestNothingIsOfferedOfSavedWork(t *testing.T) {
	for say, end := range map[string]func(*session.Session, *Journal, string){
		"saved":  func(s *session.Session, _ *Journal, home string) { must(t, s.Save(home)) },
		"undone": func(s *session.Session, _ *Journal, _ string) { s.Undo() },
		"closed": func(_ *session.Session, j *Journal, _ string) { must(t, j.Close()) },
	} {
		dir := t.TempDir()
		home := filepath.Join(dir, "a.qstep")
		doc, err := session.New(demo(t))
		must(t, err)
		must(t, doc.Save(home))
		j := journal(t, dir)
		j.Follow(doc)
		must(t, doc.Do("rename", rename("B")))
		must(t, j.Flush())
		end(doc, j, home)
		must(t, j.Flush())
		if say != "closed" {
			abandon(t, j)
		}
		if got := Left(dir); len(got) != 0 {
			t.Errorf("%s: offered %+v", say, got)
		}
	}
}

// A note is on disk soon without being asked for again. The second that is promised
// is held by TestKilled.
func TestANoteIsWrittenByItself(t *testing.T) {
	dir := t.TempDir()
	doc, err := session.New(demo(t))
	must(t, err)
	j := journal(t, dir)
	j.Follow(doc)
	for _, name := range []string{"A", "B", "C"} {
		must(t, doc.Do("rename", rename(name)))
	}
	deadline := time.Now().Add(20 * time.Second)
	for {
		if f, err := store.Load(filepath.Join(j.dir, workName)); err == nil && f.Pattern.Name == "C" {
			break
		}
		if time.Now().After(deadline) {
			t.Fatal("not on disk after 20 seconds")
		}
		time.Sleep(10 * time.Millisecond)
	}
	must(t, j.Close())
	if got, _ := os.ReadDir(filepath.Join(dir, journals)); len(got) != 0 {
		t.Errorf("closed, and %d folders stay", len(got))
	}
}

// A journal that cannot be written says so, in a sentence; the work can still be
// saved.
func TestAJournalThatCannotBeWritten(t *testing.T) {
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, journals), nil, 0o600))
	if _, err := OpenJournal(dir, nil); err == nil || !strings.Contains(err.Error(), "keeping unsaved work") {
		t.Errorf("got %v", err)
	}
	dir = t.TempDir()
	told := make(chan error, 1)
	j, err := OpenJournal(dir, func(err error) { told <- err })
	must(t, err)
	must(t, os.RemoveAll(j.dir)) // the folder is taken away
	doc, err := session.New(demo(t))
	must(t, err)
	j.Follow(doc)
	must(t, doc.Do("rename", rename("A")))
	select {
	case err := <-told:
		if !strings.Contains(err.Error(), "is not there") {
			t.Errorf("told %v", err)
		}
	case <-time.After(5 * time.Second):
		t.Error("nothing was told")
	}
}

func TestAFileThatAnotherWindowHas(t *testing.T) {
	dir, path := t.TempDir(), filepath.Join(t.TempDir(), "a.qstep")
	first, held, err := Take(dir, path)
	must(t, err)
	if !held {
		t.Fatal("nobody has it, and it cannot be had")
	}
	if _, held, err := Take(dir, path); held || err != nil {
		t.Errorf("two windows hold it, %v", err)
	}
	// The same file by another way, and now that it is there.
	must(t, os.WriteFile(path, nil, 0o600))
	link := filepath.Join(t.TempDir(), "link.qstep")
	must(t, os.Symlink(path, link))
	if _, held, err := Take(dir, link); held || err != nil {
		t.Errorf("held twice, by a link, %v", err)
	}
	if other, held, err := Take(dir, path+"2"); !held || err != nil {
		t.Errorf("another file is held too: %v", err)
	} else {
		other.Release()
	}
	first.Release()
	again, held, err := Take(dir, path)
	must(t, err)
	if !held {
		t.Error("let go, and still held")
	}
	again.Release()
	Claim{}.Release()
}
