package proof

import (
	"math"

	"quarterstep/model/geom"
)

// Across looks for a line near a place on the page, in mm, where it should run
// along the direction given, and says how far off it lies at a right angle. It
// is seen along a row or column of dots, whichever crosses it more squarely. ok
// is false where there is no line, or more than one within look mm.
func (p Picture) Across(about geom.Point, along geom.Vec, look, broadest float64) (off float64, ok bool) {
	px := 25.4 / p.DPI
	n := along.Len()
	squarely := math.Abs(along.Y) / n // of a row
	dark, at, row := func(i, j int) float64 { return p.Dark(i, j) }, about.X, about.Y
	if math.Abs(along.X) > math.Abs(along.Y) {
		squarely = math.Abs(along.X) / n
		dark, at, row = func(i, j int) float64 { return p.Dark(j, i) }, about.Y, about.X
	}
	j := int(row / px)
	see := func(broadest float64) []float64 {
		return stretches(int((at-look)/px), int((at+look)/px), broadest, func(i int) float64 { return dark(i, j) })
	}
	found := see(broadest / px / squarely)
	if len(found) != 1 || len(see(math.Inf(1))) != 1 {
		return 0, false
	}
	// The row is seen at its middle, not where the place is.
	slope := along.X / along.Y
	if math.Abs(along.X) > math.Abs(along.Y) {
		slope = along.Y / along.X
	}
	want := at + ((float64(j)+0.5)*px-row)*slope
	return math.Abs(found[0]*px-want) * squarely, true
}
