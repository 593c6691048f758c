package follow

import (
	"math"

	"quarterstep/model/geom"
)

// settled is where a proposed size runs.
type settled struct {
	corners []geom.Point
	lines   []courseLine // by edge
}

// courseLine is the stretch of a track that an edge takes.
type courseLine struct {
	side, track int
	from, to    float64 // mm along the side
}

// settle takes the chosen corners to where the printed lines on both sides of
// them meet, to a part of a millimetre, and puts those between on their lines.
func (s *nextSearch) settle(c chosen, known map[int]geom.Point) settled {
	n, m := len(s.guide), len(s.sides)
	out := settled{corners: make([]geom.Point, n), lines: make([]courseLine, n)}
	for k := range m {
		i := s.sides[k].corners[0]
		if at, ok := known[i]; ok {
			out.corners[i] = at
			continue
		}
		out.corners[i] = s.settleTurn(k, s.cross[k][c[k]])
	}
	for k := range m {
		d := &s.sides[k]
		p, q := s.cross[k][c[k]], s.cross[(k+1)%m][c[(k+1)%m]]
		far := s.passed(d, p, q, known)
		for j, i := range d.corners[:len(d.corners)-1] {
			out.lines[i] = courseLine{k, p.after, far[j], far[j+1]}
			if j == 0 {
				continue
			}
			if at, ok := known[i]; ok {
				out.corners[i] = at
				continue
			}
			out.corners[i] = s.settlePassed(d, &d.tracks[p.after], far[j])
		}
	}
	return out
}

const (
	mostNudge = 1.5 // mm: how far a corner is taken from where it was found
	besideArm = 0.9 // mm: print further from a track is not its own
)

// settleTurn is a turning corner by the print beside it.
func (s *nextSearch) settleTurn(k int, c crossing) geom.Point {
	m := len(s.sides)
	in, on := &s.sides[(k+m-1)%m], &s.sides[k]
	corner := s.from.corner(on.corners[0])
	at := corner.Add(c.by)
	a, b := &in.tracks[c.before], &on.tracks[c.after]
	if a.own && b.own {
		return corner
	}
	before, okb := s.aside(in, a, c.ends, -1)
	after, oka := s.aside(on, b, c.begins, 1)
	u, v := in.places[int(in.index(c.ends))].out, on.places[int(on.index(c.begins))].out
	before += in.on(a, c.ends).Sub(at).Dot(u)
	after += on.on(b, c.begins).Sub(at).Dot(v)
	var by geom.Vec
	switch cross := u.Cross(v); {
	case okb && oka && math.Abs(cross) > 0.25:
		by = geom.Vec{X: (before*v.Y - after*u.Y) / cross, Y: (after*u.X - before*v.X) / cross}
	case okb && oka:
		by = u.Add(v).Unit().Scale((before + after) / 2)
	case okb:
		by = u.Scale(before)
	case oka:
		by = v.Scale(after)
	}
	if by.Len() < mostNudge {
		at = at.Add(by)
	}
	if x, ok := s.raysMeet(in.places[int(in.index(c.ends))].dir, on.places[int(on.index(c.begins))].dir, at); ok {
		return x
	}
	return at
}

// raysMeet is where the dashes on both sides of a corner that are nearest to a
// place meet, if they do within a millimetre of it.
func (s *nextSearch) raysMeet(before, after geom.Vec, near geom.Point) (at geom.Point, ok bool) {
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

// aside is how far out of a track its print lies at a place of its side, in mm,
// by the print before the place (sign -1) or after it (1) up to armReach from
// it.
func (s *nextSearch) aside(d *flank, t *track, at, sign float64) (float64, bool) {
	var far, off []float64
	for k, p := range d.places {
		away := sign * (p.far - at)
		if away > armReach || away < math.Min(1.5, d.length()/4) {
			continue
		}
		if o, ok := s.printBeside(t.pts[k], p, besideArm); ok {
			far, off = append(far, away), append(off, o)
		}
	}
	return atZero(far, off)
}

// printBeside is how far out of a point on a track the nearest print of its
// direction lies.
func (s *nextSearch) printBeside(at geom.Point, p place, reach float64) (float64, bool) {
	best, found := reach, false
	dir := math.Atan2(p.dir.Y, p.dir.X)
	s.web.grid.near(at, reach, func(j int32) {
		d := &s.web.dashes[j]
		if !d.dot && math.Abs(turn(along(d.dir, dir), dir)) > 0.35 {
			return
		}
		q, _, dist := d.nearest(at)
		if o := q.Sub(at).Dot(p.out); dist < 1.3*reach && math.Abs(o) < math.Abs(best) && math.Abs(q.Sub(at).Dot(p.dir)) < 0.6 {
			best, found = o, true
		}
	})
	return best, found
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
