// Package testpage writes the page by which a printer is checked: a rectangle
// as large as the paper allows, ruled along two sides, to be measured across
// and down; two squares and a bank card's outline; what to do and to type; and
// at the paper's edges lines that show how much the printer leaves white.
//
// Promises: the rectangle's sides are whole centimetres, or half inches, and as
// long as Lengths says, within 0.003 mm; with a printer's correction everything
// to be measured is larger by that, and only the lines at the edges are not;
// the same page gives the same bytes.
//
// Units: millimetres, x right, y down, from the paper's upper left corner. The
// paper lies upright.
//
// Not here: what the measured lengths mean (printing/scale).
package testpage
