package ui

import (
	"path/filepath"
	"slices"
	"testing"
	"time"

	"quarterstep/app/session"
	"quarterstep/model"
	"quarterstep/model/store"
)

// put sets a variable for one test.
func put[T any](t *testing.T, at *T, to T) {
	was := *at
	*at = to
	t.Cleanup(func() { *at = was })
}

// later is work that was put off, oldest first.
type later []func()

func (l *later) add(work func()) { *l = append(*l, work) }

// next does the oldest.
func (l *later) next(t *testing.T) {
	t.Helper()
	if len(*l) == 0 {
		t.Fatal("nothing waits to be done")
	}
	work := (*l)[0]
	*l = (*l)[1:]
	work()
}

func named(name string) session.Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Name = name
		return p, nil
	}
}

// TestSavingBesideTheWindow: she goes on while a save is written; the next one comes
// after it, and closing waits for both.
func TestSavingBesideTheWindow(t *testing.T) {
	w := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	var beside later
	put(t, &besideWindow, beside.add)
	w.do("name", named("A"))
	w.saveTo(path, nil)
	w.do("name", named("B"))
	closed := false
	w.saveTo(path, nil)
	w.ifSafe(func() { closed = true })
	if len(beside) != 1 || closed || w.dialogOpen || !w.saves.under {
		t.Fatalf("%d saves at once, closed %v, dialog %v, under way %v", len(beside), closed, w.dialogOpen, w.saves.under)
	}
	on := func() string {
		t.Helper()
		f, err := store.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		return f.Pattern.Name
	}
	beside.next(t)
	if on() != "A" || !w.doc.Dirty() || closed {
		t.Errorf("after the first save %q is on disk, dirty %v, closed %v", on(), w.doc.Dirty(), closed)
	}
	beside.next(t)
	if on() != "B" || w.doc.Dirty() || !closed || w.saves.under {
		t.Errorf("after the second save %q is on disk, dirty %v, closed %v, under way %v", on(), w.doc.Dirty(), closed, w.saves.under)
	}
}

// TestClosingAfterASaveThatFails asks, for the work is not safe.
func TestClosingAfterASaveThatFails(t *testing.T) {
	w := open(t)
	var beside later
	put(t, &besideWindow, beside.add)
	w.do("name", named("A"))
	then, closed := false, false
	w.saveTo(filepath.Join(t.TempDir(), "gone", "a.qstep"), func() { then = true })
	w.ifSafe(func() { closed = true })
	beside.next(t)
	if then || closed || !w.dialogOpen || !w.doc.Dirty() {
		t.Errorf("then %v, closed %v, asked %v, dirty %v", then, closed, w.dialogOpen, w.doc.Dirty())
	}
}

// TestOpeningBesideTheWindow keeps the document that is open until the other is
// there, opens no dialog over it, and does not lose what was changed meanwhile.
func TestOpeningBesideTheWindow(t *testing.T) {
	w := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	was := w.doc
	var beside later
	put(t, &besideWindow, beside.add)
	w.open(path)
	if w.doc != was || !w.dialogOpen {
		t.Errorf("before it is read: another document %v, dialogs are kept away %v", w.doc != was, w.dialogOpen)
	}
	w.do("name", named("Changed meanwhile"))
	beside.next(t)
	if w.doc != was || !w.dialogOpen {
		t.Errorf("what was changed meanwhile is lost without asking")
	}
}

// TestChecksBesideTheWindow: checks that take long keep no frame waiting; the panel
// says that they are under way and shows the last ones.
func TestChecksBesideTheWindow(t *testing.T) {
	w := open(t)
	before := w.report()
	var beside later
	put(t, &besideWindow, beside.add)
	put(t, &checkAtOnce, 0)
	q := front(w)
	w.do("name", named("A"))
	w.do("leave out", func(p model.Pattern) (model.Pattern, error) {
		p.Pieces = slices.Clone(p.Pieces)
		i := p.PieceIndex(q.ID)
		p.Pieces[i].Name = "Something else"
		return p, nil
	})
	if len(beside) != 1 || !w.checking() || len(w.report().Findings) != len(before.Findings) {
		t.Fatalf("%d checks at once, under way %v, %d findings shown of %d", len(beside), w.checking(), len(w.report().Findings), len(before.Findings))
	}
	beside.next(t) // of a document that is no more as it was
	beside.next(t)
	if len(beside) != 0 || w.checking() || w.reported.serial != w.docSerial {
		t.Errorf("%d checks wait, under way %v, of change %d, now is %d", len(beside), w.checking(), w.reported.serial, w.docSerial)
	}
}

// TestPanelsOverFrames: the folded panels wait for the next frames, and go on
// waiting while the hand drags; what is done to a card by its number has them all
// shown first.
func TestPanelsOverFrames(t *testing.T) {
	w := open(t)
	w.refresh()
	var frames later
	put(t, &nextFrame, frames.add)
	put(t, &inOneFrame, -time.Second)
	w.do("name", named("A"))
	waits := func(name string) bool {
		return slices.ContainsFunc(w.rest, func(p part) bool { return p.name == name })
	}
	if waits("increments") || !waits("checks") || !waits("shelf") || len(frames) != 1 {
		t.Fatalf("increments wait %v, checks wait %v, the Shelf waits %v, %d frames asked for", waits("increments"), waits("checks"), waits("shelf"), len(frames))
	}
	if err := w.doc.Preview(named("B")); err != nil {
		t.Fatal(err)
	}
	frames.next(t)
	if !waits("checks") {
		t.Error("panels are shown during a drag")
	}
	w.doc.Commit("name")
	if !waits("checks") || len(frames) != 1 {
		t.Errorf("after a drag the checks wait %v, %d frames asked for", waits("checks"), len(frames))
	}
	w.settle()
	if len(w.rest) != 0 || w.folds["Checks"].Open() {
		t.Errorf("settled, and %d panels wait", len(w.rest))
	}
	inOneFrame = time.Hour
	w.refresh()
	if len(w.rest) != 0 {
		t.Errorf("%d panels wait where there is time for all", len(w.rest))
	}
}
