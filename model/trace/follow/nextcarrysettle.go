package follow

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// settle takes corners that have moved so to where the printed lines on both
// sides of them meet, to a part of a millimetre.
func (s *carry) settle(moves []geom.Vec, known map[int]geom.Point) []geom.Point {
	n := len(moves)
	out := slices.Clone(moves)
	for range 2 {
		now := slices.Clone(out)
		for i := range n {
			by := s.nudge(i, now)
			if _, sure := known[i]; !sure && out[i].Add(by).Sub(moves[i]).Len() < mostNudge {
				out[i] = out[i].Add(by)
			}
		}
	}
	at := make([]geom.Point, n)
	for i := range n {
		at[i] = s.from.corner(i).Add(out[i])
		if p, sure := known[i]; sure {
			at[i] = p
			continue
		}
		last := s.from.edges[(i+n-1)%n]
		if x, ok := s.raysMeet(last[len(last)-1].dir, s.from.edges[i][0].dir, at[i]); ok {
			at[i] = x
		}
	}
	return at
}

// nudge is how far corner i must go for the lines on both sides of it.
func (s *carry) nudge(i int, moves []geom.Vec) geom.Vec {
	n := len(moves)
	h := (i + n - 1) % n
	before, okb := s.asideOf(h, moves[h], moves[i], true)
	after, oka := s.asideOf(i, moves[i], moves[(i+1)%n], false)
	last := s.from.edges[h]
	u, v := last[len(last)-1].out, s.from.edges[i][0].out
	cross := u.Cross(v)
	switch {
	case okb && oka && math.Abs(cross) > 0.3:
		return geom.Vec{X: (before*v.Y - after*u.Y) / cross, Y: (after*u.X - before*v.X) / cross}
	case okb && oka:
		return u.Add(v).Unit().Scale((before + after) / 2)
	case okb:
		return u.Scale(before)
	case oka:
		return v.Scale(after)
	}
	return geom.Vec{}
}

// asideOf is how far out of carried edge i its printed line lies at its last or
// first corner, in mm.
func (s *carry) asideOf(i int, a, b geom.Vec, atEnd bool) (float64, bool) {
	e := s.from.edges[i]
	length := s.from.length(i)
	var t, off []float64
	for k, p := range e {
		far := p.far
		if atEnd {
			far = length - p.far
		}
		if far > armReach || far < min(1.5, length/4) {
			continue
		}
		at := s.at(i, k, a, b, 0)
		if o, ok := s.printBeside(at, p, besideArm); ok {
			t, off = append(t, far), append(off, o)
		}
	}
	return atZero(t, off)
}

// course is a traced edge carried to its two corners.
func (s *carry) course(from, to geom.Point, traced []geom.Point) []geom.Point {
	n := len(traced) - 1
	a, b := from.Sub(traced[0]), to.Sub(traced[n])
	out := make([]geom.Point, n+1)
	for k := range out {
		u := float64(k) / float64(n)
		out[k] = traced[k].Add(a.Scale(1 - u)).Add(b.Scale(u))
	}
	return out
}
