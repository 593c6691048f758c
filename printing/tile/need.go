package tile

import (
	"math"

	"quarterstep/model/geom"
)

// field marks which parts of the floor are covered. The overlaps cut the floor
// into parts: along one axis part 2c is the strip that column c shares with
// the column before, part 2c+1 what only column c shows.
type field struct {
	cols, rows int
	covered    []bool // (2 rows) x (2 cols)
}

func newField(cols, rows int) field {
	return field{cols, rows, make([]bool, 4*cols*rows)}
}

func (f field) at(y, x int) *bool { return &f.covered[y*2*f.cols+x] }

// sheets chooses the sheets that together show every covered part: first the
// ones that alone show something, then as few as it takes for the strips, the
// upper and left one where either will do.
func (f field) sheets() [][]bool {
	kept := make([][]bool, f.rows)
	for r := range kept {
		kept[r] = make([]bool, f.cols)
	}
	// Parts shown by one sheet, then by two, then by four.
	for shared := 0; shared <= 2; shared++ {
		for y := 0; y < 2*f.rows; y++ {
			for x := 0; x < 2*f.cols; x++ {
				if *f.at(y, x) && strip(y)+strip(x) == shared {
					keepOne(kept, y, x)
				}
			}
		}
	}
	return kept
}

// strip is 1 for a part that two sheets show. The first strip of all has no
// sheet before it.
func strip(i int) int {
	if i > 0 && i%2 == 0 {
		return 1
	}
	return 0
}

func keepOne(kept [][]bool, y, x int) {
	r, c := y/2, x/2
	for dr := strip(y); dr >= 0; dr-- {
		for dc := strip(x); dc >= 0; dc-- {
			if kept[r-dr][c-dc] {
				return
			}
		}
	}
	kept[r-strip(y)][c-strip(x)] = true
}

// coverField marks the parts of cols by rows sheets, the first at (0, 0), that
// the shapes cover.
func coverField(g grid, cols, rows int, shapes []shape) field {
	f := newField(cols, rows)
	for _, s := range shapes {
		x0, x1 := span(s.box.Min.X, s.box.Max.X, g.sx, cols)
		y0, y1 := span(s.box.Min.Y, s.box.Max.Y, g.sy, rows)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				part := g.part(y, x, cols, rows)
				if part.Width() > 1e-9 && part.Height() > 1e-9 && !*f.at(y, x) {
					*f.at(y, x) = s.covers(part.Grow(s.half - 1e-6))
				}
			}
		}
	}
	return f
}

// span is the range of parts that lo to hi may touch.
func span(lo, hi, step float64, n int) (a, b int) {
	a = 2 * int(math.Floor(lo/step))
	b = 2*int(math.Floor(hi/step)) + 1
	return max(0, min(a, 2*n-1)), max(0, min(b, 2*n-1))
}

// part is the box of part (y, x).
func (g grid) part(y, x, cols, rows int) geom.Box {
	x0, x1 := bounds(x, cols, g.sx, g.overlapX())
	y0, y1 := bounds(y, rows, g.sy, g.overlapY())
	return geom.Box{Min: geom.Pt(x0, y0), Max: geom.Pt(x1, y1)}
}

func bounds(i, n int, step, overlap float64) (lo, hi float64) {
	lo = float64(i/2) * step
	switch {
	case i%2 == 0:
		return lo, lo + overlap
	case i == 2*n-1:
		return lo + overlap, lo + step + overlap
	default:
		return lo + overlap, lo + step
	}
}
