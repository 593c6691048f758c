// Package follow finds and follows printed lines on a straightened grey
// picture of a pattern sheet.
//
// Units: millimetres on the paper, x to the right and y down; angles in
// radians. Pixels occur only in Sheet and in the filter.
//
// How: a filter finds the middle of dark lines to a part of a pixel (ridge.go,
// after C. Steger, IEEE PAMI 20 (1998) 113); these places are joined to runs,
// which are broken at corners and cut into dashes (chain.go, kink.go, dash.go);
// each dash knows which others may go on from it (link.go); the cheapest way
// over them from a corner, by bending and by white paper, is the line
// (search.go). The first size traced is as a rule the outermost, with no line
// of the nest on one of its sides; Options.Rim makes lines there cost (rim.go).
// With a size traced already its neighbour has a course (course.go): the traced
// edge carried along with its two ends. The print beside the course is rolled
// out straight (strip.go), and the line is the best lane along it that has the
// same number of printed lines between itself and the traced one all along
// (lane.go, rank.go). What was seen becomes a few cubics (draw.go).
//
// Next proposes all of a size from one traced one. Its outline is cut into sides
// where it turns (nextflank.go); the printed lines beside every side are found,
// those that cross gone on straight (nexttrack.go, nextparted.go). A corner may go
// where a line of one side meets one of the next (nextcorner.go), or where the
// shape of its lines fits the print (nextplace.go); all corners together take the
// best of these (nextring.go), each then to a part of a millimetre
// (nextsettle.go). The traced outline carried along as it is (nextcarry.go) tells
// sizes close together more surely; where the two ways differ, that is a doubt.
// Given one corner's true place, all is weighed anew.
//
// Promise: Prepare is done once, in the background. Follow keeps the search
// from a corner, so that the line to a moving pointer costs a walk back and a
// curve. A place where another line was nearly as good comes back as a Doubt,
// and so does a line that leaves the traced size unevenly, or one that does not
// lie on print all along where others run close beside it (closeby.go); a doubt is
// a thing to look at, not a mistake.
//
// Not promised: that the right line is taken where sizes lie less than about
// 2 mm apart or run into one another. There one clicks points on the way, and
// lines drawn over one another cannot be told apart at all.
//
// Not here: straightening, colours, and what a line means.
package follow
