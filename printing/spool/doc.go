// Package spool hands a PDF to the system's printers and watches it go.
//
// Promises: pages are never scaled, never printed on both sides, never several
// on a sheet, and the paper is named, whatever the printer's own defaults are; a
// paper the printer does not have is refused before anything is sent, and so
// is a printer that is stopped or takes no jobs; names and titles are handed to
// the system's programs as they are, never through a shell; what cannot be done
// is one sentence that says what to do instead.
//
// It speaks to CUPS, the printing system of Linux and macOS, through its own
// programs (lp, lpstat, cancel) and package ipp. Windows has no program that
// prints a PDF true to scale: there, and wherever there is no CUPS, the page is
// opened in the viewer (View), and Advice says what to choose in it.
//
// Units: millimetres.
//
// Not here: making the PDF (printing/pdf), and how far off a printer is
// (printing/scale).
package spool
