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
