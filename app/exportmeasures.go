package app

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/exchange"
)

// measures is the garment's girths in every printed size and in those chosen,
// then the length on the stitching line of every edge of the chosen pieces.
func (e exporter) measures() ([]exchange.Finished, error) {
	var c Checker
	var out []exchange.Finished
	for k, r := range e.results {
		at := e.aimed(k)
		table, err := c.GirthsOf(at, r)
		if err != nil {
			return nil, err
		}
		for _, row := range table.Rows {
			if k == 0 {
				for _, s := range row.Printed {
					out = append(out, finished(s.Girth, s.Size, "printed", false))
				}
			}
			_, own := at.Target.Body[row.Measure]
			out = append(out, finished(row.Target, e.names[k], "graded", own))
		}
	}
	for k, r := range e.results {
		for _, i := range e.chosen {
			rows, err := edgeLengths(e.p.Pieces[i], r.Pieces[i], e.names[k])
			if err != nil {
				return nil, err
			}
			out = append(out, rows...)
		}
	}
	return out, nil
}

// aimed is the pattern as it was aimed for result k: at a size of the chart, or
// at its target.
func (e exporter) aimed(k int) model.Pattern {
	p := e.p
	if len(e.c.Sizes) == 0 || e.c.WithTarget && k == len(e.results)-1 {
		return p
	}
	place, _ := p.Chart.Place(e.names[k]) // printResults found it
	p.Target.Place, p.Target.Body = float64(place), nil
	return p
}

func finished(g girth.Girth, size, from string, own bool) exchange.Finished {
	return exchange.Finished{
		Place: string(g.Measure), Size: size, From: from, Own: own,
		Body: exchange.Known(g.Body), Garment: exchange.Known(g.Finished), Ease: exchange.Known(g.Ease),
	}
}

// edgeLengths is how long the edges of a piece are in a size on the stitching
// line, within a hundredth of a millimetre; on the cutting line where the piece
// is too narrow to have another.
func edgeLengths(q model.Piece, r grading.Piece, size string) ([]exchange.Finished, error) {
	const within = 0.01 // mm
	lines, err := StitchingLine(q, r)
	if err != nil {
		lines = r.Edges
	}
	var out []exchange.Finished
	for j, line := range lines {
		name := edgeName(q, j)
		n, err := line.Length(within)
		if err != nil {
			return nil, words.Errorf("measuring %s of %s: %w", name, q.Name, err)
		}
		out = append(out, exchange.Finished{Place: q.Name + ", " + name, Size: size, From: "graded", Garment: exchange.Known(n)})
	}
	return out, nil
}
