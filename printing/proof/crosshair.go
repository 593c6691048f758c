package proof

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// Crosshair looks near a place for a cross-hair, all in mm on the page: one
// fine line runs up and down through it, one across, both in sight from least to
// most mm off their crossing on one side at least. It is found to a fraction of
// a dot: the middle of every stretch of dark dots, row by row, counts for the
// line that most rows agree on, or of two such lines the nearer one, so that
// others that cross it or run beside it do not. ok is false where there are not both lines.
func (p Picture) Crosshair(about geom.Point, least, most float64) (at geom.Point, ok bool) {
	x, okX := p.middle(about.X, about.Y, least, most, func(i, j int) float64 { return p.Dark(i, j) })
	y, okY := p.middle(about.Y, about.X, least, most, func(i, j int) float64 { return p.Dark(j, i) })
	return geom.Pt(x, y), okX && okY
}

// how a cross-hair's line is told from others, mm.
const (
	lookAround = 1.2 // to either side of where it is looked for
	broadest   = 0.4
	agreeing   = 0.06 // how near each other rows must find it
)

// middle is the place across of a fine line that runs along: across and along
// are where it is looked for; dark is seen by dots (across, along).
func (p Picture) middle(across, along, least, most float64, dark func(i, j int) float64) (float64, bool) {
	px := 25.4 / p.DPI
	var found []float64
	rows := 0
	for _, way := range []float64{-1, 1} {
		for off := least; off <= most; off += px {
			rows++
			j := int((along + way*off) / px)
			for _, at := range stretches(int((across-lookAround)/px), int((across+lookAround)/px), broadest/px, func(i int) float64 { return dark(i, j) }) {
				found = append(found, at*px)
			}
		}
	}
	slices.Sort(found)
	var lines []agreed
	for i, j := 0, 0; i < len(found); i++ {
		for j < len(found) && found[j] <= found[i]+agreeing {
			j++
		}
		if j-i >= rows/3 {
			lines = append(lines, agreed{j - i, mean(found[i:j])})
		}
	}
	if len(lines) == 0 {
		return 0, false
	}
	strongest := slices.MaxFunc(lines, func(a, b agreed) int { return a.rows - b.rows }).rows
	best := math.Inf(1)
	for _, l := range lines {
		if 2*l.rows >= strongest && math.Abs(l.at-across) < math.Abs(best-across) {
			best = l.at
		}
	}
	near := slices.DeleteFunc(found, func(f float64) bool { return math.Abs(f-best) > agreeing })
	return near[len(near)/2], true
}

// agreed is a place that so many rows agree on.
type agreed struct {
	rows int
	at   float64
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// stretches are the middles, in dots, of the stretches of dark dots from and up
// to that are no broader than most.
func stretches(from, to int, most float64, dark func(i int) float64) []float64 {
	const pale = 110 // paler lines are not meant
	var out []float64
	sum, weight, n := 0.0, 0.0, 0
	for i := from; i <= to+1; i++ {
		d := dark(i)
		if i <= to && d > 20 {
			sum += d * (float64(i) + 0.5)
			weight += d
			n++
			continue
		}
		if n > 0 && weight > pale && float64(n) <= most+2 {
			out = append(out, sum/weight)
		}
		sum, weight, n = 0, 0, 0
	}
	return out
}
