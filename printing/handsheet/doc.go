// Package handsheet writes increment sheets: a page or more for each piece
// that says how much to add where, for someone who draws the new size on paper
// with ruler and pencil.
//
// Promises: every grade point is in the table, with each printed gap and the
// amount to add in each stage; an amount is rounded once, from its exact value,
// and the exact value stands beside it where the two differ by more than 1/64
// in; the small drawing is at the scale it states; the two test squares are
// true to size; the same sheets give the same bytes.
//
// Units: millimetres, in the piece's own measure, turned so that its grain runs
// down the page.
//
// Not here: how much is added (grading, through app), and the pattern itself on
// paper (printing/pdf).
package handsheet
