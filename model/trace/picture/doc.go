// Package picture reads a photo or a scan: its pixels the way up they were
// taken, and what the file says of its camera and of its pixels to the inch.
//
// Promise: JPEG (also progressive), PNG and TIFF are read; the turn a camera
// notes (EXIF) is applied, so that pixels are as displayed. What the file
// claims is told and not believed: PerInch is 0 where the file says that it
// does not know, and package straight checks the rest against a line of known
// length. A file that cannot be used gives one Unusable error in a plain
// sentence; a header that claims more than MostPixels is refused before any
// pixel is unpacked, and every walk through a file is bounded.
//
// Units: pixels; PerInch is pixels to the inch across and down, Focal35 is mm
// on the 35 mm frame.
//
// Not here: HEIC, AVIF, PDF, raw files, which are only recognised; colour
// profiles; further pages of a TIFF.
package picture
