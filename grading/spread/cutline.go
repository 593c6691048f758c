package spread

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// square is the cosine of how far off square to the centre line, or along it, a
// cut may run and still be slid along it: 30 degrees.
const square = 0.866

// cutLine is a cut carried on to the outline.
type cutLine struct {
	model.Cut
	from, to geom.Point // on the outline
	// a and b are where it meets the ring, mm; the part that moves lies between
	// a and b, walking on from a.
	a, b   float64
	travel geom.Vec // of the part that moves, per mm of spread
	part   polygon
	up     bool // it runs lengthwise
}

// readCut carries a cut on to the outline and finds which part moves where.
func (o *outline) readCut(c model.Cut) (cutLine, error) {
	s, ok := o.across(c.From, c.To)
	if !ok {
		return cutLine{}, words.Error("does not run across the piece; draw it from one edge to another")
	}
	dir := s[1].at.Sub(s[0].at).Unit()
	l := cutLine{Cut: c, from: s[0].at, to: s[1].at, a: s[0].s, b: s[1].s}
	l.up = math.Abs(dir.Dot(o.centre)) > math.Sqrt2/2
	// Walking on from a to b and back along the cut goes round one part, which
	// lies to that walk's right as the piece does to the outline's.
	out := dir.Perp().Scale(-o.right)
	if !o.moves(l, out) {
		l.a, l.b, out = l.b, l.a, out.Scale(-1)
	}
	l.part = newPolygon(o.partOf(l.a, l.b))
	return l, o.slide(&l, out)
}

// meet is a place where a straight line meets the outline: x mm along the line,
// s mm along the ring.
type meet struct {
	x, s float64
	at   geom.Point
}

// across carries the line from p to q on to the outline. It is the stretch
// inside the piece that shares most with p to q; false when none does.
func (o *outline) across(p, q geom.Point) ([2]meet, bool) {
	all := o.meets(p, q.Sub(p).Unit())
	length := p.Dist(q)
	best, most := [2]meet{}, 0.0
	for i := 0; i+1 < len(all); i++ {
		k := i
		for k+1 < len(all) && o.rough.contains(all[k].at.Lerp(all[k+1].at, 0.5)) {
			k++
		}
		if common := min(all[k].x, length) - max(all[i].x, 0); k > i && common > most {
			best, most = [2]meet{all[i], all[k]}, common
		}
		i = max(i, k-1)
	}
	return best, most > 0
}

// meets lists where the endless line through p in direction dir meets the
// outline, in the order of the line.
func (o *outline) meets(p geom.Point, dir geom.Vec) []meet {
	box := o.ring.Path().Bounds()
	far := box.Width() + box.Height() + box.Centre().Dist(p)
	line := geom.Path{geom.Line(p.Add(dir.Scale(-far)), p.Add(dir.Scale(far)))}
	var all []meet
	for _, c := range geom.Intersect(line, o.ring.Path(), lineTol) {
		all = append(all, meet{c.At.Sub(p).Dot(dir), o.ring.To(c.IB, c.TB), c.At})
	}
	slices.SortFunc(all, func(m, n meet) int { return cmp.Compare(m.x, n.x) })
	return slices.CompactFunc(all, func(m, n meet) bool { return math.Abs(n.x-m.x) < 4*lineTol })
}

// moves reports that of the two parts at l the one from a on to b moves; out
// points into it.
func (o *outline) moves(l cutLine, out geom.Vec) bool {
	if !l.up {
		return out.Dot(o.centre) > 0
	}
	mine, other := o.stillIn(l.a, l.b), o.stillIn(l.b, l.a)
	if mine != other {
		return mine < other
	}
	if middle, ok := o.grainMiddle(); ok {
		return middle.Sub(l.from).Dot(out) < 0
	}
	return 2*math.Abs(o.partOf(l.a, l.b).Area()) <= math.Abs(o.ring.Path().Area())
}

// stillIn is how many mm of fold and centre edges lie on the ring from a on to
// b.
func (o *outline) stillIn(a, b float64) float64 {
	var sum float64
	whole := o.ahead(a, b)
	for j := range o.edges {
		if o.still(j) {
			lo, hi := o.ahead(a, o.start[j]), o.ahead(a, o.start[j+1])
			if hi >= lo {
				sum += max(0, min(hi, whole)-lo)
			} else { // it runs past a
				sum += min(hi, whole) + max(0, whole-lo)
			}
		}
	}
	return sum
}

func (o *outline) grainMiddle() (geom.Point, bool) {
	for _, l := range o.piece.Lines {
		if l.Kind == model.Grain && len(l.Drawn) > 0 {
			return l.Drawn[0].Path.Start().Lerp(l.Drawn[0].Path.End(), 0.5), true
		}
	}
	return geom.Point{}, false
}

// slide finds where the moving part of l goes; out is square to the cut, into
// that part. A fold or centre edge in it must keep to its own line.
func (o *outline) slide(l *cutLine, out geom.Vec) error {
	l.travel = out
	for _, e := range []geom.Vec{o.centre, o.centre.Perp()} {
		if along := e.Dot(out); math.Abs(along) >= square {
			l.travel = e.Scale(1 / along)
		}
	}
	for j := range o.edges {
		mid := (o.start[j] + o.start[j+1]) / 2
		held := o.still(j) && (o.share(*l, mid) > 0 || o.share(*l, o.start[j]) > 0 || o.share(*l, o.start[j+1]) > 0)
		if held && math.Abs(l.travel.Cross(o.chord(j).Unit())) > 0.02 {
			return words.Errorf("would move %s off its line; lay it along the fold or centre, or square across it", o.edgeName(j))
		}
	}
	return nil
}

func (o *outline) edgeName(j int) string {
	if n := o.piece.Edges[j].Name; n != "" {
		return words.F("the %s", n)
	}
	return words.F("edge %d", j+1)
}

// share is the part of a cut's movement that the paper takes at s mm along the
// ring: 1 or 0, and half of it where the cut runs into the outline right there.
func (o *outline) share(l cutLine, s float64) float64 {
	if o.apart(s, l.a) <= 4*lineTol || o.apart(s, l.b) <= 4*lineTol {
		return 0.5
	}
	if o.ahead(l.a, s) < o.ahead(l.a, l.b) {
		return 1
	}
	return 0
}

// course is how the movement at l goes along edge j.
func (o *outline) course(l cutLine, j int) course {
	s0, s1 := o.start[j], o.start[j+1]
	c := course{start: o.share(l, s0)}
	for _, x := range []struct{ s, by float64 }{{l.a, 1}, {l.b, -1}} {
		switch {
		case o.apart(x.s, s0) <= 4*lineTol:
			c.jumps = append(c.jumps, jump{x.by / 2, 0})
		case o.apart(x.s, s1) <= 4*lineTol:
			c.jumps = append(c.jumps, jump{x.by / 2, 1})
		case x.s > s0 && x.s < s1:
			c.jumps = append(c.jumps, jump{x.by, (x.s - s0) / (s1 - s0)})
		}
	}
	return c
}
