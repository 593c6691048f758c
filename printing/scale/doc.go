// Package scale judges a printer by what was measured on its test page.
//
// Promises: what a printer with an error of its own needs is worked out for
// across and down apart, so that the correction times the error is 1; a figure
// that a print setting explains (fit to page, the wrong paper, borderless,
// several pages on a sheet) is told as that setting first, with what to choose
// instead; a figure that looks misread, typed in another unit or for the wrong
// side is asked for again and corrects nothing.
//
// Units: millimetres. Across and down are those of the paper as it lies in the
// test page, upright; Turned gives the correction for pages on their side.
//
// Not here: the test page itself (printing/testpage), and where corrections are
// kept (app/settings).
package scale
