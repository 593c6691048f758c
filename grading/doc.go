// Package grading works out a pattern's new line from its printed nests, its
// size chart, its target, its links and the sewist's hand corrections.
//
// Promise: at a printed size the line is exactly the printed one; straight
// edges stay straight; folds and centre lines never move across themselves;
// the same pattern always gives the same result. Nothing is changed in the
// pattern.
//
// Units: millimetres, in each piece's own coordinates (model.Piece.At is not
// added).
//
// The parts: grading/match finds which corners correspond in a printed nest,
// grading/nest extends it, grading/link redraws followers, grading/check
// looks for what a sewist should see. Not here: drawing, printing, files.
package grading
