package session

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/store"
)

// slowly makes every edit one that takes long; what is done beside waits in the
// list that it returns, and is done by step.
func slowly(t testing.TB, s *Session) (step func() bool, failed *[]error) {
	t.Helper()
	was := slow
	slow = -1
	t.Cleanup(func() { slow = was })
	var waits []func()
	failed = new([]error)
	s.Beside(Aside{
		Run: func(work, done func()) { waits = append(waits, func() { work(); done() }) },
		Failed: func(err error) {
			*failed = append(*failed, err)
		},
		Turned: func() {},
	})
	return func() bool {
		if len(waits) == 0 {
			return false
		}
		next := waits[0]
		waits = waits[1:]
		next()
		return true
	}, failed
}

func failing(model.Pattern) (model.Pattern, error) {
	return model.Pattern{}, errors.New("it cannot be")
}

// TestEditsBeside: edits that take long come into the document one after the other;
// until then it is as before, wants saving, and what is on its way is what Undo names.
func TestEditsBeside(t *testing.T) {
	s := open1(t)
	step, failed := slowly(t, s)
	for _, name := range []string{"A", "B", "C"} {
		if err := s.Do("name "+name, rename(name)); err != nil {
			t.Fatal(err)
		}
	}
	if s.Pattern().Name != "0" || !s.Busy() || !s.Dirty() || s.UndoLabel() != "name C" || s.RedoLabel() != "" {
		t.Errorf("at first %q, busy %v, dirty %v, to undo %q", s.Pattern().Name, s.Busy(), s.Dirty(), s.UndoLabel())
	}
	step()
	if s.Pattern().Name != "A" || !s.Busy() || s.UndoLabel() != "name C" {
		t.Errorf("after one %q, busy %v, to undo %q", s.Pattern().Name, s.Busy(), s.UndoLabel())
	}
	s.Undo() // C is not begun
	s.Do("fail", failing)
	s.Do("name D", rename("D"))
	for step() {
	}
	if got := s.History(); !slices.Equal(got, []string{"name A", "name B", "name D"}) || s.Pattern().Name != "D" || s.Busy() {
		t.Errorf("history %v, name %q, busy %v", got, s.Pattern().Name, s.Busy())
	}
	if len(*failed) != 1 || (*failed)[0].Error() != "it cannot be" {
		t.Errorf("said to have failed: %v", *failed)
	}
	s.Do("name E", rename("E"))
	s.Undo() // E is under way
	for step() {
	}
	if s.Pattern().Name != "D" || s.Busy() {
		t.Errorf("an edit taken back while it was worked out left %q", s.Pattern().Name)
	}
	s.Undo()
	s.Redo()
	if s.Pattern().Name != "D" {
		t.Errorf("undone and redone: %q", s.Pattern().Name)
	}
}

// TestAnEditTakenBackStops: an edit that is taken back while it is worked out reads no
// more nests, leaves nothing behind, and what comes after it is done as ever.
func TestAnEditTakenBackStops(t *testing.T) {
	s := open1(t)
	step, failed := slowly(t, s)
	anew := func(p model.Pattern) model.Pattern { // nests that must be read again
		p.Pieces = slices.Clone(p.Pieces)
		for i := range p.Pieces {
			p.Pieces[i].Nest = slices.Clone(p.Pieces[i].Nest)
		}
		return p
	}
	var edited model.Pattern
	took := s.took
	s.Do("read anew", func(p model.Pattern) (model.Pattern, error) {
		edited = anew(p)
		s.Undo() // she takes it back while it is under way
		return edited, nil
	})
	before, known := s.Pattern(), s.grader.Count()
	step()
	if s.grader.Unread(edited) == 0 || s.grader.Unread(before) != 0 || s.grader.Count() != known {
		t.Errorf("unread of the edit %d, of the document %d", s.grader.Unread(edited), s.grader.Unread(before))
	}
	if s.Busy() || len(s.History()) != 0 || s.Dirty() || s.took != took || len(*failed) != 0 {
		t.Errorf("busy %v, history %v, dirty %v, took %v of %v, failed %v", s.Busy(), s.History(), s.Dirty(), s.took, took, *failed)
	}
	s.Do("read anew", func(p model.Pattern) (model.Pattern, error) { return anew(p), nil })
	s.Do("name", rename("B"))
	saved := false
	s.After(func() { saved = true })
	for step() {
	}
	if got := s.History(); !slices.Equal(got, []string{"read anew", "name"}) || s.Pattern().Name != "B" || !saved || s.grader.Unread(s.Pattern()) != 0 {
		t.Errorf("history %v, name %q, saved %v, unread %d", got, s.Pattern().Name, saved, s.grader.Unread(s.Pattern()))
	}
	s.Undo()
	s.Undo()
	for step() {
	}
	if s.Pattern().Name != before.Name || s.RedoLabel() != "read anew" {
		t.Errorf("undone: %q, to redo %q", s.Pattern().Name, s.RedoLabel())
	}
}

// TestADocumentPutAwayStops: nothing of what was on its way is worked out to its end.
func TestADocumentPutAwayStops(t *testing.T) {
	s := open1(t)
	step, _ := slowly(t, s)
	done := 0
	name := func(p model.Pattern) (model.Pattern, error) {
		done++
		s.Leave()
		return rename("A")(p)
	}
	for range 3 {
		s.Do("name", name)
	}
	for step() {
	}
	if done != 1 || s.Busy() || s.Pattern().Name == "A" {
		t.Errorf("%d edits were worked out, busy %v, name %q", done, s.Busy(), s.Pattern().Name)
	}
}

// TestADragBeside: of previews that take long only the latest counts, the last
// picture stays until it is there, and letting go keeps it as one step.
func TestADragBeside(t *testing.T) {
	s := open1(t)
	step, _ := slowly(t, s)
	for i := range 5 {
		if err := s.Preview(rename(fmt.Sprint("drag ", i))); err != nil {
			t.Fatal(err)
		}
	}
	step()
	if s.Pattern().Name != "drag 0" || !s.Previewing() {
		t.Errorf("the first picture shows %q", s.Pattern().Name)
	}
	s.Preview(rename("drag 5"))
	s.Commit("drag")
	s.Do("name", rename("after"))
	if s.Pattern().Name != "drag 0" || len(s.History()) != 0 {
		t.Errorf("let go, it shows %q before it is worked out", s.Pattern().Name)
	}
	n := 0
	for step() {
		n++
	}
	if got := s.History(); !slices.Equal(got, []string{"drag", "name"}) || s.Pattern().Name != "after" || s.Previewing() || n > 3 {
		t.Errorf("history %v, name %q, after %d works", got, s.Pattern().Name, n)
	}
	s.Undo()
	if s.Pattern().Name != "drag 5" {
		t.Errorf("the drag ended at %q", s.Pattern().Name)
	}
	s.Preview(rename("x"))
	s.Preview(rename("y"))
	s.Cancel()
	for step() {
	}
	if s.Pattern().Name != "drag 5" || s.Previewing() || len(s.History()) != 1 {
		t.Errorf("a drag let go of by Escape left %q", s.Pattern().Name)
	}
}

// TestSavingWaits for what is on its way, so that nothing done before it is missing.
func TestSavingWaits(t *testing.T) {
	s := open1(t)
	step, _ := slowly(t, s)
	path := filepath.Join(t.TempDir(), "a.qstep")
	s.Do("name", rename("A"))
	saved := false
	s.After(func() { saved = s.Save(path) == nil })
	if saved {
		t.Fatal("it did not wait")
	}
	step()
	f, err := store.Load(path)
	if err != nil || !saved || f.Pattern.Name != "A" || s.Dirty() {
		t.Errorf("saved %v: %q, %v, dirty %v", saved, f.Pattern.Name, err, s.Dirty())
	}
}

// TestBesideIsTheSame: any order of edits, drags, undo and redo ends at the same
// document and history whether it is worked out at once or beside, however far that
// got in between.
func TestBesideIsTheSame(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		at, by := open1(r), open1(r)
		step, failed := slowly(t, by)
		all := func() {
			for step() {
			}
		}
		n := 0
		name := func() Edit { n++; return rename(fmt.Sprint(n)) }
		for range rapid.IntRange(1, 20).Draw(r, "edits") {
			var e Edit
			switch rapid.IntRange(0, 3).Draw(r, "edit") {
			case 0:
				e = failing
			case 1:
				e = retarget(float64(rapid.IntRange(0, 5).Draw(r, "place")))
			default:
				e = name()
			}
			switch op := rapid.IntRange(0, 6).Draw(r, "do"); op {
			case 0:
				all() // a failed edit that is on its way is what Undo would take back
				at.Undo()
				by.Undo()
			case 1:
				all()
				at.Redo()
				by.Redo()
			case 2, 3:
				errAt, _ := at.Preview(e), by.Preview(e)
				if op == 2 && errAt == nil {
					at.Commit("drag")
					by.Commit("drag")
				} else {
					at.Cancel()
					by.Cancel()
				}
			default:
				at.Do("do", e)
				by.Do("do", e)
			}
			for range rapid.IntRange(0, 2).Draw(r, "steps") {
				step()
			}
		}
		all()
		if at.Pattern().Name != by.Pattern().Name || at.Pattern().Target.Place != by.Pattern().Target.Place || !slices.Equal(at.History(), by.History()) || by.Busy() || by.Previewing() {
			r.Fatalf("at once %q %v, beside %q %v, failed %v", at.Pattern().Name, at.History(), by.Pattern().Name, by.History(), *failed)
		}
	})
}

// TestWhatIsLong: a nest that was not read and has many edges is read beside; after
// an edit that took no time the next is made at once.
func TestWhatIsLong(t *testing.T) {
	s := open1(t)
	slow = time.Minute
	t.Cleanup(func() { slow = 80 * time.Millisecond })
	step, _ := slowly(t, s)
	slow = time.Minute
	was := mostRead
	mostRead = 7 // the apron has 8
	t.Cleanup(func() { mostRead = was })
	if s.Do("name", rename("A")); s.Busy() || s.Pattern().Name != "A" {
		t.Errorf("renaming went beside")
	}
	anew := func(p model.Pattern) (model.Pattern, error) {
		p.Pieces = slices.Clone(p.Pieces)
		p.Pieces[0].Nest = slices.Clone(p.Pieces[0].Nest)
		return p, nil
	}
	if s.Do("read", anew); !s.Busy() || len(s.History()) != 1 {
		t.Errorf("reading a nest of 8 edges did not go beside")
	}
	step()
	if len(s.History()) != 2 || s.Busy() {
		t.Errorf("history %v", s.History())
	}
	s.Undo() // what is read is that of the state left
	if !s.Busy() || s.Pattern().Name != "A" || s.RedoLabel() != "read" {
		t.Errorf("after undo busy %v, name %q, to redo %q", s.Busy(), s.Pattern().Name, s.RedoLabel())
	}
	step()
	if n := s.Grader().Unread(s.Pattern()); n != 0 || s.Busy() {
		t.Errorf("%d edges are not read after undo", n)
	}
}

// TestAgainBeside: worked out anew beside, it is what it was; where she went back
// meanwhile nothing is mixed up.
func TestAgainBeside(t *testing.T) {
	s := open1(t)
	s.Do("size", retarget(5))
	step, _ := slowly(t, s)
	was := s.Result().Size
	s.Again()
	if !s.Busy() || s.Dirty() != true || s.UndoLabel() != "size" {
		t.Errorf("busy %v, to undo %q", s.Busy(), s.UndoLabel())
	}
	s.Undo()
	for step() {
	}
	if now := s.Result().Size; now == was || now != s.Pattern().Chart.NameAt(3) || s.RedoLabel() != "size" {
		t.Errorf("after undo it is size %q, to redo %q", now, s.RedoLabel())
	}
	s.Again()
	for step() {
	}
	if s.Result().Size != s.Pattern().Chart.NameAt(3) || s.Busy() {
		t.Errorf("anew it is size %q", s.Result().Size)
	}
}
