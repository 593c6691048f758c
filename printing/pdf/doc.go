// Package pdf writes a tile.Plan as a PDF that prints true to scale.
//
// Promises: every line of the plan is drawn within 0.003 mm of where it
// should be, on every sheet whose window it crosses, and nothing outside the
// window; the file asks viewers not to scale it and not to print on both
// sides; all pages have one size; the same plan and options give the same
// bytes; a letter the font lacks is shown as an empty box or question mark,
// not left out.
//
// Units: millimetres on the page, x right and y down, until numbers are
// written; only then points (1/72 in) with y up. ISO 32000-1 is the format's
// standard; section numbers below are its.
//
// Not here: where things lie (printing/tile), how lines and words become PDF
// (printing/page), and printing itself.
package pdf
