// Package page writes lines and words on the pages of a PDF.
//
// Promises: a line lies within 0.003 mm of where it was put; the file asks
// viewers not to scale it and not to print on both sides; all pages have one
// size; the same calls give the same bytes; a letter the font lacks is shown
// as an empty box or question mark, not left out.
//
// Units: millimetres on the page, x right and y down, until numbers are
// written; only then points (1/72 in) with y up. ISO 32000-1 is the format's
// standard; section numbers in this package are its.
//
// Not here: what belongs on a page (printing/pdf, printing/handsheet).
package page
