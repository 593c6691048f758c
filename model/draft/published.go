package draft

import (
	"quarterstep/model/geom"
)

// BackDraft is the proportional shirt-waist back of I. Rosenfeld, The Practical
// Designer, New York 1911, Lesson 142 (public domain), for an even bust size
// in inches: its lettered points in mm, x from the centre back to the side, y
// down from the level of the nape. The lesson draws size 36; depth and waist
// grow 1/8 in a size by the height rule of its Lesson 109.
//
// A place named in the lesson whose wording is not consistent in print is left
// out: it is a source of check values, not a pattern to sew.
func BackDraft(size int) map[string]geom.Point {
	const inch = 25.4
	h := float64(size) / 2
	taller := float64(size-36) / 2 * 0.125
	depth, waist := 7+taller, 15.5+taller
	hem := waist + 6
	i := geom.Pt(h/3+1.25, depth)
	j := geom.Pt(i.X, 0)
	l := geom.Pt(h/6, -1)
	along := j.Sub(l).Unit()
	points := map[string]geom.Point{
		"A": geom.Pt(0, 0), "B": geom.Pt(0, depth), "C": geom.Pt(0, waist), "D": geom.Pt(0, hem),
		"G": geom.Pt(2*h/3, depth), "E": geom.Pt(2*h/3, hem),
		"H": geom.Pt(h/3, depth), "I": i, "J": j,
		"K": geom.Pt(h/6, 0), "L": l, "M": l.Add(along.Scale(i.Sub(l).Dot(along))),
		"F": geom.Pt(2*h/3+h/6, depth), "Q": geom.Pt(2*h/3+h/6, 0), "Z": geom.Pt(h/12, hem),
	}
	for name, p := range points {
		points[name] = geom.Pt(inch*p.X, inch*p.Y)
	}
	return points
}

// QuarterFront is a quarter front before and after one grade of 1 1/2 in in
// the whole bust, worked by hand as shifts of its six corners: 3/8 in at the
// side, of which 1/16 at the neck and 3/16 at the shoulder, and two lengths of
// 1/8 in. An example of our own in the way of common practice. Both are in mm:
// centre front at the waist, side at the waist, underarm, shoulder tip, neck
// point, centre front at the neck; x from the centre, y down from the waist.
func QuarterFront() (before, after [6]geom.Point) {
	const inch = 25.4
	corners := [6]geom.Vec{{}, {X: 7.5, Y: 0.5}, {X: 9.25, Y: 8}, {X: 7.75, Y: 14.5}, {X: 3, Y: 16}, {Y: 12.5}}
	shifts := [6]geom.Vec{{}, {X: 0.375}, {X: 0.375, Y: 0.125}, {X: 0.1875, Y: 0.25}, {X: 0.0625, Y: 0.25}, {Y: 0.25}}
	for i, c := range corners {
		moved := c.Add(shifts[i])
		before[i], after[i] = geom.Pt(inch*c.X, -inch*c.Y), geom.Pt(inch*moved.X, -inch*moved.Y)
	}
	return before, after
}
