// Package link redraws the pieces that follow another piece's line: a facing
// along a corrected neckline, a lining along a side seam.
//
// Promise: a follower's shared stretch is the leader's line moved as a stiff
// sheet of paper, in the place the printed sizes give it; the rest of the
// follower goes along so that it keeps its own width. Links that run in a ring
// or name edges that are gone are left alone and said.
//
// Units: millimetres. Not here: seams sewn together, whose lengths are only
// compared (grading/check).
package link
