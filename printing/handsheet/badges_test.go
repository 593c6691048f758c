package handsheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// On any piece that bulges all round, with up to 14 points that all move both
// ways, the numbers and their arrows lie clear of each other and of the line,
// and within the room of the drawing.
func TestNumbersLieClear(t *testing.T) {
	room := geom.Box{Max: geom.Pt(110, 90)}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 14).Draw(t, "points")
		rx, ry := rapid.Float64Range(25, 42).Draw(t, "rx"), rapid.Float64Range(20, 31).Draw(t, "ry")
		s := Sheet{}
		at := func(k int) geom.Point {
			a := 2 * math.Pi * float64(k) / float64(n)
			return room.Centre().Add(geom.Vec{X: rx * math.Cos(a), Y: ry * math.Sin(a)})
		}
		for k := range n {
			s.Wanted = append(s.Wanted, geom.Path{geom.Line(at(k), at(k+1))})
			s.Points = append(s.Points, Point{
				At: at(k), Right: rapid.Bool().Draw(t, "right"),
				Out:  Moves{Stages: []float64{rapid.SampledFrom([]float64{-9, 0, 9}).Draw(t, "out")}},
				Down: Moves{Stages: []float64{rapid.SampledFrom([]float64{-9, 0, 9}).Draw(t, "down")}},
			})
		}
		d := &document{s: s, ruler: RulerFor(s, measure.Millimetres)}
		all := d.badges(room, geom.Identity(), s.Wanted)
		for i, b := range all {
			for _, box := range b.boxes() {
				if !room.Contains(box.Min) || !room.Contains(box.Max) {
					t.Fatalf("number %d is out of the room: %v", i+1, box)
				}
				for _, e := range s.Wanted {
					if crosses([2]geom.Point{e.Start(), e.End()}, box) {
						t.Fatalf("number %d lies on the line", i+1)
					}
				}
				for j, o := range all[:i] {
					for _, other := range o.boxes() {
						if box.Intersects(other) {
							t.Fatalf("numbers %d and %d lie on each other", i+1, j+1)
						}
					}
				}
			}
		}
	})
}
