// Package exchange reads patterns drawn elsewhere and writes graded ones for
// other programs, in open formats: SVG in; SVG, JSON and CSV out.
//
// What an SVG must look like to be read: each size is a group (a layer) named
// after a size of the chart, with or without the word "size" before it. A line
// that several sizes share lies in a layer named after all of them: "38/40",
// "38, 40", "38 & 40"; "36-42" takes in the sizes between. Every closed line in
// a layer is the cutting line of one piece, named by its title, else its label,
// else its id less the size. Sizes may also be said in the title: "Cuff, sizes
// 38/40", "Pocket (all sizes)". A closed line with a name of its own outside
// the size layers, or in one named "all sizes", is a piece that is the same in
// all; where every piece is drawn once, it is of the one size printed. Open lines whose name holds the word
// grain, fold, lengthen, shorten, bust, waist, hip, dart or notch (or its German) become that
// line of the piece that is named with them, else of the piece they lie on.
// Lines outside the size layers serve all sizes.
//
// Promise: sizes on paper are kept: widths in mm, cm, in, pt, pc, px (1/96 in)
// or Q, viewBox, nested drawings and all transforms are followed, curves are
// kept as they are, arcs become cubics within 0.001 mm. A file that cannot be
// used gives one Unusable error in a plain sentence; nothing is read by half.
// What is written reads back within 0.0001 mm.
//
// Units: millimetres, x right and y down, as drawn on the whole sheet.
//
// Not here: finding corners and making model pieces of the rings (package
// grading/match); colours, widths and texts, which are left out; style sheets.
package exchange
