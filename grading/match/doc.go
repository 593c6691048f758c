// Package match makes model pieces of a drawn sheet: it finds the corners of
// every size's line and which corners belong together.
//
// How: every line is sampled each millimetre and turned to run clockwise on
// paper. On a drawn line the corners are the joints where it turns; on a
// traced or polygon line directions are read from what lies on both sides of a
// place at several scales, so that neither the wobble of a hand nor the bend of
// an armhole counts. Plain corners are paired from size to size by turn and
// place (cyclic alignment); then the sizes are laid along each other and slight
// corners are sought in the middle turn of all of them. A corner is always a
// drawn joint where one is near.
//
// Promise: every size of a piece has the same grade points and edges, in the
// same order; what was drawn as curves is kept, cut at the grade points; what
// was traced is drawn anew within 0.2 mm of the line (of a polygon's with its
// corners rounded), and within 0.1 mm where a calm line can. A guess is told as
// a Doubt, and can be mended: AddPoint, RemovePoint, MovePoint. A line that
// serves several sizes stays one, and so do its marks, which go by the smallest
// of them. How the sizes lie on each other does not count: nests stacked on a
// hem or a grade point, and lines that cross, are matched as any other; Stack
// lays the sizes on each other elsewhere.
//
// Units: millimetres on the sheet as drawn.
//
// Not here: which measure a point follows (package grading/nest), links
// between pieces, seam allowances: a drawing does not say them.
package match
