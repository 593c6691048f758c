// Package spread grades a piece printed in one size the way it is taught: the
// paper is cut along lines that run through the piece, the parts are laid apart
// (or over each other for a smaller size), and the edges that were cut are
// drawn anew as one smooth line each.
//
// What moves. A cut line is carried on both ways to the outline and so parts
// the piece in two. At a cut that runs lengthwise the part with the fold or
// centre edge stays; without one, the part with the middle of the grain line,
// else the larger part. At a cut that runs crosswise the upper part stays. The
// other part slides away, square to the centre line at a lengthwise cut and
// along it at a crosswise one, until the gap between the two, measured square
// to the cut, is the cut's share of what its measure grew. The centre line is
// the longest fold or centre edge, or without one the grain. A cut more than 30
// degrees off both ways opens square to itself. Several cuts add up.
// Lengthwise, crosswise and the rules of where a cut may not run: T. Horlamus,
// Threads no. 101, pp. 66-70. The sliding along a guide line: common practice.
//
// What is blended. Along the outline the movement at one cut is a step: nought
// before it, all of it after. Along a curved edge, u from 0 at its start to 1 at
// its end and the cut at u0, the step is replaced by
//
//	f(u) = u + c (u - 2u³ + u⁴),  c = 5 (1/2 - u0) held between -1 and 1,
//
// which is, of all functions from 0 at the start to 1 at the end, the one that
// bends least (least integral of f″²) with the same mean as the step, so that
// as much is added on one side of the cut as is taken off on the other. For a
// cut nearer an end than 0.3 of the edge, c is held so that f never runs back.
// A joint of the edge's curves moves by f; its handles turn and stretch with
// the slope of f, so that a smooth joint stays smooth, to the last digit; at the
// edge's two ends the handles only stretch, so that the edge leaves its corners
// in the directions it was printed with, as the paper does. A straight edge, or
// several in one straight line, stays straight between its moved ends. An edge
// that no cut crosses moves as it is.
//
// Everything is proportional to the amounts of the cuts, so that to spread and
// then overlap by the same returns to the printed line.
//
// Units: millimetres, in the piece's own coordinates. Not here: typed gaps,
// notches, hand corrections, and whether the new outline runs across itself.
package spread
