package ui

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/safekeeping"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

func init() {
	besideWindow = func(work func()) { work() }
	nextFrame = func(work func()) { work() }
	checkAtOnce = time.Hour
	afterAMoment = func(func()) func() { return func() {} }
	listPrinters = func(context.Context, spool.System, settings.Settings) ([]app.Printer, error) {
		return nil, spool.ErrNoPrinter
	}
}

// open is the window on the demo blouse, without a display.
func open(t *testing.T) *Window {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := session.New(p)
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, t.TempDir())
	t.Cleanup(w.closeSafe) // before its folder is taken away
	return w
}

// corner is the first piece's grade point of that name.
func corner(t *testing.T, w *Window, name string) (scene.Ref, int) {
	t.Helper()
	q := w.doc.Pattern().Pieces[0]
	for k, g := range q.Points {
		if g.Name == name {
			return scene.Ref{Piece: q.ID, Point: g.ID}, k
		}
	}
	t.Fatalf("the demo has no %s", name)
	return scene.Ref{}, 0
}

func place(w *Window, k int) geom.Point { return w.doc.Result().Pieces[0].Edges[k].Start() }

func TestDragIsOneStep(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "side hem")
	start := place(w, k)
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	for _, x := range []float64{2, 5, 9} {
		w.table.OnDragPoint(at, geom.Vec{X: x, Y: 1}, board.DragMove)
	}
	if d := place(w, k).Sub(start); math.Abs(d.X-9) > 1e-9 {
		t.Errorf("the preview shows %v", d)
	}
	w.table.OnDragPoint(at, geom.Vec{X: 9, Y: 1}, board.DragEnd)
	if got := w.doc.History(); len(got) != 1 || got[0] != "move side hem" {
		t.Errorf("history %v", got)
	}
	if !strings.Contains(w.win.Title(), "*") {
		t.Error("the title does not say that there is something to save")
	}
	w.doc.Undo()
	if place(w, k) != start || strings.Contains(w.win.Title(), "*") {
		t.Error("undo did not take the drag back")
	}
	w.doc.Redo()
	if d := place(w, k).Sub(start); math.Abs(d.X-9) > 1e-9 || math.Abs(d.Y-1) > 1e-9 {
		t.Errorf("redo gives %v", d)
	}
}

func TestDragAnEdge(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "side hem")
	start := place(w, k)
	edge := scene.Ref{Piece: at.Piece, Edge: w.doc.Pattern().Pieces[0].Edges[k].ID}
	w.table.OnDragEdge(edge, geom.Vec{}, board.DragStart)
	w.table.OnDragEdge(edge, geom.Vec{Y: 7}, board.DragEnd)
	if a := place(w, k).Sub(start); math.Abs(a.Y-7) > 1e-9 {
		t.Errorf("the edge's start moved %v", a)
	}
	if len(w.doc.Pattern().Pieces[0].Hand.Moves) != 2 || w.hand.Edge != edge.Edge {
		t.Errorf("moves %v", w.doc.Pattern().Pieces[0].Hand.Moves)
	}
}

func TestEscapeLetsGo(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "side hem")
	start := place(w, k)
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	w.table.OnDragPoint(at, geom.Vec{X: 30}, board.DragMove)
	w.table.OnDragPoint(at, geom.Vec{}, board.DragCancel)
	if place(w, k) != start || len(w.doc.History()) != 0 {
		t.Error("cancelling left a trace")
	}
}

func TestFacingFollowsTheHand(t *testing.T) {
	w := open(t)
	at, _ := corner(t, w, "neck point")
	facing := w.doc.Pattern().PieceIndex("front-facing")
	before := w.doc.Result().Pieces[facing].Outline().Controls()
	w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
	w.table.OnDragPoint(at, geom.Vec{X: 8}, board.DragMove)
	moved := 0.0
	for k, c := range w.doc.Result().Pieces[facing].Outline().Controls() {
		moved = math.Max(moved, c.Dist(before[k]))
	}
	if math.Abs(moved-8) > 0.01 {
		t.Errorf("while dragging, the facing moved %.3f mm, want 8", moved)
	}
}

func TestSizeStrip(t *testing.T) {
	w := open(t)
	w.strip.OnScrub(5)
	if got := w.doc.Result().Size; got != "42" {
		t.Errorf("scrubbing shows size %s", got)
	}
	w.strip.OnPick(6.5)
	if got := w.doc.Result().Size; got != "44 1/2" || len(w.doc.History()) != 1 {
		t.Errorf("picked %s, history %v", got, w.doc.History())
	}
	w.strip.OnPick(6.5)
	if len(w.doc.History()) != 1 {
		t.Error("picking the same size is a step")
	}
}

// The figures beside the Table against EN 13402-3: from 40 to 48 the waist
// grows 76 to 94 cm, a quarter of it on each panel; four printed steps of 4 cm
// give 16 cm.
func TestIncrementsSayWhatTheChartSays(t *testing.T) {
	w := open(t)
	p, r := w.doc.Pattern(), w.doc.Result()
	i, j, k := w.inHand(p)
	v := incrementsView(p, r, i, j, k)
	if v.Past != "How far past 40" || v.Unit != "mm" || len(v.Gaps) != 3 || v.Gaps[0].Between != "34–36" || v.Gaps[0].Gap != "10" {
		t.Errorf("past %q in %s, gaps %v", v.Past, v.Unit, v.Gaps)
	}
	if v.Choices[choiceSteps].Figure != "40 mm" || !strings.HasPrefix(v.Choices[choiceSteps].How, "4 steps") {
		t.Errorf("by steps %v", v.Choices[choiceSteps])
	}
	if v.FollowNote != [2]string{"76 cm at 40", "94 cm at 48"} {
		t.Errorf("follows: %v", v.FollowNote)
	}
	if v.Points[0].Out != "45" {
		t.Errorf("the waist goes %s out, want 45: a quarter of 18 cm", v.Points[0].Out)
	}
	if !strings.Contains(v.Note, "20 mm too tight") {
		t.Errorf("the note does not say what steps leave short: %q", v.Note)
	}
	w.rail.OnUnit(false)
	v = incrementsView(w.doc.Pattern(), r, i, j, k)
	if v.Unit != "in" || v.Points[0].Out != "1 3/4" {
		t.Errorf("in inches the waist goes %s %s out", v.Points[0].Out, v.Unit)
	}
}

// A total is added to the edge sewn edge to edge as well, each in the direction that
// it moves, unless she says not.
func TestTotalsOfBothSides(t *testing.T) {
	w := open(t)
	mate, before, ok := sewnMate(w.doc.Pattern(), w.doc.Result(), w.hand)
	if !ok {
		t.Fatal("the side seam of the front is sewn to nothing")
	}
	_, own, _ := w.edgeInHand()
	total := func() float64 {
		_, f, _ := sewnMate(w.doc.Pattern(), w.doc.Result(), w.hand)
		return f.total
	}
	w.increments.OnStep(3)
	if _, f, _ := w.edgeInHand(); math.Abs(f.total-own.total-3) > 1e-9 || math.Abs(total()-before.total-3) > 1e-9 {
		t.Errorf("3 mm more on the front give %s %.3f mm more", mate.Name, total()-before.total)
	}
	if n := len(w.doc.History()); n != 1 {
		t.Errorf("it is %d steps of the history", n)
	}
	w.increments.OnWith(false)
	w.increments.OnStep(2)
	if got := total() - before.total; math.Abs(got-3) > 1e-9 {
		t.Errorf("left apart, %s is %.3f mm wider than by chart, want 3", mate.Name, got)
	}
}

// A gap typed for every step makes a total of as many as there are steps, by chart
// and by steps, above and below the printed sizes, and is what the panel then shows.
func TestTypedGapPerStep(t *testing.T) {
	for _, place := range []float64{8, 0} {
		for _, method := range []model.Method{model.ByChart, model.BySteps} {
			w := open(t)
			p := w.doc.Pattern()
			p.Target.Place, p.Target.Method = place, method
			w.do("aim", func(model.Pattern) (model.Pattern, error) { return p, nil })
			_, was, _ := w.edgeInHand()
			want := 7 * was.byChart / was.step
			if method == model.BySteps {
				want = 7 * was.bySteps / was.step
			}
			if want == 0 || (want < 0) != (place == 0) {
				t.Fatalf("place %v, %s: the edge does not move as the test takes it", place, method)
			}
			if err := w.increments.OnGap("7 mm"); err != nil {
				t.Fatal(err)
			}
			if _, f, _ := w.edgeInHand(); math.Abs(f.total-want) > 1e-6 {
				t.Errorf("place %v, %s: 7 mm a step make %.3f mm, want %.3f", place, method, f.total, want)
			}
			p, r := w.doc.Pattern(), w.doc.Result()
			i, j, _ := w.inHand(p)
			if got := incrementsView(p, r, i, j, -1); got.Step != "7" || got.Even {
				t.Errorf("place %v, %s: the panel then says %q", place, method, got.Step)
			}
		}
	}
}

func TestTypedTotals(t *testing.T) {
	w := open(t)
	if err := w.increments.OnTotal("a bit"); err == nil {
		t.Error("words were taken for a length")
	}
	if w.increments.OnTotal("9999") == nil || w.increments.OnTotal("-40 in") == nil || w.increments.OnOut(0, "12 m") == nil {
		t.Error("metres of growth are taken")
	}
	if len(w.doc.History()) != 0 {
		t.Error("a length that cannot be read changed something")
	}
	if err := w.increments.OnTotal("50 mm"); err != nil {
		t.Fatal(err)
	}
	if _, f, _ := w.edgeInHand(); math.Abs(f.total-50) > 1e-9 {
		t.Errorf("the total is %.3f, typed 50", f.total)
	}
	if err := w.increments.OnOut(0, `2"`); err != nil {
		t.Fatal(err)
	}
	p, r := w.doc.Pattern(), w.doc.Result()
	i, j, _ := w.inHand(p)
	if got := incrementsView(p, r, i, j, -1).Points[0].Out; got != "50.8" {
		t.Errorf("the first point goes %s out, typed 2 in", got)
	}
	w.increments.OnChoice(choiceSteps)
	if _, f, _ := w.edgeInHand(); f.hand != 0 || math.Abs(f.total-40) > 1e-6 {
		t.Errorf("by steps: by eye %.3f, total %.3f", f.hand, f.total)
	}
}

func TestCorrectionsAreTakenBackOneByOne(t *testing.T) {
	w := open(t)
	at, _ := corner(t, w, "side hem")
	w.table.OnSelect(at)
	w.table.OnNudge(geom.Vec{X: 1}, board.Normal)
	edge := w.doc.Pattern().Pieces[0].Edges[0].ID
	w.table.OnDragHandle(scene.Ref{Piece: at.Piece, Edge: edge, Control: 1}, geom.Vec{Y: 3}, board.DragStart)
	w.table.OnDragHandle(scene.Ref{Piece: at.Piece, Edge: edge, Control: 1}, geom.Vec{Y: 3}, board.DragEnd)
	p := w.doc.Pattern()
	if got := edit.Corrections(p); len(got) != 2 {
		t.Fatalf("corrections %v", got)
	}
	w.byEye.OnTakeBack(0)
	h := w.doc.Pattern().Pieces[0].Hand
	if len(h.Moves) != 0 || len(h.Shapes) != 1 {
		t.Errorf("after taking the first back: %+v", h)
	}
	w.byEye.OnTakeBack(0)
	if h = w.doc.Pattern().Pieces[0].Hand; len(h.Shapes) != 0 {
		t.Errorf("after taking both back: %+v", h)
	}
}

func TestLockedPointStays(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "side hem")
	start := place(w, k)
	w.table.OnSelect(at)
	w.rune('l')
	w.table.OnNudge(geom.Vec{X: 5}, board.Large)
	if place(w, k) != start {
		t.Error("a locked point moved")
	}
}

func TestAddAndRemoveAGradePoint(t *testing.T) {
	w := open(t)
	p := w.doc.Pattern()
	last := len(p.Pieces) - 1
	q := p.Pieces[last]
	line := w.doc.Result().Pieces[last].Edges[0]
	w.table.OnAddPoint(scene.Ref{Piece: q.ID, Edge: q.Edges[0].ID}, line[0].At(0.5))
	after := w.doc.Pattern().Pieces[last]
	if len(after.Points) != len(q.Points)+1 {
		t.Fatalf("%d points, had %d", len(after.Points), len(q.Points))
	}
	w.hand = scene.Ref{Piece: q.ID, Point: after.Points[1].ID}
	w.key(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if got := len(w.doc.Pattern().Pieces[last].Points); got != len(q.Points) {
		t.Errorf("%d points after removing it, want %d", got, len(q.Points))
	}
}

func TestPrintStep(t *testing.T) {
	w := open(t)
	w.enter(stepPrint)
	if w.table.Tool() != board.Arrange {
		t.Error("at the Print step the hand does not move pieces")
	}
	if w.print.why != "" || w.print.job.Pages() < 5 {
		t.Fatalf("%d pages, %s", w.print.job.Pages(), w.print.why)
	}
	a4 := w.print.job.Pages()
	for i, paper := range tile.Papers() {
		if paper.Name == "A0" {
			w.pages.OnPaper(i)
		}
	}
	if got := w.print.job.Pages(); got >= a4 {
		t.Errorf("A0 takes %d pages, A4 %d", got, a4)
	}
	if err := w.pages.OnMargin("90 mm"); err != nil {
		t.Errorf("A0 has room for a margin of 90 mm: %v", err)
	}
	w.pages.OnShown(0, false)
	if w.print.why == "" {
		t.Error("nothing to print, and nothing said")
	}
	w.pages.OnSize(8, true)
	w.pages.OnShown(0, true)
	if w.print.why != "" {
		t.Error(w.print.why)
	}
	all := len(w.print.ids)
	w.pages.OnPiece(0, false)
	if len(w.print.ids) != all-1 || slices.Contains(w.print.ids, w.doc.Pattern().Pieces[0].ID) {
		t.Errorf("one of %d pieces left out, %d are printed", all, len(w.print.ids))
	}
	w.pages.OnPiece(0, true)
	ids := w.print.ids
	before := w.print.now().Plan.Pieces[0].At
	w.table.OnDragPiece(ids[0], geom.Vec{X: 40}, board.DragStart)
	w.table.OnDragPiece(ids[0], geom.Vec{X: 40}, board.DragEnd)
	if after := w.print.now().Plan.Pieces[0].At; math.Abs(after.E-before.E-40) > 1e-9 {
		t.Errorf("the piece moved %.3f mm between the pages, want 40", after.E-before.E)
	}
	w.hand = scene.Ref{Piece: ids[0]}
	before = w.print.now().Plan.Pieces[0].At
	w.tools.OnTool(3)
	if after := w.print.now().Plan.Pieces[0].At; math.Abs(after.A+before.A) > 1e-9 || math.Abs(after.D+before.D) > 1e-9 {
		t.Error("the piece was not turned the other way up")
	}
	if !w.print.moved {
		t.Error("moved by hand, and laying out anew is not offered")
	}
	w.pages.OnAnew()
	if again := w.print.now().Plan.Pieces[0].At; w.print.moved || math.Abs(again.A-before.A) > 1e-9 {
		t.Error("laid out anew, the piece stays as it was turned")
	}
	if w.enter(stepGrade); w.table.Tool() != board.Move {
		t.Error("back at Grade the hand still arranges pages")
	}
}

// crashed is what would be offered had w ended now without closing: a window that
// is open holds its own journal, a copy of it is held by none.
func crashed(t *testing.T, w *Window) []safekeeping.Leftover {
	t.Helper()
	if err := w.safe.journal.Flush(); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(w.settingsDir)); err != nil {
		t.Fatal(err)
	}
	return safekeeping.Left(dir)
}

// Two windows on one file: the second has a copy, so that neither writes over
// the other; and what another program wrote is not lost without asking.
func TestTwoWindowsOnOneFile(t *testing.T) {
	first := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(first, path) {
		t.Fatal("not saved")
	}
	second := open(t)
	second.settingsDir = first.settingsDir
	second.open(path)
	if got := second.doc.Path(); got != "" {
		t.Errorf("opened at %q, not as a copy", got)
	}
	says := func() bool { return strings.Contains(second.status.Text(), "This is a copy") }
	second.table.OnPointer(geom.Pt(10, 10))
	if !says() {
		t.Errorf("of the copy the status bar says %q", second.status.Text())
	}
	if savedTo(second, path) {
		t.Error("the second window wrote over the file of the first")
	}
	if !savedTo(second, filepath.Join(t.TempDir(), "b.qstep")) || says() {
		t.Errorf("saved elsewhere, the status bar says %q", second.status.Text())
	}
	first.doc.Undo()
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(path, later, later); err != nil {
		t.Fatal(err)
	}
	done := false
	first.saveThen(func() { done = true })
	if done || !first.dialogOpen {
		t.Error("a file changed by another program is saved over without asking")
	}
}

func TestEarlierVersionsComeBack(t *testing.T) {
	w := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	name := w.doc.Pattern().Name
	rename := func(to string) {
		w.do("rename", func(p model.Pattern) (model.Pattern, error) {
			p.Name = to
			return p, nil
		})
	}
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	rename("B")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	versions := safekeeping.Earlier(w.settingsDir, path)
	if len(versions) != 1 || w.earlierMenu().Disabled {
		t.Fatalf("%d earlier versions", len(versions))
	}
	w.openEarlier(versions[0])
	if got := w.doc.Pattern().Name; got != name || w.doc.Path() != path || !w.doc.Dirty() {
		t.Errorf("the version before is %q at %q", got, w.doc.Path())
	}
}

func TestSaveOpenAndRecover(t *testing.T) {
	w := open(t)
	at, k := corner(t, w, "side hem")
	w.table.OnSelect(at)
	w.table.OnNudge(geom.Vec{X: 1}, board.Normal)
	moved := place(w, k)
	left := crashed(t, w)
	if len(left) != 1 || left[0].Changes != 1 || left[0].Name != w.doc.Pattern().Name {
		t.Fatalf("after a crash %d leftovers are offered: %+v", len(left), left)
	}
	other := open(t)
	other.bringBack(left[0])
	if place(other, k) != moved || !other.doc.Dirty() {
		t.Error("unsaved work is not had back")
	}
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	if left := crashed(t, w); len(left) != 0 {
		t.Errorf("after saving it is offered all the same: %+v", left)
	}
	w.doc.Undo()
	w.open(path)
	if place(w, k) != moved || w.doc.Dirty() {
		t.Error("the saved file does not read back")
	}
	if w.settings.Recent[0] != path {
		t.Errorf("recent files %v", w.settings.Recent)
	}
	if savedTo(w, filepath.Join(t.TempDir(), "gone", "a.qstep")) {
		t.Error("saving in a folder that is not there worked")
	}
}

func TestBringIn(t *testing.T) {
	w := open(t)
	bring := func(path string) {
		got, err := app.BringInByAnyChart(path, w.charts())
		w.broughtIn(path, got, err)
	}
	bring(filepath.Join("..", "testdata", "nests", "waistcoat-us-12-18.svg"))
	p := w.doc.Pattern()
	if len(p.Pieces) != 3 || p.Chart.ID != "us-misses" || p.Unit != model.Inches {
		t.Errorf("%d pieces by chart %s in %s", len(p.Pieces), p.Chart.ID, p.Unit)
	}
	bad := filepath.Join(t.TempDir(), "bad.svg")
	if err := os.WriteFile(bad, []byte("<svg><path d='M0"), 0o600); err != nil {
		t.Fatal(err)
	}
	bring(bad)
	if len(w.doc.Pattern().Pieces) != 3 {
		t.Error("a bad drawing changed the document")
	}
}

func TestTrueSizeByARulerOnTheScreen(t *testing.T) {
	w := open(t)
	before := w.table.View()
	w.tools.OnTrueSize()
	if !w.dialogOpen || w.table.View() != before {
		t.Error("true size is shown before anybody said how large the screen is")
	}
	w.asked.no()
	w.setScreen(400, "a hand")
	if w.settings.Screen != 0 {
		t.Error("words were taken for a length")
	}
	w.setScreen(400, "4 in")
	if got := w.table.View().Scale; math.Abs(got-100/25.4) > 1e-9 || math.Abs(w.table.Percent()-100) > 1e-9 {
		t.Errorf("true size shows %.4f px a mm, want %.4f", got, 100/25.4)
	}
	w.table.Fit()
	if w.tools.OnTrueSize(); w.dialogOpen || math.Abs(w.table.Percent()-100) > 1e-9 {
		t.Error("the screen is asked about again")
	}
}

func TestEmptyWindow(t *testing.T) {
	doc, err := session.New(model.Pattern{})
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{Dark: true}, "")
	if w.step != stepBringIn {
		t.Errorf("an empty window opens at step %d", w.step)
	}
	for _, r := range "mnriucle,.<>+-09123456" {
		w.rune(r)
	}
	w.savePDF()
	w.strip.OnChart(0)
	if w.doc.Pattern().Chart.ID == "" {
		t.Error("a chart cannot be chosen before there are pieces")
	}
}

// savedTo reports that the document was saved.
func savedTo(w *Window, path string) bool {
	saved := false
	w.saveTo(path, func() { saved = true })
	return saved
}
