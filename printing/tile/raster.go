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

// mesh is the grid of sheets cut into cells of at least Clear mm, so many to
// the step from sheet to sheet that a cell lies alike on every sheet.
type mesh struct {
	grid
	nx, ny         int     // cells to a step
	cx, cy         float64 // size of a cell, mm
	stripX, stripY int     // cells that lie wholly in the overlap
}

func newMesh(g grid) mesh {
	m := mesh{grid: g, nx: max(1, int(g.sx/Clear)), ny: max(1, int(g.sy/Clear))}
	m.cx, m.cy = g.sx/float64(m.nx), g.sy/float64(m.ny)
	m.stripX, m.stripY = int(g.overlapX()/m.cx+1e-9), int(g.overlapY()/m.cy+1e-9)
	return m
}

// run is a stretch of cells in a row: from a up to but without b.
type run struct{ a, b int }

// raster is every cell that a shape touches, row by row, when the corner of
// its ink lies border mm inside the corner of the first cell.
type raster struct {
	rows          [][]run
	width, height float64 // mm, border included
	cells         int
}

func (m mesh) raster(s shape) raster {
	s = s.move(zeroCorner(s.box))
	r := raster{width: s.box.Width() + 2*border, height: s.box.Height() + 2*border}
	r.rows = make([][]run, int(math.Ceil(r.height/m.cy-1e-9)))
	last := int(math.Ceil(r.width/m.cx-1e-9)) - 1
	mark := func(y int, x0, x1 float64) {
		if y = min(max(y, 0), len(r.rows)-1); x1 >= x0 {
			a, b := int(x0/m.cx), int(x1/m.cx)
			r.rows[y] = append(r.rows[y], run{max(0, min(a, last)), max(0, min(b, last)) + 1})
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

// floor is where pieces already lie, in cells, and which sheets they use.
type floor struct {
	cols, width int
	// taken[y][x] is the last cell up to and with x, in row y, that a new piece
	// must not touch; -1 where there is none.
	taken [][]int32
	used  [][]bool // sheets by row and column
	foot  int      // rows of cells in use
}

func newFloor(cols, nx, stripX int) *floor {
	return &floor{cols: cols, width: cols*nx + stripX + 2}
}

// row gives row y of taken, making it where it is not there yet.
func (f *floor) row(y int) []int32 {
	for len(f.taken) <= y {
		row := make([]int32, f.width)
		for i := range row {
			row[i] = -1
		}
		f.taken = append(f.taken, row)
	}
	return f.taken[y]
}

// room reports whether the raster fits at cell (x, y). Where it does not,
// next is the first x worth trying in this row.
func (f *floor) room(r raster, x, y int) (ok bool, next int) {
	for j, runs := range r.rows {
		if y+j >= len(f.taken) {
			break
		}
		row := f.taken[y+j]
		for _, q := range runs {
			end := min(x+q.b, f.width) - 1
			if hit := int(row[end]); hit >= x+q.a {
				return false, hit + 1 - q.a
			}
		}
	}
	return true, x
}

// put takes the cells of the raster and all around them: the cells being at
// least Clear wide, what lies beyond is clear of the piece.
func (f *floor) put(r raster, x, y int) {
	for j, runs := range r.rows {
		for dy := -1; dy <= 1; dy++ {
			if y+j+dy < 0 {
				continue
			}
			row := f.row(y + j + dy)
			for _, q := range runs {
				block(row, max(0, x+q.a-1), min(len(row), x+q.b+1))
			}
		}
	}
	f.foot = max(f.foot, y+len(r.rows))
}

// block takes cells a up to b of a row.
func block(row []int32, a, b int) {
	for i := a; i < b; i++ {
		row[i] = int32(i)
	}
	for i := b; i < len(row) && row[i] < int32(b-1); i++ {
		row[i] = int32(b - 1)
	}
}

func (f *floor) isUsed(r, c int) bool { return r < len(f.used) && f.used[r][c] }

func (f *floor) use(r, c int) {
	for len(f.used) <= r {
		f.used = append(f.used, make([]bool, f.cols))
	}
	f.used[r][c] = true
}
