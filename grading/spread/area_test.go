package spread_test

import (
	"math"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Paper cut and laid apart covers its own area and that of the gap, which is as
// long as the cut and as wide as the spread. Blending the edges changes that by
// next to nothing, line by line: as much is added as is taken off.
func TestBlendingKeepsTheAreaOfTheCutPaper(t *testing.T) {
	const by = 0.25 * inch
	for _, q := range blousePieces(t) {
		before := whole(q.Nest[0].Edges).Area()
		for _, c := range q.Cuts {
			one := q
			c.Share = 1
			one.Cuts = []model.Cut{c}
			gap := by * c.From.Dist(c.To)
			after := whole(edges(t, one, grows{model.Bust: by, model.BackWaist: by})).Area()
			off := (math.Abs(after-before) - gap) / gap
			if math.Abs(off) > 0.05 {
				t.Errorf("%s, cut at %v: the area grows by %.0f mm², the gap has %.0f: %.1f%% off", q.Name, c.From, after-before, gap, 100*off)
			}
		}
	}
}

// The two cut ends of an edge stand apart by the gap; splitting the difference
// puts the line half way between them, and there it passes within a tenth of the
// gap ("on overlap split the difference": T. Horlamus, Threads no. 101).
func TestTheLinePassesBetweenTheCutEnds(t *testing.T) {
	const by = 0.25 * inch
	for _, q := range blousePieces(t) {
		for _, c := range q.Cuts {
			c.Share = 1
			one := q
			one.Cuts = []model.Cut{c}
			s := read(t, one)
			g := grows{model.Bust: by, model.BackWaist: by}
			got := whole(edges(t, one, g))
			side := c.To.Sub(c.From).Unit().Perp()
			for _, end := range []geom.Point{c.From, c.To} {
				a := end.Add(s.At(end.Add(side.Scale(3)), g.by))
				b := end.Add(s.At(end.Add(side.Scale(-3)), g.by))
				_, _, d := got.Nearest(a.Lerp(b, 0.5), 1e-6)
				if d > by/10 {
					t.Errorf("%s, cut at %v: the line passes %.2f mm from between the two cut ends", q.Name, end, d)
				}
			}
		}
	}
}
