// Package follow finds and follows printed lines on a straightened grey
// picture of a pattern sheet.
//
// Units: millimetres on the paper, x to the right and y down; angles in
// radians. Pixels occur only in Sheet and in the filter.
//
// How: a filter finds the middle of dark lines to a part of a pixel (ridge.go,
// after C. Steger, IEEE PAMI 20 (1998) 113); these places are joined to runs
// and cut into dashes (chain.go, dash.go); each dash knows which others may go
// on from it (link.go); the cheapest way over them from a corner, by bending
// and by white paper, is the line (search.go). A size traced already tells
// where its neighbour runs (guide.go). What was seen becomes a few cubics
// (draw.go).
//
// Promise: Prepare is done once, in the background. Follow keeps the search
// from a corner, so that the line to a moving pointer costs a walk back and a
// curve. A place where another line was nearly as good comes back as a Doubt,
// and so does a line that leaves the traced size unevenly; a doubt is a thing
// to look at, not a mistake.
//
// Not promised: that the right line is taken where sizes lie less than about
// 2 mm apart or run into one another. There one clicks points on the way, and
// lines drawn over one another cannot be told apart at all.
//
// Not here: straightening, colours, what a line means, and where the corners
// of the next size are.
package follow
