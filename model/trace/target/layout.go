package target

import "quarterstep/model/geom"

// Set is a sheet of targets as it is printed. Cut apart, each of its parts keeps
// its own shape and may lie anywhere beside the piece; uncut, it is a page of
// known shape. Which part a target is on is told by its code alone.
type Set string

// The sets. Strips are long and stiffen the picture best; cards are small.
const (
	Strips  Set = "strips"  // four strips of five targets each
	Corners Set = "corners" // four cards of five targets each, numbered 1 to 4
)

// A set has four parts of five targets each.
const (
	Parts   = 4
	PerPart = 5
)

// What is printed, in mm. A strip has its targets one below the other, every
// other one to the right; a card has a large one in its middle, which is what
// is measured from, and four about it.
const (
	StripWidth  = 36.0
	stripStep   = 60.0
	stripSide   = 6.0
	CardSide    = 76.0
	cardCorner  = 26.0
	smallRadius = 8.0
	largeRadius = 10.0
)

// Spot is where a target is printed.
type Spot struct {
	Set    Set
	Part   int        // of the set, from 0
	On     geom.Point // mm on its part, from the part's middle
	Sheet  geom.Point // mm on the uncut sheet, from the middle of all its parts
	Radius float64    // mm
}

// Middle reports that the target is the large one in the middle of its card.
func (s Spot) Middle() bool { return s.Set == Corners && s.On == geom.Point{} }

// Codes are given out in order: those of the strips first, then those of the
// cards, part by part; a card's middle comes first of its part.
const firstCard = Parts * PerPart

// Code is the code of target k of a part of a set, all from 0.
func (s Set) Code(part, k int) int {
	c := part*PerPart + k
	if s == Corners {
		c += firstCard
	}
	return c
}

// SpotOf is where a code is printed; false for one that no set has.
func SpotOf(code int) (Spot, bool) {
	switch {
	case code < 0 || code >= 2*firstCard:
		return Spot{}, false
	case code < firstCard:
		return stripSpot(code/PerPart, code%PerPart), true
	}
	code -= firstCard
	return cardSpot(code/PerPart, code%PerPart), true
}

func stripSpot(part, k int) Spot {
	on := geom.Pt(-stripSide, stripStep*float64(k-PerPart/2))
	if k%2 == 1 {
		on.X = stripSide
	}
	left := StripWidth * (float64(part) - (Parts-1)/2.0)
	return Spot{Set: Strips, Part: part, On: on, Sheet: on.Add(geom.Vec{X: left}), Radius: smallRadius}
}

// cardSpot counts the cards clockwise from the upper left, as they are to be
// laid; and so the targets about the middle of a card.
func cardSpot(part, k int) Spot {
	s := Spot{Set: Corners, Part: part, Radius: largeRadius}
	if k > 0 {
		s.On, s.Radius = geom.Point(clockwise[k-1].Scale(cardCorner)), smallRadius
	}
	s.Sheet = s.On.Add(clockwise[part].Scale(CardSide / 2))
	return s
}

// Corner is at which corner of a piece the card of that number, from 0, is to be
// laid: the upper left first, then as a clock goes.
func Corner(part int) geom.Point { return geom.Point(clockwise[part]) }

var clockwise = [4]geom.Vec{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}}
