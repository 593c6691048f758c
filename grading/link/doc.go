// Package link redraws the pieces that go by another piece: a facing along a
// corrected neckline, a sleeve whose cap has to fit the armhole.
//
// Promise: a same-line follower's shared stretch is the leader's line moved as
// a stiff sheet of paper, in the place the printed sizes give it; the rest of
// the follower goes along so that it keeps its own width. A sewn follower that
// may give way (model.Refit) does so until its seam has the wanted ease on the
// stitching line within 0.01 mm, in a way that keeps its curve's character, or
// stays as it is with the reason. Neither moves a fold or centre line. Links
// that run in a ring, name edges that are gone or claim the same edge twice are
// left alone and said.
//
// Units: millimetres. Not here: how long seams are (grading/seam), and what is
// worth a sewist's look (grading/check).
package link
