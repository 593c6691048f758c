// Package length lengthens and shortens a piece, at its lengthen lines and at
// its hems.
//
// Promise at a lengthen line: the line is carried on both ways to the outline,
// and everything below it slides by the same amount along the centre line,
// which is the longest fold or centre edge, or without one the grain. So the
// amount is the same over the whole width, and a fold, a centre edge and the
// grain keep to their lines and directions. An edge the line crosses is drawn
// anew as one smooth line: a straight one joins its old ends, a curved one
// keeps its directions at its ends (package spread, whose cutting it is) and its
// character: where it would bend back as it did not before, its handles are made
// shorter, or it turns at its corners as the edge does as a whole.
// Several lines add up, in any order.
//
// Promise at a hem: it goes parallel to itself by the same amount all along,
// and the edges beside it go on in their own direction, or are cut shorter.
//
// Sources: "cut, spread the full amount parallel", "fold up half the amount",
// "true the side seam by joining the old seam ends": Central Washington
// University's costume text, chapter 17. That the fold lies half above and half
// below the line, so that no corner, dart or other line may be nearer than
// half of what is folded out: common practice.
//
// Units: millimetres, in the piece's own coordinates. Not here: which pieces go
// together, and keeping linked seams equal.
package length
