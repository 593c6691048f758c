package scene

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// rounds is a round piece of so many curves with an allowance all round.
func rounds(n int) (model.Piece, grading.Piece) {
	var line []geom.Point
	for i := range n + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		line = append(line, geom.Pt(300*cos, 300*sin))
	}
	half := n / 2
	q := model.Piece{ID: "d", Edges: []model.Edge{{ID: "1", Allowance: 10}, {ID: "2", Allowance: 10}}}
	return q, grading.Piece{Edges: []geom.Path{geom.Polyline(line[:half+1]...), geom.Polyline(line[half:]...)}}
}

// TestRoomsAreThoseOfNow: what is remembered counts only where nothing has changed.
func TestRoomsAreThoseOfNow(t *testing.T) {
	r := Rooms{}
	_, round := rounds(40)
	whole := geom.Join(round.Edges...)
	bar := [][]geom.Point{{geom.Pt(0, -300), geom.Pt(0, 300)}}
	for _, c := range []struct {
		outline   geom.Path
		obstacles [][]geom.Point
	}{{whole, nil}, {whole, nil}, {whole, bar}, {whole.Transform(geom.Translate(geom.Vec{X: 50})), bar}, {whole, bar[:0]}} {
		at, room := r.roomiest("d", c.outline, c.obstacles)
		if wantAt, want := roomiest(c.outline, c.obstacles); at != wantAt || room != want {
			t.Errorf("room of %v at %v, want %v at %v", room, at, want, wantAt)
		}
	}
}

// TestSewnBeside: a stitching line of very many curves is worked out elsewhere, one at a
// time; until it is there none is drawn, and never one of another cutting line.
func TestSewnBeside(t *testing.T) {
	var works, dones []func()
	s := &Sewn{Aside: func(work, done func()) { works, dones = append(works, work), append(dones, done) }}
	q, few := rounds(40)
	if got := s.line(q, few); len(got) != 2 || len(works) != 0 {
		t.Fatalf("few curves: %d lines, %d works elsewhere", len(got), len(works))
	}
	_, many := rounds(2 * curvesAtOnce)
	_, other := rounds(2 * curvesAtOnce)
	for _, r := range []grading.Piece{many, many, other} {
		if s.line(q, r) != nil || len(works) != 1 {
			t.Fatalf("many curves: %d works elsewhere", len(works))
		}
	}
	works[0]()
	dones[0]()
	if s.line(q, other) != nil || len(works) != 2 {
		t.Errorf("the line of another cutting line is drawn, %d works", len(works))
	}
	works[1]()
	dones[1]()
	got := s.line(q, other)
	if len(got) != 2 || len(works) != 2 {
		t.Fatalf("%d lines, %d works", len(got), len(works))
	}
	for _, p := range got[0].Flatten(0.1) { // a circle within a circle (geometry)
		if r := math.Hypot(p.X, p.Y); math.Abs(r-290) > 0.2 {
			t.Fatalf("it lies at %.2f mm, want 290", r)
		}
	}
	var none *Sewn
	if len(none.line(q, many)) != 2 {
		t.Error("without a memory no line is drawn")
	}
}
