// Package nest reads how the grade points and edges of one piece move through
// its printed sizes and carries them on to any size, or to a wearer's own
// measurements.
//
// The mathematics, per direction of the piece (across and along the grain):
//
//   - A grade point follows one body measure m: the one the pattern names, else
//     the usual one of its place, unless the printed gaps follow another far
//     better. With L the nearest printed size, it goes to
//     p(L) + r (m(t) - m(L)), r being the least-squares rate over all printed
//     sizes. By steps it repeats the mean printed gap.
//   - A place on an edge takes a share w of the movement of the edge's end and
//     1 - w of its start's, plus a small movement of its own that is nought at
//     both ends. The shares are read from the print and kept per control point,
//     so that the new edge has as many cubics.
//   - Where the printed sizes were drawn with one construction (their control
//     points keep to such shares within a few hundredths of a millimetre) each
//     control point has its own share. Where they were traced by hand, nothing
//     is trusted by itself: rates and shares of the whole piece are found
//     together from all places of all printed lines, and the line that is
//     carried is the mean of all sizes, drawn smooth. It takes over from the
//     printed line over the first step beyond it. See settle.go.
//   - A wearer's bust, waist and hip of three sizes give every grade point its
//     own place on the chart; an edge whose ends lie at two places is blended
//     from its lines there by the same shares.
//   - A piece printed once grows by gaps the sewist typed, or is cut and spread
//     (package spread).
//
// Promise: at a printed size the printed paths themselves are returned; between
// two printed sizes every grade point lies between its two printed places;
// straight edges stay straight; the ends of a fold or centre edge move only along
// it, however the sizes were laid on each other in print; sizes that share a
// printed line have that line.
//
// Units: millimetres. Not here: hand corrections, links.
package nest
