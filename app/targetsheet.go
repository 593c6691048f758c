package app

import (
	"io"

	"quarterstep/assets"
	"quarterstep/model/trace/target"
	"quarterstep/printing/targetsheet"
	"quarterstep/printing/tile"
)

// WriteTargetSheet writes the sheet of targets to print, cut apart and lay round
// a piece before it is photographed, as a PDF of one page on A4, Letter or
// larger, corrected for the printer.
func WriteTargetSheet(w io.Writer, set target.Set, paper tile.Paper, printer tile.Printer) error {
	return targetsheet.Write(w, set, targetsheet.Options{Paper: paper, Printer: printer, Regular: assets.LatoRegular, Bold: assets.LatoBold})
}
