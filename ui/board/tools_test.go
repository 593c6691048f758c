package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

func TestMeasuringReadsTheGap(t *testing.T) {
	b := newTable(t)
	b.SetTool(Measure)
	front := b.in.Pattern.Pieces[0]
	// From the largest printed side seam straight across to the computed one,
	// with a hand 3 px off at either end.
	y := front.At.Y + 400
	cs := scene.Crossings(b.in, geom.Pt(150, y), geom.Pt(400, y), 1e-3)
	from, to, ok := scene.Reading(cs)
	if !ok {
		t.Fatal("no gap there")
	}
	a, z := b.at(geom.Pt(150+from.S, y)), b.at(geom.Pt(150+to.S, y))
	b.press(move(a, 3, 0))
	b.drag(move(z, -20, 1))
	b.drag(move(z, -4, 2))
	b.release(move(z, -4, 2))
	p, q, ok := b.Measured()
	if !ok || math.Abs(q.Sub(p).Len()-(to.S-from.S)) > 0.3 || math.Abs(q.Y-p.Y) > 1e-9 {
		t.Errorf("measured %v to %v, the gap is %.2f mm", p, q, to.S-from.S)
	}
	if got := b.parts.measure.figure.caption.Text; got != "straight across" {
		t.Errorf("it says %q", got)
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if _, _, ok := b.Measured(); ok {
		t.Error("the measure stays")
	}
	b.expect()
	// Corner to corner.
	b.press(move(b.pointAt("hps"), 4, 3))
	b.drag(move(b.pointAt("tip"), 5, -5))
	b.release(move(b.pointAt("tip"), 5, -5))
	p, q, _ = b.Measured()
	edge := b.in.Edges(0)[1]
	if p != edge.Start() || q != edge.End() {
		t.Errorf("measured %v to %v, the shoulder goes from %v to %v", p, q, edge.Start(), edge.End())
	}
	// Exactly a quarter and an eighth, as a tape would be read.
	f := b.parts.measure.figure
	f.show(25.4*3/8, "", 10, 10)
	if f.amount.Text != "3\u20448" || f.unit.Text != "in" {
		t.Errorf("3/8 in is shown as %q %q", f.amount.Text, f.unit.Text)
	}
	f.show(25.4*27/16, "", 10, 10)
	if f.amount.Text != "1\u200911\u204416" {
		t.Errorf("1 11/16 in is shown as %q", f.amount.Text)
	}
}

// Two clicks measure as a drag does: the other end follows the pointer in between, a
// hand that shakes makes no difference, and a third click begins anew.
func TestMeasuringByTwoClicks(t *testing.T) {
	b := newTable(t)
	b.SetTool(Measure)
	shoulder := b.in.Edges(0)[1]
	click := func(name string) {
		b.press(b.pointAt(name))
		b.drag(move(b.pointAt(name), 2, 0))
		b.release(move(b.pointAt(name), 2, 0))
	}
	click("hps")
	b.MouseMoved(mouse(move(b.pointAt("tip"), -60, 0), 0))
	b.catchUp()
	if p, q, ok := b.Measured(); !ok || p != shoulder.Start() || q == p || b.parts.measure.figure.amount.Text == "" {
		t.Errorf("between the clicks it measures %v to %v, %v", p, q, ok)
	}
	click("tip")
	b.MouseMoved(mouse(move(b.pointAt("tip"), 90, 90), 0))
	b.catchUp()
	if p, q, _ := b.Measured(); p != shoulder.Start() || q != shoulder.End() {
		t.Errorf("measured %v to %v, the shoulder goes from %v to %v", p, q, shoulder.Start(), shoulder.End())
	}
	click("tip")
	if p, q, ok := b.Measured(); !ok || p != shoulder.End() || q != p {
		t.Errorf("a third click measures %v to %v", p, q)
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	b.MouseMoved(mouse(b.pointAt("hps"), 0))
	b.catchUp()
	if _, _, ok := b.Measured(); ok {
		t.Error("Escape leaves the measure")
	}
}

// The close-up names the lines it shows and measures the gaps level with the
// pointer: as far apart as the lines themselves.
func TestCloseUpReadsTheGaps(t *testing.T) {
	b := newTable(t)
	b.SetCloseUp(true)
	y := b.in.Pattern.Pieces[0].At.Y + 400
	all := scene.Crossings(b.in, geom.Pt(150, y), geom.Pt(400, y), 1e-3)
	_, to, ok := scene.Reading(all)
	if !ok {
		t.Fatal("no gap there")
	}
	here := geom.Pt(150+to.S-20, y)
	b.MouseMoved(mouse(b.at(here), 0))
	v := view.View{Scale: b.view.Scale * lensZoom}
	v.Origin = here.Add(v.MM(px(150, 80)).Scale(-1))
	l := b.parts.lens.gaps(v, 300, 160)
	var words []string
	for _, x := range l.Texts {
		words = append(words, x.Words)
	}
	gap, _ := splitUnit(measure.FormatMM(all[len(all)-1].S-all[len(all)-2].S, model.Inches))
	for _, want := range []string{"40", "48", gap} {
		if !slices.Contains(words, want) {
			t.Errorf("the close-up says %q, not %q", words, want)
		}
	}
	for _, k := range l.Lines {
		if a, z := k.Path.Start(), k.Path.End(); a.Y == z.Y {
			mm := (z.X - a.X) / v.Scale
			if shown, _ := splitUnit(measure.FormatMM(mm, model.Inches)); !slices.Contains(words, shown) {
				t.Errorf("a bar of %.2f mm has no figure among %q", mm, words)
			}
		}
	}
}

// The ruler comes to lie across the edge in hand and reads the gap there.
func TestRulerIsLaidAcrossWhatIsInHand(t *testing.T) {
	b := newTable(t)
	piece := b.in.Pattern.Pieces[0]
	for _, e := range piece.Edges {
		b.in.Select = scene.Ref{Piece: piece.ID, Edge: e.ID}
		b.SetScene(b.in)
		at, ok := b.placeInHand()
		if !ok {
			t.Fatalf("%s has no place", e.Name)
		}
		b.SetRuler(false)
		b.SetRuler(true)
		r := b.parts.ruler
		if v := at.Sub(r.zero); math.Abs(v.Cross(r.dir)) > 1e-6 || v.Dot(r.dir) <= 0 || v.Dot(r.dir) >= r.length() {
			t.Errorf("%s: the ruler begins at %v, the middle of the edge is %v", e.Name, r.zero, at)
		}
	}
}

func TestSeeThroughRuler(t *testing.T) {
	b := newTable(t)
	b.SetRuler(true)
	r := b.parts.ruler
	y := b.in.Pattern.Pieces[0].At.Y + 400
	r.zero = geom.Pt(240, y)
	r.place()
	if !r.figure.amount.Visible() || r.figure.caption.Text != "from 40 to 48, straight across" {
		t.Errorf("it reads %q", r.figure.caption.Text)
	}
	// Drag it by its body: it goes with the hand, the document is left alone.
	zero := b.view.ToPx(r.zero)
	hold := pos(zero.X+60+rulerLeft, zero.Y+20+rulerTop)
	b.press(hold)
	b.drag(move(hold, 10, 40))
	b.release(move(hold, 10, 40))
	if d := b.view.ToPx(r.zero).Sub(zero); math.Abs(d.X-10) > 1e-6 || math.Abs(d.Y-40) > 1e-6 {
		t.Errorf("it slid by %v", d)
	}
	// Turn it by its far end, to nearly upright: it stands upright.
	end := b.view.ToPx(r.zero.Add(r.dir.Scale(r.length())))
	hold = pos(end.X+rulerLeft, end.Y+8+rulerTop)
	b.press(hold)
	zero = b.view.ToPx(r.zero)
	b.drag(pos(zero.X+4+rulerLeft, zero.Y+150+rulerTop))
	b.release(hold)
	if r.dir != (geom.Vec{Y: 1}) {
		t.Errorf("it points to %v", r.dir)
	}
	b.expect()
	b.SetRuler(false)
	if r.raster.Visible() {
		t.Error("it stays on the Table")
	}
}

func TestAddPointSaysWhere(t *testing.T) {
	b := newTable(t)
	b.SetTool(AddPoint)
	b.click(move(b.midEdge("side seam"), 3, 0))
	on := b.in.Edges(0)[6][0].At(0.5).Add(b.in.Pattern.Pieces[0].At.Scale(-1))
	said := b.said()
	var edge string
	var x, y float64
	if len(said) != 1 {
		t.Fatalf("the board said %q", said)
	}
	if _, err := fmt.Sscanf(said[0], "add side %s %f,%f", &edge, &x, &y); err != nil {
		t.Fatal(err, said)
	}
	if geom.Pt(x, y).Dist(on) > 1 {
		t.Errorf("at %g, %g, want %v", x, y, on)
	}
	b.click(b.at(geom.Pt(120, 200)))
	b.expect()
}

// A measure whose ends lie on one curved edge also says how long the edge is
// between them: the length of the whole edge, corner to corner.
func TestMeasuringAlongAnEdge(t *testing.T) {
	b := newTable(t)
	b.SetTool(Measure)
	var edge geom.Path
	for _, e := range b.in.Edges(0) {
		if m, err := geom.Measure(e, 1e-4); err == nil && m.Length() > 1.02*e.Start().Dist(e.End()) {
			edge = e
		}
	}
	if len(edge) == 0 {
		t.Fatal("no edge is curved")
	}
	whole, err := geom.Measure(edge, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	b.parts.measure.begin(edge.Start())
	b.parts.measure.end(edge.End())
	if s, ok := b.parts.measure.along(); !ok || math.Abs(s-whole.Length()) > 0.05 {
		t.Errorf("along the edge %v, %v; it is %v", s, ok, whole.Length())
	}
	if got := b.parts.measure.figure.caption.Text; !strings.Contains(got, "; along the edge ") {
		t.Errorf("it says %q", got)
	}
	b.parts.measure.end(edge.Start().Add(geom.Vec{X: 40, Y: -70}))
	if _, ok := b.parts.measure.along(); ok {
		t.Error("an end beside the edge is measured along it")
	}
}

// Over the see-through ruler the pointer says that it slides, at its end that it
// turns.
func TestCursorOverTheRuler(t *testing.T) {
	b := newTable(t)
	b.SetRuler(true)
	r := b.parts.ruler
	zero, long := b.view.ToPx(r.zero), r.length()*b.view.Scale
	b.inside, b.pointer = true, zero.Add(view.Px{X: long / 2, Y: ruleBreadth / 2})
	if b.Cursor() != desktop.Cursor(b.cursors.slide) {
		t.Errorf("over the ruler the pointer is %v", b.Cursor())
	}
	b.pointer = zero.Add(view.Px{X: long, Y: ruleBreadth / 2})
	if b.Cursor() != desktop.PointerCursor {
		t.Errorf("over its end the pointer is %v", b.Cursor())
	}
}
