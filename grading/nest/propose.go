package nest

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model"
)

// Fits is how well the printed gaps of one coordinate follow a measure: the
// largest distance, in mm, of a printed place from where the measure has it.
type Fits struct {
	Measure  model.Measure
	Residual float64
}

// How much better, in mm and in proportion, another measure must fit than the
// one that goes with the place on the piece before it is proposed instead. A
// few tenths are a hand's shaking or a drawing program's rounding. By our own
// trial on drawn and traced nests. Measures within alike of each other fit as
// well.
const (
	misfits = 0.8
	better  = 0.4
	alike   = 0.01
)

// fits is how well the coordinate of the printed lines follows each measure of
// the chart and steps, best first; measures that fit alike keep the chart's
// order, steps last. It is empty for a print of fewer than three lines, which
// any measure fits.
func (n print) fits(coord func(i int) float64) []Fits {
	if len(n.lines) < 3 {
		return nil
	}
	var out []Fits
	seen := map[model.Measure]bool{}
	for _, m := range append(slices.Clone(n.chart.Measures), model.Steps) {
		if seen[m] || !n.chart.Has(m) {
			continue
		}
		seen[m] = true
		if _, residual, ok := n.slope(m, coord); ok {
			out = append(out, Fits{m, residual})
		}
	}
	slices.SortStableFunc(out, func(a, b Fits) int {
		return cmp.Compare(math.Round(a.Residual/alike), math.Round(b.Residual/alike))
	})
	return out
}

// propose is the measure a coordinate follows before anyone says otherwise:
// the usual one of its place, unless the printed gaps follow another one far
// better; then steps, if they fit as well as any.
func propose(usual model.Measure, fits []Fits) model.Measure {
	i := slices.IndexFunc(fits, func(f Fits) bool { return f.Measure == usual })
	if i < 0 || fits[i].Residual < misfits || fits[0].Residual > better*fits[i].Residual {
		return usual
	}
	if k := slices.IndexFunc(fits, func(f Fits) bool { return f.Measure == model.Steps }); fits[k].Residual < fits[0].Residual+alike {
		return model.Steps
	}
	return fits[0].Measure
}

// follows is what a grade point's coordinates follow: what the pattern names,
// else what is proposed for its place in the print.
func (n print) follows(g model.GradePoint, usual Follows, at []axes) (f Follows, proposed [2]model.Measure, fits [2][]Fits) {
	named := [2]model.Measure{g.Across, g.Along}
	out := [2]model.Measure{}
	for a, m := range [2]model.Measure{usual.Across, usual.Along} {
		fits[a] = n.fits(func(i int) float64 { return at[i][a] })
		proposed[a] = propose(m, fits[a])
		if out[a] = proposed[a]; named[a] != "" {
			out[a] = available(n.chart, named[a])
		}
	}
	return Follows{out[0], out[1]}, proposed, fits
}
