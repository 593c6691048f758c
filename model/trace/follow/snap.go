package follow

import (
	"math"

	"quarterstep/model/geom"
)

// Snap is the place on the middle of the printed line nearest to p, if there
// is one within reach mm.
func (f *Field) Snap(p geom.Point, reach float64) (geom.Point, bool) {
	best, found := geom.Point{}, false
	f.web.grid.near(p, reach, func(i int32) {
		if at, _, dist := f.web.dashes[i].nearest(p); dist <= reach {
			best, found, reach = at, true, dist
		}
	})
	return best, found
}

// Limits of what makes a corner.
const (
	leastCross = 0.3  // radians: lines that meet flatter make no corner
	mostBow    = 0.12 // mm: a dash that is less straight is no line to extend
	mostExtend = 3.4  // mm: how far a line is extended to a corner in its gap
	perExtend  = 0.15 // mm further from p that a mm of extending counts as
)

// Corner is the crossing of two printed lines nearest to p, if there is one
// within reach mm. Lines that stop short of it, as dashed ones do, are
// extended straight by a gap's width. Ink is round at a sharp corner and its
// middle misses it; the crossing of the lines beside it does not.
func (f *Field) Corner(p geom.Point, reach float64) (geom.Point, bool) {
	lines := f.web.linesNear(p, reach+mostExtend+pieceLength)
	best, found := geom.Point{}, false
	least := reach
	for i, a := range lines {
		for _, b := range lines[:i] {
			x, extend, ok := a.meet(b)
			if !ok {
				continue
			}
			if d := x.Dist(p) + perExtend*extend; x.Dist(p) <= reach && (d < least || !found) {
				best, found, least = x, true, d
			}
		}
	}
	return best, found
}

// ray is a straight line along a dash.
type ray struct {
	at   geom.Point
	dir  geom.Vec
	half float64 // mm of ink to either side of at
}

// linesNear are the straight lines along the dashes within r of p.
func (w *web) linesNear(p geom.Point, r float64) []ray {
	var out []ray
	seen := map[int32]bool{}
	w.grid.near(p, r, func(i int32) {
		d := &w.dashes[i]
		if seen[i] || d.centre.Dist(p) > r {
			return
		}
		seen[i] = true
		dir, ok := d.dir, !d.dot && d.bow <= mostBow && d.length > 0.8
		if d.dot {
			dir, ok = w.dotDir(i)
		}
		if ok {
			out = append(out, ray{d.centre, unit(dir), d.length / 2})
		}
	})
	return out
}

// meet is where two rays cross, and how far they had to be extended in all.
func (a ray) meet(b ray) (x geom.Point, extend float64, ok bool) {
	cross := a.dir.Cross(b.dir)
	if math.Abs(cross) < math.Sin(leastCross) {
		return x, 0, false
	}
	v := b.at.Sub(a.at)
	s, t := v.Cross(b.dir)/cross, v.Cross(a.dir)/cross
	ea, eb := max(math.Abs(s)-a.half, 0), max(math.Abs(t)-b.half, 0)
	return a.at.Add(a.dir.Scale(s)), ea + eb, ea <= mostExtend && eb <= mostExtend
}

// dotDir is the direction of a dotted line at one of its dots: between the two
// near dots about as far on either side that lie straightest.
func (w *web) dotDir(i int32) (float64, bool) {
	links := w.out[w.first[i]]
	best, dir := 0.4, 0.0
	for k, a := range links {
		for _, b := range links[:k] {
			bent := math.Abs(turn(a.dir, b.dir+math.Pi)) + 0.1*math.Abs(a.span-b.span) + 0.03*(a.span+b.span)
			if bent < best {
				best, dir = bent, a.dir+turn(a.dir, b.dir+math.Pi)/2
			}
		}
	}
	return dir, best < 0.4
}
