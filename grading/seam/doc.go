// Package seam lays the two sides of a link along each other as they are sewn:
// how long each is on the stitching line, where its notches and corners lie,
// and by how much the one is longer between any two of them that meet.
//
// Promise: lengths are those of the stitching line, within 0.001 mm of the
// edges geom.OffsetOutline draws. What should meet what, and with how much
// ease, is read from the printed sizes. Nothing is changed.
//
// Ease is the follower's length less the leader's. Between two printed sizes
// the ease is that of both, in proportion; past them, that of the nearest, for
// ease does not grow with the size (common practice).
//
// Units: millimetres. Not here: making a seam fit (grading/link), and what is
// too much (grading/check).
package seam
