package tile

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// Clear is the least distance between two pieces that Arrange places, mm.
const Clear = 5.0

// border keeps a piece off the edge of the printed part of a sheet, mm.
const border = 0.5

// pad is how many whole cells keep two pieces apart: a cell is at least
// Clear/pad mm.
const pad = 2

// mesh is the grid of sheets cut into cells, so many to the step from sheet to
// sheet that a cell lies alike on every sheet.
type mesh struct {
	grid
	nx, ny         int     // cells to a step
	cx, cy         float64 // size of a cell, mm
	stripX, stripY int     // cells that lie wholly in the overlap
	free           bool    // one page as long as it takes; ny counts for nothing
}

func newMesh(g grid) mesh {
	const cell = Clear / pad
	m := mesh{grid: g, nx: max(1, int(g.sx/cell)), ny: max(1, int(g.sy/cell))}
	m.cx, m.cy = g.sx/float64(m.nx), g.sy/float64(m.ny)
	m.stripX, m.stripY = int(g.overlapX()/m.cx+1e-9), int(g.overlapY()/m.cy+1e-9)
	return m
}

// freeMesh is one page wide mm across and as long as it takes.
func freeMesh(wide float64) mesh {
	const cell = Clear / pad
	n := max(1, int(wide/cell))
	return mesh{grid: grid{px: wide, sx: wide}, nx: n, cx: wide / float64(n), cy: cell, free: true}
}

// run is a stretch of cells in a row: from a up to but without b.
type run struct{ a, b int }

// raster is every cell that a shape touches, row by row.
type raster struct {
	rows          [][]run
	width, height float64 // mm, border included
	wide          int     // cells across
	cells         int
}

// raster is s with the corner of its ink border mm inside the corner of the
// first cell.
func (m mesh) raster(s shape) raster {
	s = s.move(zeroCorner(s.box))
	r := raster{width: s.box.Width() + 2*border, height: s.box.Height() + 2*border}
	r.rows = make([][]run, max(1, int(math.Ceil(r.height/m.cy-1e-9))))
	r.wide = max(1, int(math.Ceil(r.width/m.cx-1e-9)))
	mark := func(y int, x0, x1 float64) {
		if y = min(max(y, 0), len(r.rows)-1); x1 >= x0 {
			a, b := int(x0/m.cx), int(x1/m.cx)
			r.rows[y] = append(r.rows[y], run{max(0, min(a, r.wide-1)), max(0, min(b, r.wide-1)) + 1})
		}
	}
	s.legs(func(a, b geom.Point) { m.touch(a, b, mark) })
	for y := range r.rows {
		m.fill(s, y, mark)
		r.rows[y] = merge(r.rows[y])
		for _, q := range r.rows[y] {
			r.cells += q.b - q.a
		}
	}
	return r
}

// touch marks the cells that the leg from a to b passes through.
func (m mesh) touch(a, b geom.Point, mark func(y int, x0, x1 float64)) {
	if a.Y > b.Y {
		a, b = b, a
	}
	for y := int(a.Y / m.cy); y <= int(b.Y/m.cy); y++ {
		from, to := a, b
		if top := float64(y) * m.cy; a.Y < top {
			from = a.Lerp(b, (top-a.Y)/(b.Y-a.Y))
		}
		if foot := float64(y+1) * m.cy; b.Y > foot {
			to = a.Lerp(b, (foot-a.Y)/(b.Y-a.Y))
		}
		mark(y, math.Min(from.X, to.X), math.Max(from.X, to.X))
	}
}

// fill marks the inside of the outline along the middle of row y; with the
// cells of the outline itself that is the whole inside.
func (m mesh) fill(s shape, y int, mark func(y int, x0, x1 float64)) {
	level := (float64(y) + 0.5) * m.cy
	var at []float64
	ring(s.ring, func(a, b geom.Point) {
		if (a.Y > level) != (b.Y > level) {
			at = append(at, a.X+(level-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	})
	slices.Sort(at)
	for i := 1; i < len(at); i += 2 {
		mark(y, at[i-1], at[i])
	}
}

// merge sorts runs and joins those that meet.
func merge(runs []run) []run {
	slices.SortFunc(runs, func(p, q run) int { return p.a - q.a })
	var out []run
	for _, r := range runs {
		if n := len(out); n > 0 && r.a <= out[n-1].b {
			out[n-1].b = max(out[n-1].b, r.b)
		} else {
			out = append(out, r)
		}
	}
	return out
}
