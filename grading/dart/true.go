package dart

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

const (
	// smoothWithin is the turn, in degrees, up to which two lines go on as one:
	// a turn of a thousandth of the way, not to be seen.
	smoothWithin = 0.05
	// mostKink is the turn at the closed dart, in degrees, beyond which the seam
	// has a corner there rather than a fault; by our own judgement.
	mostKink = 45.0
	// legTol is how far, in mm, two legs may differ and count as equal.
	legTol = 1e-9
)

// True makes the legs equal, at their mean, draws the seam across the closed
// dart smooth where it turns by more than 0.05 degrees, and shapes the cap so
// that the folded dart is caught in the seam. Edges right already, and all that
// do not touch the dart, stay the very same.
//
// The error says in plain words why the dart cannot be trued: its two seams
// have other allowances, a fold ends at it, the seam has a corner there, the
// cap has more than two edges, or there is no room.
func (d Dart) True(edges []geom.Path) ([]geom.Path, error) {
	if err := d.fit(edges); err != nil {
		return nil, err
	}
	out := slices.Clone(edges)
	d.equalLegs(out)
	if err := d.smoothSeam(out); err != nil {
		return nil, err
	}
	return out, d.shapeCap(out)
}

// Makes says in plain words why the legs make no dart; nil where they do.
func (d Dart) Makes(edges []geom.Path) error {
	a, b := d.legs(edges)
	switch {
	case min(a.Dist(d.Apex), b.Dist(d.Apex)) < leastLeg:
		return words.Errorf("the %s has legs shorter than %.0f mm", d.Name, leastLeg)
	case math.Abs(degrees(d.angle(edges))) < leastWidth:
		return words.Errorf("the %s has no width", d.Name)
	}
	return nil
}

// fit says what the dart lacks to be trued.
func (d Dart) fit(edges []geom.Path) error {
	if err := d.Makes(edges); err != nil {
		return err
	}
	switch {
	case d.Held:
		return words.Errorf("the %s ends at a fold or centre line, which stays as it is", d.Name)
	case d.Allowances[0] != d.Allowances[1]:
		return words.Errorf("the seams beside the %s have allowances of %s and %s mm; make them the same first", d.Name, words.Figure(d.Allowances[0], 1), words.Figure(d.Allowances[1], 1))
	case d.capEdges(len(edges)) > 2:
		return words.Errorf("the cap of the %s has %d edges; take out its grade points but the one at its tip", d.Name, d.capEdges(len(edges)))
	}
	return nil
}

// capEdges is how many of n edges are the dart's cap.
func (d Dart) capEdges(n int) int { return (d.To - d.From + n) % n }

// equalLegs moves both leg ends along their legs to the mean of the two.
func (d Dart) equalLegs(edges []geom.Path) {
	a, b := d.legs(edges)
	u, v := a.Sub(d.Apex), b.Sub(d.Apex)
	off := (v.Len() - u.Len()) / 2
	if math.Abs(off) <= legTol/2 {
		return
	}
	carryPoint(edges, d.From, u.Unit().Scale(off))
	carryPoint(edges, d.To, v.Unit().Scale(-off))
}

// smoothSeam turns the curves at the two leg ends into the direction half-way
// between them, as they lie with the dart closed.
func (d Dart) smoothSeam(edges []geom.Path) error {
	kink, _ := d.Kink(edges)
	if kink <= smoothWithin {
		return nil
	}
	if kink > mostKink {
		return words.Errorf("the seam turns by %.0f degrees at the closed %s, which makes a corner of it", kink, d.Name)
	}
	before := d.before(len(edges))
	angle := d.angle(edges)
	u := edges[before].EndDir()
	v := d.about(angle).ApplyVec(edges[d.To].StartDir())
	through := u.Add(v).Unit()
	edges[before] = arriving(edges[before], through)
	edges[d.To] = arriving(edges[d.To].Reverse(), d.about(-angle).ApplyVec(through).Scale(-1)).Reverse()
	return nil
}

// arriving is p turned at its end so that it arrives in direction dir; its last
// handle keeps its length, and a straight last curve bends.
func arriving(p geom.Path, dir geom.Vec) geom.Path {
	out := slices.Clone(p)
	c := &out[len(out)-1]
	if c.IsStraight(straightTol) {
		*c = geom.Line(c.P0, c.P3)
	}
	long := c.P3.Dist(c.P2)
	if long == 0 {
		long = c.P3.Dist(c.P0) / 3
	}
	c.P2 = c.P3.Add(dir.Scale(-long))
	return out
}
