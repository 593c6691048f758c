// Package svg writes pieces laid over a floor as one SVG drawing, true to
// scale, for machines that cut and shops that plot.
//
// Promises: one user unit is one millimetre, and the drawing says so by its
// width and height; every line lies within 0.00001 mm of where it should be;
// lines to cut are black and in no other ink, all else is blue, so that a
// machine can sort them by colour; each layer is a group with the layer's name;
// the same pieces give the same bytes.
//
// Units: millimetres, x right and y down, as SVG has them. The format's standard
// is the W3C's Scalable Vector Graphics (SVG) 1.1, second edition.
//
// Not here: sheets, their joins and tests of scale (printing/pdf); drawings that
// are to be read again as pattern pieces (model/exchange).
package svg
