// Package girth measures a pattern round the body: how wide the sewn garment is
// at bust, waist and hip, in the size wanted and in every printed size, and how
// much of that is ease.
//
// Promise: a figure is given only where every piece that goes round the body
// there could be measured; otherwise Missing says which piece could not and
// why. Nothing is guessed and nothing is changed.
//
// How it measures. A piece's width at a level is taken square to its grain on
// its stitching line, from side to side, less what darts take up there, and
// counted as often as the piece is cut, twice that on a fold. A button stand
// beyond the centre line is left out, for it lies on its other half. The level
// is the piece's own bust, waist or hip line; without one, the waist seam or
// the grade point named underarm, waist or hip. A dart that opens at the side
// takes up length and no girth: the side is taken as with the dart closed.
//
// Units: millimetres. Not here: what the girth should be, and findings.
package girth
