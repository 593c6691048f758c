// Package proof shows what programs nobody here wrote make of a PDF: its pages
// as grey pictures by poppler, ghostscript and mupdf, what qpdf finds wrong with
// it, and how well its pages hold together that are glued in these pictures by
// their joining buttons alone. It is for tests; the program does not use it.
//
// Units: millimetres from the upper left corner of the page, y down; dots to
// the inch for pictures. A program that is not installed fails the test with
// the name of its package.
package proof
