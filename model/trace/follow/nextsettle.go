package follow

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// settle takes the chosen corners to where the printed lines on both sides of
// them meet, to a part of a millimetre.
func (s *nextSearch) settle(choice []int) []geom.Vec {
	n := len(choice)
	out := make([]geom.Vec, n)
	for i, c := range choice {
		out[i] = s.moves[i][c].by
	}
	for range 2 {
		now := slices.Clone(out)
		for i := range n {
			by := s.nudge(i, now)
			if out[i].Add(by).Add(s.moves[i][choice[i]].by.Scale(-1)).Len() < mostNudge {
				out[i] = out[i].Add(by)
			}
		}
	}
	for i := range n {
		if at, ok := s.meeting(i, s.from.corner(i).Add(out[i])); ok {
			out[i] = at.Sub(s.from.corner(i))
		}
	}
	return out
}

// meeting is where the dashes on both sides of corner i that are nearest to a
// place meet, if they do within a millimetre of it.
func (s *nextSearch) meeting(i int, near geom.Point) (at geom.Point, ok bool) {
	n := len(s.from.edges)
	last := s.from.edges[(i+n-1)%n]
	before, after := last[len(last)-1].dir, s.from.edges[i][0].dir
	const askew, reach = 0.35, 1.0
	least := reach
	rays := s.web.linesNear(near, reach+mostExtend+pieceLength)
	for _, a := range rays {
		if math.Abs(a.dir.Cross(before)) > askew || a.at.Sub(near).Dot(before) > 0.5 {
			continue
		}
		for _, b := range rays {
			if math.Abs(b.dir.Cross(after)) > askew || b.at.Sub(near).Dot(after) < -0.5 {
				continue
			}
			x, extend, meets := a.meet(b)
			if d := x.Dist(near) + 0.1*extend; meets && d < least {
				at, ok, least = x, true, d
			}
		}
	}
	return at, ok
}

const (
	mostNudge = 1.5 // mm: how far a corner is taken from where it was found
	besideArm = 0.9 // mm: print further from a carried edge is not its own
)

// nudge is how far corner i must go for the lines on both sides of it.
func (s *nextSearch) nudge(i int, moves []geom.Vec) geom.Vec {
	n := len(moves)
	h := (i + n - 1) % n
	before, okb := s.aside(h, moves[h], moves[i], true)
	after, oka := s.aside(i, moves[i], moves[(i+1)%n], false)
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

// aside is how far out of carried edge i its printed line lies at its last or
// first corner, in mm.
func (s *nextSearch) aside(i int, a, b geom.Vec, atEnd bool) (float64, bool) {
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
		at := s.carried(i, k, a, b, 0)
		best, found := besideArm, false
		s.web.grid.near(at, besideArm, func(j int32) {
			d := &s.web.dashes[j]
			if !d.dot && math.Abs(turn(along(d.dir, 0), along(math.Atan2(p.dir.Y, p.dir.X), 0))) > 0.3 &&
				math.Abs(turn(along(d.dir, math.Pi/2), along(math.Atan2(p.dir.Y, p.dir.X), math.Pi/2))) > 0.3 {
				return
			}
			q, _, dist := d.nearest(at)
			if o := q.Sub(at).Dot(p.out); dist < 1.2 && math.Abs(o) < math.Abs(best) && math.Abs(q.Sub(at).Dot(p.dir)) < 0.6 {
				best, found = o, true
			}
		})
		if found {
			t, off = append(t, far), append(off, best)
		}
	}
	return atZero(t, off)
}

// atZero is the value at 0 of the straight line nearest to the values, those
// that stand out left away.
func atZero(t, v []float64) (float64, bool) {
	if len(t) < 3 {
		return 0, false
	}
	keep := make([]bool, len(t))
	for i := range keep {
		keep[i] = true
	}
	var a, b float64
	for _, limit := range []float64{0.35, 0.2, 0} {
		var n, st, sv, stt, stv float64
		for i := range t {
			if keep[i] {
				n++
				st, sv, stt, stv = st+t[i], sv+v[i], stt+t[i]*t[i], stv+t[i]*v[i]
			}
		}
		if n < 3 {
			return 0, false
		}
		b = 0
		if d := n*stt - st*st; d > 4*n*n {
			b = (n*stv - st*sv) / d
		}
		a = (sv - b*st) / n
		for i := range t {
			keep[i] = math.Abs(v[i]-a-b*t[i]) < limit
		}
	}
	return a, true
}

// otherPlace is by how much a choice with the corner elsewhere must be worse
// to be no doubt.
const otherPlace = 0.4

// cornerDoubts tells where else corner i may as well be, and whether hardly
// anything is printed where it was found.
func (s *nextSearch) cornerDoubts(i int, choice []int, moves []geom.Vec) []Doubt {
	at := s.from.corner(i).Add(moves[i])
	var out []Doubt
	best, _ := s.bestRing(i, choice[i])
	chosen := s.moves[i][choice[i]].by
	far, least := 0.0, best-otherPlace
	for a, m := range s.moves[i] {
		away := m.by.Add(chosen.Scale(-1)).Len()
		if away < 1.2 {
			continue
		}
		if score, _ := s.bestRing(i, a); score > least {
			least, far = score, away
		}
	}
	if far > 0 {
		out = append(out, Doubt{At: at, Say: words.F("This corner may as well be %.0f mm from here.", far)})
	}
	before, after := s.from.arms(i, armReach)
	if s.covered(before, moves[i]) < 0.5 || s.covered(after, moves[i]) < 0.5 {
		out = append(out, Doubt{At: at, Say: words.T("Hardly any line is printed beside this corner.")})
	}
	return out
}

// covered is the share of an arm that lies on any print when moved.
func (s *nextSearch) covered(arm []place, by geom.Vec) float64 {
	n, gap := 0, 2
	for _, p := range arm {
		if gap++; s.ink.near(p.at.Add(by), p.inkDir) {
			gap = 0
		}
		if gap <= 1 {
			n++
		}
	}
	return float64(n) / float64(max(len(arm), 1))
}

// nextEdge follows edge i between its settled corners, close to where it was
// carried to.
func (f *Field) nextEdge(s *nextSearch, i int, from, to geom.Point, o NextOptions) Edge {
	traced := stepped(s.guide[i])
	a, b := from.Sub(s.from.corner(i)), to.Sub(s.from.corner((i+1)%len(s.guide)))
	base := make([]geom.Point, len(traced))
	for k := range base {
		base[k] = s.carried(i, k, a, b, 0)
	}
	g := &guide{lines: [][]geom.Point{traced}, course: base}
	pts, doubts, err := f.along(g, from, to)
	if err != nil {
		return Edge{
			Path: geom.Path{geom.Line(from, to)}, Points: []geom.Point{from, to},
			Doubts: []Doubt{{At: from.Lerp(to, 0.5), Say: words.T("No printed line leads from corner to corner, so this edge is straight.")}},
		}
	}
	path, err := draw(pts, Options{Tol: o.Tol}.tol())
	if err != nil {
		path = geom.Path{geom.Line(from, to)}
		doubts = append(doubts, Doubt{At: from.Lerp(to, 0.5), Say: words.T("This edge could not be drawn and is straight.")})
	}
	return Edge{Path: path, Points: pts, Doubts: doubts}
}
