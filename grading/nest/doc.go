// Package nest reads how the grade points and edges of one piece move through
// its printed sizes and carries them on to any place of the chart.
//
// The mathematics, per direction of the piece (across and along the grain):
//
//   - A grade point follows one body measure m. With L the nearest printed
//     size, it goes to p(L) + r (m(t) - m(L)), r being the least-squares rate
//     over all printed sizes. By steps it repeats the mean printed gap.
//   - A place on an edge takes a share w of the movement of the edge's end and
//     1 - w of its start's, plus a small movement of its own that is nought at
//     both ends. The shares are read from the print and kept per control point
//     of the printed path, so that the new edge has as many cubics.
//   - Where the printed sizes were drawn with one construction (their control
//     points keep to such shares within a few hundredths of a millimetre) each
//     control point has its own share. Where they were traced by hand, the
//     shares are smooth functions of the relative edge length fitted over all
//     sizes at once, so that no wobble of the hand is multiplied.
//
// Promise: at a printed size the printed paths themselves are returned; between
// two printed sizes every point lies between its two printed places; straight
// edges stay straight; the ends of a fold or centre edge move only along it.
//
// Units: millimetres. Not here: hand corrections, links.
package nest
