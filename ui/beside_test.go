package ui

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/store"
	"quarterstep/ui/panel"
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
	if len(beside) != 1 || closed || w.waits == nil || !w.saves.under {
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
	for len(beside) > 0 { // the settings are kept beside too
		beside.next(t)
	}
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

// manyCorners is a pattern that breaks no rule and takes long to be read: two round
// pieces of 60 edges in 13 sizes, each line drawn by a hand that shakes.
func manyCorners() model.Pattern {
	const corners, sizes, curves = 60, 13, 6
	p := model.Pattern{Name: "Discs", Chart: model.SizeChart{ID: "c", Name: "Invented", Measures: []model.Measure{model.Bust}}, Target: model.Target{Place: 14}}
	for i := range 16 {
		p.Chart.Sizes = append(p.Chart.Sizes, model.ChartSize{Name: fmt.Sprint(i), Body: map[model.Measure]float64{model.Bust: 600 + 10*float64(i)}})
	}
	for _, id := range []string{"a", "b"} {
		q := model.Piece{ID: id, Name: "Disc " + id}
		for k := range corners {
			q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprint(k)})
			q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprint(k), Allowance: 10})
		}
		for s := range sizes {
			at := func(i int) geom.Point {
				n := i % (corners * curves)
				sin, cos := math.Sincos(2 * math.Pi * float64(n) / (corners * curves))
				r := 300 * (1 + 0.01*float64(s)) * (1 + 0.02*math.Sin(1.7*float64(n)+float64(s)))
				return geom.Pt(r*cos, r*sin)
			}
			o := model.Outline{Size: fmt.Sprint(s)}
			for k := range corners {
				var line []geom.Point
				for j := range curves + 1 {
					line = append(line, at(k*curves+j))
				}
				o.Edges = append(o.Edges, geom.Polyline(line...))
			}
			q.Nest = append(q.Nest, o)
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}

// TestAnExtremeNestBeside: an edit of a nest that takes long to be read keeps the
// window a small part of that time; meanwhile it shows the last picture, says that it
// works, and what she does then comes after it.
func TestAnExtremeNestBeside(t *testing.T) {
	w := open(t)
	w.show(manyCorners(), func() {})
	var beside later
	put(t, &besideWindow, beside.add)
	q := w.doc.Pattern().Pieces[0]
	size, corners := q.Nest[0].Size, len(q.Points)
	middle := q.Nest[0].Edges[5][2].P3
	began := time.Now()
	w.do("add a grade point", edit.AddPoint(q.ID, size, middle))
	kept := time.Since(began)
	if len(beside) != 1 || !w.doc.Busy() || len(w.doc.Pattern().Pieces[0].Points) != corners || len(w.doc.Result().Pieces[0].Edges) != corners {
		t.Fatalf("%d works beside, busy %v, %d corners shown of %d", len(beside), w.doc.Busy(), len(w.doc.Pattern().Pieces[0].Points), corners)
	}
	w.do("name", named("B"))
	w.hand.Point = q.Points[3].ID
	w.refresh()
	for s := range stepCount { // she goes about meanwhile
		w.goTo(s)
	}
	w.goTo(stepGrade)
	path, saved := filepath.Join(t.TempDir(), "a.qstep"), false
	w.saveTo(path, func() { saved = true })
	began = time.Now()
	beside.next(t)
	took := time.Since(began)
	for len(beside) > 0 {
		beside.next(t)
	}
	if got := w.doc.History(); len(got) != 2 || w.doc.Busy() || !saved || w.doc.Dirty() || len(w.doc.Pattern().Pieces[0].Points) != corners+1 {
		t.Errorf("history %v, busy %v, saved %v, dirty %v", got, w.doc.Busy(), saved, w.doc.Dirty())
	}
	if f, err := store.Load(path); err != nil || f.Pattern.Name != "B" {
		t.Errorf("saved is %q, %v", f.Pattern.Name, err)
	}
	if kept > took/4 {
		t.Errorf("the edit kept the window for %v of %v", kept, took)
	}
	t.Logf("the edit kept the window for %v of %v", kept, took)
}

// TestLinksFoundBeside: looking for links that takes long keeps no frame waiting; the
// panel says so, and an edit meanwhile is looked at afterwards.
func TestLinksFoundBeside(t *testing.T) {
	w := open(t)
	w.do("unlink", func(p model.Pattern) (model.Pattern, error) {
		p.Links = nil
		return p, nil
	})
	var beside later
	put(t, &besideWindow, beside.add)
	w.findLinks()
	if v := w.proposalsView(w.doc.Pattern()); v.None != "Looking for links ..." || len(beside) != 1 {
		t.Fatalf("it says %q, %d works beside", v.None, len(beside))
	}
	w.do("name", named("B"))
	beside.next(t)
	n := len(w.finds.found)
	w.finds.took = time.Hour
	gone := w.finds.found[0].Link
	w.do("link", edit.AcceptLinks(gone))
	for len(beside) > 0 {
		beside.next(t)
	}
	if w.finds.serial != w.docSerial || len(w.finds.found) >= n || n == 0 {
		t.Errorf("%d links were found, %d are left; looked through change %d, now is %d", n, len(w.finds.found), w.finds.serial, w.docSerial)
	}
}

// TestGirthsBeside: the Wearer panel measures nothing itself; while the checks are under
// way its figures stand as those of before, and then as those of now.
func TestGirthsBeside(t *testing.T) {
	w := open(t)
	view := func() panel.WearerView {
		return wearerView(w.doc.Pattern(), w.doc.Result(), w.report(), w.checkingLong(), false)
	}
	before := view()
	var beside later
	put(t, &besideWindow, beside.add)
	put(t, &checkAtOnce, 0)
	w.reported.took = time.Hour
	w.do("size", edit.Place(w.doc.Pattern().Target.Place+1))
	if v := view(); len(before.Ease) == 0 || before.EaseWaits || !v.EaseWaits || !slices.Equal(v.Ease, before.Ease) {
		t.Errorf("%d girths before, waiting %v; then waiting %v, the same %v", len(before.Ease), before.EaseWaits, v.EaseWaits, slices.Equal(v.Ease, before.Ease))
	}
	if v := w.checksShown(); v.Waits == "" {
		t.Error("the Checks panel shows the last checks as if they were of now")
	}
	for len(beside) > 0 {
		beside.next(t)
	}
	want, err := app.GirthsOf(w.doc.Pattern(), w.doc.Result())
	if err != nil {
		t.Fatal(err)
	}
	v := view()
	if v.EaseWaits || len(v.Ease) != len(want.Rows) || v.Ease[0].Finished != girthFigure(want.Rows[0].Target.Finished, w.doc.Pattern().Unit) || w.checksShown().Waits != "" {
		t.Errorf("at the end waiting %v, %+v, want %+v", v.EaseWaits, v.Ease, want.Rows)
	}
}

// TestWhatIsSaidStays: a sentence in the status bar is not put away by what comes from
// beside the window, as the checks do after a file is opened.
func TestWhatIsSaidStays(t *testing.T) {
	w := open(t)
	put(t, &checkAtOnce, 0)
	var beside later
	put(t, &besideWindow, beside.add)
	w.do("name", named("Sunday blouse"))
	w.say("A sentence.")
	if !w.checking() {
		t.Fatal("nothing is checked beside the window")
	}
	for len(beside) > 0 {
		beside.next(t)
	}
	if got := w.status.Text(); got != "A sentence." {
		t.Errorf("after the checks the status bar says %q", got)
	}
	w.table.OnPointer(geom.Pt(10, 10))
	if got := w.status.Text(); strings.Contains(got, "A sentence.") {
		t.Errorf("after the pointer moved the status bar says %q", got)
	}
}
