package exchange

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// Increment is one row of the table of increments: how far a grade point went
// from a printed size, in mm, and which measures it followed.
type Increment struct {
	Piece, Point  string
	From, To      string  // sizes
	Across, Along float64 // mm
	FollowsAcross string
	FollowsAlong  string
}

// WriteCSV writes increments as a table with a heading, lengths in mm to 0.001
// and in u to 0.0001, decimal points, commas between.
func WriteCSV(w io.Writer, rows []Increment, u model.Unit) error {
	table := [][]string{{
		words.T("piece"), words.T("grade point"), words.T("from size"), words.T("to size"), words.F("across %s", "mm"), words.F("along %s", "mm"),
		words.T("follows across"), words.T("follows along"), words.F("across %s", unitName(u)), words.F("along %s", unitName(u)),
	}}
	for _, r := range rows {
		table = append(table, []string{
			r.Piece, r.Point, r.From, r.To, inMM(r.Across), inMM(r.Along), r.FollowsAcross, r.FollowsAlong, inUnit(r.Across, u), inUnit(r.Along, u),
		})
	}
	return writeTable(w, table)
}

// Finished is one row of the table of measures: what the garment measures at a
// place in one size, beside the body there.
type Finished struct {
	Place   string // "bust", or a piece and its edge
	Size    string
	From    string // "printed" or "graded"
	Body    Amount
	Own     bool // the body measure is the wearer's own, not the chart's
	Garment Amount
	Ease    Amount
}

// Amount is a length in mm that may not be known; the zero Amount is not.
type Amount struct {
	MM    float64
	Known bool
}

// Known is a known amount of mm.
func Known(mm float64) Amount { return Amount{mm, true} }

// WriteMeasures writes finished measures and ease as a table with a heading,
// lengths in u to 0.0001; what is not known is left empty.
func WriteMeasures(w io.Writer, rows []Finished, u model.Unit) error {
	name := unitName(u)
	amount := func(a Amount) string {
		if !a.Known {
			return ""
		}
		return inUnit(a.MM, u)
	}
	table := [][]string{{
		words.C("where a measure is taken", "place"), words.T("size"), words.C("printed or graded", "from"), words.F("body %s", name), words.T("body by"), words.F("garment %s", name), words.F("ease %s", name),
	}}
	for _, r := range rows {
		by := ""
		switch {
		case r.Own:
			by = words.T("wearer")
		case r.Body.Known:
			by = words.C("body by", "chart")
		}
		table = append(table, []string{r.Place, r.Size, r.From, amount(r.Body), by, amount(r.Garment), amount(r.Ease)})
	}
	return writeTable(w, table)
}

func writeTable(w io.Writer, table [][]string) error {
	for _, row := range table {
		for i, cell := range row {
			row[i] = plain(cell)
		}
	}
	if err := csv.NewWriter(w).WriteAll(table); err != nil {
		return words.Errorf("writing the table: %w", err)
	}
	return nil
}

// plain keeps a spreadsheet from taking a name for a sum to work out: one that
// begins like a formula gets an apostrophe before it.
func plain(cell string) string {
	if _, err := strconv.ParseFloat(cell, 64); err != nil && cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

func inMM(v float64) string { return strconv.FormatFloat(rounded(v, 1e3), 'f', 3, 64) }

// inUnit is mm in u, to 0.0001.
func inUnit(mm float64, u model.Unit) string {
	per := 10.0
	if u == model.Inches {
		per = 25.4 // exact
	}
	return strconv.FormatFloat(rounded(mm/per, 1e4), 'f', 4, 64)
}

func unitName(u model.Unit) string {
	if u == model.Inches {
		return measure.Inches.Name()
	}
	return measure.Centimetres.Name()
}
