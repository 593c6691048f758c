package app

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
)

// GirthTable is the garment's girth at bust, waist and hip in every printed
// size and in the size wanted, all in mm.
type GirthTable struct {
	Size string // the size wanted
	Rows []GirthRow
	// Missing says in plain sentences what could not be measured, and why.
	Missing []girth.Missing
}

// GirthRow is one girth of a GirthTable.
type GirthRow struct {
	girth.Row
	// StepsShort is what grading by steps leaves short of the chart at this
	// girth, whichever method is in force: below 0 where it is too wide, 0
	// within the printed sizes.
	StepsShort float64
	// StepsText is StepsShort and LostText what the target loses of the printed
	// ease, in the pattern's unit: "1 1/2 in too tight"; empty where no tape
	// would show it.
	StepsText, LostText string
}

// Girths grades p with g and measures it.
func Girths(g *grading.Grader, p model.Pattern) (GirthTable, error) {
	r, err := g.Grade(p)
	if err != nil {
		return GirthTable{}, err
	}
	return GirthsOf(p, r)
}

// GirthsOf is Checker.GirthsOf for once.
func GirthsOf(p model.Pattern, r grading.Result) (GirthTable, error) {
	return new(Checker).GirthsOf(p, r)
}

// GirthsOf measures p, graded as r.
func (c *Checker) GirthsOf(p model.Pattern, r grading.Result) (GirthTable, error) {
	rows, missing, err := c.look.Tape.Table(p, r)
	if err != nil {
		return GirthTable{}, err
	}
	return girthTable(p, r, rows, missing), nil
}

func girthTable(p model.Pattern, r grading.Result, rows []girth.Row, missing []girth.Missing) GirthTable {
	out := GirthTable{Size: r.Size, Missing: missing}
	for _, row := range rows {
		short := stepsShort(r, row.Measure)
		out.Rows = append(out.Rows, GirthRow{
			Row: row, StepsShort: short,
			StepsText: tight(short, p.Unit), LostText: tight(row.Lost(), p.Unit),
		})
	}
	return out
}

// stepsShort is the shortfall by steps at a girth, mm; 0 where r has none.
func stepsShort(r grading.Result, m model.Measure) float64 {
	for _, s := range r.Short {
		if s.Measure == m {
			return s.Missing()
		}
	}
	return 0
}

// tight says a loss of girth in words; empty within half a millimetre.
func tight(mm float64, u model.Unit) string {
	const agree = 0.5
	switch {
	case mm > agree:
		return words.F("%s too tight", Length(mm, u))
	case mm < -agree:
		return words.F("%s too wide", Length(-mm, u))
	}
	return ""
}
