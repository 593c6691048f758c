package ui

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// mark clicks a mark of the panel at places of the paper.
func mark(t *testing.T, w *Window, kind string, at geom.Vec, places ...geom.Point) {
	t.Helper()
	i := slices.IndexFunc(traceMarks(), func(m traceMark) bool { return m.kind == kind })
	if i < 0 {
		t.Fatalf("there is no mark %q", kind)
	}
	w.photos.Lines.OnMark(i)
	if m := traceMarks()[i]; len(places) != m.need || !strings.Contains(w.pillWords(), m.asks[0]) {
		t.Fatalf("%s takes %d clicks, asked is %q", kind, m.need, w.pillWords())
	}
	for _, c := range places {
		w.table.OnPlace(c.Add(at))
	}
	if w.paper.trace.mark.kind != "" { // notches go on until it is let go
		w.photos.Lines.OnMark(i)
	}
}

// Every mark is clicked on the picture and arrives on the piece, where it was.
func TestEveryMarkArrives(t *testing.T) {
	w, q, at := onBib(t)
	clickLine(t, w, q, "40", at)
	w.paper.trace.next = proposal{}
	w.takeRow(3)
	hem := q.Nest[3].Edges[3]
	mark(t, w, "grain line", at, geom.Pt(30, 60), geom.Pt(30, 110))
	mark(t, w, "lengthen line", at, geom.Pt(0, 100), geom.Pt(100, 100))
	mark(t, w, "bust line", at, geom.Pt(0, 70), geom.Pt(100, 70))
	mark(t, w, "waist line", at, geom.Pt(0, 115), geom.Pt(100, 115))
	mark(t, w, "hip line", at, geom.Pt(0, 130), geom.Pt(100, 130))
	mark(t, w, "notch", at, hem.Start().Lerp(hem.End(), 0.3))
	mark(t, w, "double notch", at, hem.Start().Lerp(hem.End(), 0.6))
	// A dart between the two ends of the shoulder, for want of another.
	shoulder := q.Nest[3].Edges[1]
	mark(t, w, "dart", at, shoulder.Start(), geom.Pt(80, 60), shoulder.End())
	if u := w.doc.UndoLabel(); u != "mark the dart" {
		t.Errorf("undo says %q", u)
	}
	w.photos.Lines.OnWay(traceOne)
	w.shelve()
	p := w.doc.Pattern()
	if len(p.Pieces) != 1 {
		t.Fatalf("%d pieces on the Shelf", len(p.Pieces))
	}
	got := p.Pieces[0]
	for _, kind := range []model.LineKind{model.Grain, model.Lengthen, model.BustLine, model.WaistLine, model.HipLine} {
		if !slices.ContainsFunc(got.Lines, func(l model.Line) bool { return l.Kind == kind }) {
			t.Errorf("the piece has no %s", kind)
		}
	}
	if len(got.Notches) != 2 || got.Notches[0].Double || !got.Notches[1].Double {
		t.Errorf("its notches are %+v", got.Notches)
	}
	if len(got.Darts) != 1 || got.Darts[0].Apex[0].At.Dist(geom.Pt(80, 60).Add(at)) > 0.01 {
		t.Errorf("its darts are %+v", got.Darts)
	}
}

// A mark that was clicked amiss goes by a right click.
func TestAMarkIsTakenAway(t *testing.T) {
	w, q, at := onBib(t)
	clickLine(t, w, q, "40", at)
	w.paper.trace.next = proposal{}
	w.takeRow(3)
	mark(t, w, "grain line", at, geom.Pt(30, 60), geom.Pt(30, 110))
	choose(t, w, geom.Pt(30, 85).Add(at), "Take this grain line away")
	if k, _ := w.tracing(); len(k.Lines) != 0 {
		t.Errorf("left are %+v", k.Lines)
	}
}

// A dart marked in one size is asked for in the others that are traced.
func TestDartIsAskedForInEverySize(t *testing.T) {
	k := model.Tracing{
		Sizes: []model.TracedSize{{Size: "48", Closed: true}, {Size: "40"}, {Size: "34", Closed: true}},
		Darts: []model.TracedDart{{Size: "34"}},
	}
	if size, missing := withoutDart(k, "34"); !missing || size != "48" {
		t.Errorf("missing in %q, %v", size, missing)
	}
	k.Darts = append(k.Darts, model.TracedDart{Size: "48"})
	if size, missing := withoutDart(k, "48"); missing {
		t.Errorf("marked everywhere, and missing in %q", size)
	}
}

// A chart is named with the sizes it has where it is chosen.
func TestChartsSayTheirSizes(t *testing.T) {
	w, _, _ := onBib(t)
	v := w.linesView(w.doc.Pattern(), w.photo())
	for i, c := range w.charts() {
		want := c.Name + ", " + c.Sizes[0].Name + " to " + c.Sizes[len(c.Sizes)-1].Name
		if v.Charts[i] != want {
			t.Errorf("%s is offered as %q", c.Name, v.Charts[i])
		}
	}
}

// Two pieces come from one photo: the second is begun as the first lies on the
// Shelf, and has a name of its own.
func TestTwoPiecesFromOnePhoto(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnWay(traceOne)
	for _, name := range []string{"Bib", "Bib lining"} {
		if err := w.photos.Lines.OnName(name); err != nil {
			t.Fatal(err)
		}
		clickLine(t, w, q, "40", at)
		w.shelve()
	}
	p := w.doc.Pattern()
	if len(p.Pieces) != 2 || p.Pieces[0].Name != "Bib" || p.Pieces[1].Name != "Bib lining" || len(p.Tracings) != 0 {
		t.Fatalf("on the Shelf are %+v", p.Pieces)
	}
	if p.Pieces[0].Picture != p.Pieces[1].Picture {
		t.Error("the two pieces are not of one photo")
	}
}

// Cut on the fold asks for the edge that lies on it, which is straight then; cut
// otherwise, no edge does.
func TestCutOnTheFold(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnCut(1)
	clickLine(t, w, q, "40", at)
	w.paper.trace.next = proposal{}
	w.takeRow(3)
	w.photos.Lines.OnCut(1)
	if ask := w.pillWords(); !strings.Contains(ask, "the edge that lies on the fold") {
		t.Fatalf("asked is %q", ask)
	}
	w.table.OnPlace(geom.Pt(1, 100).Add(at))
	k, _ := w.tracing()
	if len(k.Edges) != 5 || k.Edges[4].Kind != model.Fold || k.Cut != 1 {
		t.Fatalf("cut %d, edges %+v", k.Cut, k.Edges)
	}
	if v := w.linesView(w.doc.Pattern(), w.photo()); v.Cuts[v.Cut] != "1 on the fold" {
		t.Errorf("the panel says %q", v.Cuts[v.Cut])
	}
	w.photos.Lines.OnCut(2)
	if k, _ := w.tracing(); hasFold(k) || k.Cut != 2 {
		t.Errorf("cut %d, edges %+v", k.Cut, k.Edges)
	}
}
