package spread_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// drawn is a piece of the blouse with the proposed cut lines, their shares
// drawn anew, and a growth of three sizes down to eight up.
func drawn(t *rapid.T, pieces []model.Piece) (model.Piece, grows) {
	q := pieces[rapid.IntRange(0, len(pieces)-1).Draw(t, "piece")]
	q.Cuts = append([]model.Cut(nil), q.Cuts...)
	for i := range q.Cuts {
		q.Cuts[i].Share *= rapid.Float64Range(0, 2).Draw(t, "share")
	}
	k := rapid.Float64Range(-3, 8).Draw(t, "inches")
	return q, grows{model.Bust: k * inch, model.BackWaist: k * inch / 8}
}

func blousePieces(t testing.TB) []model.Piece {
	c := chart(t, "us-misses")
	var out []model.Piece
	for _, q := range blouse(t, c, "12").Pieces[:3] {
		out = append(out, withDefaults(t, q, c))
	}
	return out
}

func spreadBy(t *rapid.T, q model.Piece, g grows) []geom.Path {
	s := readIn(t, q)
	out, err := s.Edges(g.by)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Whatever the shares, the outline does not run across itself, no edge has a
// bend that the print has not, and the fold or centre edge keeps to its line.
func TestNoNewBendAndNoCrossing(t *testing.T) {
	pieces := blousePieces(t)
	rapid.Check(t, func(t *rapid.T) {
		q, g := drawn(t, pieces)
		got := spreadBy(t, q, g)
		for j, e := range got {
			was := q.Nest[0].Edges[j]
			if len(e) != len(was) {
				t.Errorf("the %s has %d curves, printed %d", q.Edges[j].Name, len(e), len(was))
			}
			if a, b := bends(t, e), bends(t, was); a > b {
				t.Errorf("the %s of %s bends %d times, printed %d", q.Edges[j].Name, q.Name, a, b)
			}
			if q.Edges[j].Kind == model.Fold || q.Edges[j].Kind == model.Centre {
				for _, p := range e.Controls() {
					if math.Abs(p.X-was.Start().X) > 1e-9 {
						t.Errorf("the %s moved across itself to %g", q.Edges[j].Name, p.X)
					}
				}
			}
		}
		if x := geom.SelfCrossings(whole(got), 1e-3); len(x) > 0 {
			t.Errorf("%s runs across itself at %v", q.Name, x[0].At)
		}
	})
}

// bends counts how often a path changes the way it curves, leaving out changes
// of less than 0.15 degrees over a forty-eighth of it.
func bends(t *rapid.T, p geom.Path) int {
	const places = 48
	m, err := geom.Measure(p, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	count, way, before := 0, 0.0, m.Tangent(0)
	for i := 1; i <= places; i++ {
		now := m.Tangent(m.Length() * float64(i) / places)
		turn := math.Atan2(before.Cross(now), before.Dot(now)) * 180 / math.Pi
		before = now
		if math.Abs(turn) < 0.15 {
			continue
		}
		if way*turn < 0 {
			count++
		}
		way = turn
	}
	return count
}

// A line that was smooth at a joint of its curves, or where two edges meet at a
// smooth grade point, is as smooth once spread; at its corners a curved edge
// sets off and arrives in its printed direction.
func TestSmoothStaysSmooth(t *testing.T) {
	pieces := blousePieces(t)
	rapid.Check(t, func(t *rapid.T) {
		q, g := drawn(t, pieces)
		got := spreadBy(t, q, g)
		n := len(got)
		for j, e := range got {
			was := q.Nest[0].Edges[j]
			for i := 0; i+1 < len(e); i++ {
				if k, printed := kink(e[i:i+1], e[i+1:i+2]), kink(was[i:i+1], was[i+1:i+2]); k > printed+1e-9 {
					t.Errorf("the %s kinks by %g at joint %d", q.Edges[j].Name, k, i+1)
				}
			}
			next := (j + 1) % n
			if k, printed := kink(e, got[next]), kink(was, q.Nest[0].Edges[next]); q.Points[next].Smooth && k > printed+1e-9 {
				t.Errorf("the line of %s kinks by %g after the %s, printed %g", q.Name, k, q.Edges[j].Name, printed)
			}
			if was.IsStraight(0.1) {
				if !e.IsStraight(1e-6) {
					t.Errorf("the %s is straight no more", q.Edges[j].Name)
				}
				continue
			}
			if !q.Points[j].Smooth && math.Abs(e.StartDir().Cross(was.StartDir())) > 1e-9 {
				t.Errorf("the %s sets off in another direction", q.Edges[j].Name)
			}
			if !q.Points[next].Smooth && math.Abs(e.EndDir().Cross(was.EndDir())) > 1e-9 {
				t.Errorf("the %s arrives in another direction", q.Edges[j].Name)
			}
		}
	})
}

// kink is the sine of the turn from the end of a to the start of b; 2 where it
// turns back.
func kink(a, b geom.Path) float64 {
	if a.EndDir().Dot(b.StartDir()) < 0 {
		return 2
	}
	return math.Abs(a.EndDir().Cross(b.StartDir()))
}

// Spread by one amount and then by another is spread by the sum; by nothing it
// is the printed line; grade points go as At says; an edge between two points
// that no cut crosses moves as it is.
func TestSpreadingIsInProportion(t *testing.T) {
	pieces := blousePieces(t)
	rapid.Check(t, func(t *rapid.T) {
		q, g := drawn(t, pieces)
		s := readIn(t, q)
		there, back, none := spreadBy(t, q, g), spreadBy(t, q, scaled(g, -0.25)), spreadBy(t, q, grows{})
		for j, e := range there {
			a, b, z, was := e.Controls(), back[j].Controls(), none[j].Controls(), q.Nest[0].Edges[j].Controls()
			rigid := true
			for k, p := range was {
				move := a[k].Sub(p)
				if move.Add(b[k].Sub(p).Scale(4)).Len() > 1e-9 || z[k].Dist(p) > 1e-9 {
					t.Errorf("the %s does not come back", q.Edges[j].Name)
				}
				rigid = rigid && move.Sub(a[0].Sub(was[0])).Len() < 1e-9
			}
			if v := s.At(was[0], g.by); v.Sub(a[0].Sub(was[0])).Len() > 1e-9 {
				t.Errorf("the %s moves by %v, At says %v", q.Points[j].Name, a[0].Sub(was[0]), v)
			}
			if !rigid && !crossedByACut(q, j) {
				t.Errorf("no cut crosses the %s of %s, and yet its shape changed", q.Edges[j].Name, q.Name)
			}
		}
	})
}

func scaled(g grows, k float64) grows {
	out := grows{}
	for m, v := range g {
		out[m] = k * v
	}
	return out
}

// crossedByACut reports that a cut ends on edge j, or that j may go on in a
// straight line with one that is cut.
func crossedByACut(q model.Piece, j int) bool {
	e := q.Nest[0].Edges[j]
	for _, c := range q.Cuts {
		for _, p := range []geom.Point{c.From, c.To} {
			if _, _, d := e.Nearest(p, 1e-6); d < 1e-4 {
				return true
			}
		}
	}
	next := (j + 1) % len(q.Points)
	return e.IsStraight(0.1) && (q.Points[j].Smooth || q.Points[next].Smooth)
}
