package dart

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Closed is a piece with one dart folded shut. It lies flat only because its
// outline opens at one corner, from the apex out.
type Closed struct {
	Dart Dart
	// Edges is the outline, edge by edge: as they lie when closed, the cap in
	// the folded place it has under the seam.
	Edges []geom.Path
	// Moves is what was done to each edge, and with it to the grade point it
	// starts at; a cap's edges are folded as well.
	Moves []geom.Affine
	// Before and After are the two halves of the seam as they meet, and Join
	// is where: on the first leg as it lies.
	Before, After geom.Path
	Join          geom.Point
	// Kink is by how many degrees the seam turns at the join, and Step by how
	// many mm its halves miss each other there: first leg less second.
	Kink, Step float64

	part geom.Path // the part that turns, as it lay open
	turn geom.Affine
}

// MoveAt is what was done to a place inside the open piece.
func (c Closed) MoveAt(p geom.Point) geom.Affine {
	if c.part.Contains(p, areaTol) {
		return c.turn
	}
	return geom.Identity()
}

// Close folds the dart shut. It is an error where neither of its sides can turn.
func (d Dart) Close(edges []geom.Path) (Closed, error) {
	if d.Turned == nil {
		return Closed{}, words.Errorf("the %s lies between folds or centre lines: neither side can be turned to close it", d.Name)
	}
	n := len(edges)
	turn := d.about(d.angle(edges))
	if d.Turns == Before {
		turn = d.about(-d.angle(edges))
	}
	c := Closed{Dart: d, Edges: make([]geom.Path, n), Moves: make([]geom.Affine, n)}
	for j := range edges {
		c.Moves[j] = geom.Identity()
		if d.Turned[j] {
			c.Moves[j] = turn
		}
		c.Edges[j] = edges[j]
		if d.Turned[j] {
			c.Edges[j] = edges[j].Transform(turn)
		}
	}
	c.part, c.turn = d.turnedPart(edges), turn
	d.foldCap(edges, &c)
	c.Before, c.After = c.Edges[d.before(n)], c.Edges[d.To]
	c.Join = c.Before.End()
	c.Kink, c.Step = d.Kink(edges)
	return c, nil
}

// turnedPart is the ring around what turns: the turned edges and the apex.
func (d Dart) turnedPart(edges []geom.Path) geom.Path {
	apex := geom.Path{geom.Line(d.Apex, d.Apex)}
	ring := []geom.Path{apex}
	n, from := len(edges), d.To
	if d.Turns == Before {
		from = d.Tear
	}
	for j := from; d.Turned[j]; j = (j + 1) % n {
		ring = append(ring, edges[j])
	}
	return geom.Join(append(ring, apex)...)
}

// foldCap lays the cap where it comes to lie when the dart is folded.
func (d Dart) foldCap(edges []geom.Path, c *Closed) {
	n := len(edges)
	first, second := d.folds(edges)
	onto := c.Moves[d.To]
	if d.Folds == Before {
		onto = c.Moves[d.before(n)]
	}
	first, second = onto.Mul(first), onto.Mul(second)
	for j := d.From; j != d.To; j = (j + 1) % n {
		one, other := d.splitCap(edges, edges[j])
		c.Edges[j] = geom.Join(one.Transform(first), other.Transform(second))
		c.Moves[j] = first
	}
	c.Moves[d.From] = c.Moves[d.before(n)]
}

// folds is what folding does to the two halves of the cap, the side that the
// dart is folded onto lying still: the half beside it is turned over about its
// leg, the other comes to lie under that one the right way up.
func (d Dart) folds(edges []geom.Path) (first, second geom.Affine) {
	a, b := d.legs(edges)
	if d.Folds == Before {
		return d.mirror(a.Sub(d.Apex)), d.about(d.angle(edges))
	}
	return d.about(-d.angle(edges)), d.mirror(b.Sub(d.Apex))
}

// splitCap parts an edge of the cap where it crosses the middle of the dart;
// one half is empty where it does not.
func (d Dart) splitCap(edges []geom.Path, p geom.Path) (first, second geom.Path) {
	const tol = 1e-6
	a, _ := d.legs(edges)
	axis := d.axis(edges)
	beside := func(at geom.Point) float64 {
		return axis.Cross(at.Sub(d.Apex)) * math.Copysign(1, axis.Cross(a.Sub(d.Apex)))
	}
	for i, c := range p {
		switch from, to := beside(c.P0), beside(c.P3); {
		case from <= tol:
			return p[:i:i], p[i:]
		case to < -tol:
			for _, x := range geom.Intersect(geom.Path{c}, d.middle(axis, p), tol) {
				one, other := c.Split(x.TA)
				return append(p[:i:i], one), append(geom.Path{other}, p[i+1:]...)
			}
		}
	}
	return p, nil
}

// axis is the unit direction from the apex through the middle of the dart.
func (d Dart) axis(edges []geom.Path) geom.Vec {
	a, b := d.legs(edges)
	return a.Sub(d.Apex).Unit().Add(b.Sub(d.Apex).Unit()).Unit()
}

// middle is the middle line of the dart, from the apex to well beyond path p.
func (d Dart) middle(axis geom.Vec, p geom.Path) geom.Path {
	var far float64
	for _, at := range p.Controls() {
		far = max(far, at.Dist(d.Apex))
	}
	return geom.Polyline(d.Apex, d.Apex.Add(axis.Scale(2*far)))
}
