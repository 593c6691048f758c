// Package check looks a graded pattern over for what a sewist should see before
// she cuts: what, by how much, where, and what would help.
//
// Promise: nothing is changed. Every check that applies answers, with its
// figures, whether it found something or not. A finding is either something to
// look at or said for information, and offers one action. What comes of another
// fault is left out: of a broken outline, or of a line that follows another's.
//
// Lines are compared with the printed ones, corrections with the line as
// graded: a check asks for what the print has, not for what a book has. How far
// things may go is in limits.go, with where each figure is from; the pattern
// may set it otherwise.
//
// Units: millimetres, in the piece's own coordinates; angles in degrees. Not
// here: doing what is offered (app/edit).
package check
