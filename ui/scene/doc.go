// Package scene says what the Table shows, as a list of fills, lines, words and
// handles, without drawing any of it.
//
// Promise: the same Input always gives the same Scene; what a sewist can tell
// apart by colour she can also tell apart by dash, weight, shape or word.
//
// Units: places in millimetres of the Table (model.Piece.At or the placement
// added); widths, dashes, letter sizes and shifts in pixels, for they do not
// grow with the paper. Colours are named by use (Ink); ui/paint turns the names
// into colours. Not here: pan and zoom, rulers, what the pointer does.
package scene
