package tile

import (
	"math"
)

// cost is what a place costs: sheets newly opened, then sheets in all, then
// how far down it lies.
type cost struct{ fresh, sheets, y int }

func (c cost) less(d cost) bool {
	if c.fresh != d.fresh {
		return c.fresh < d.fresh
	}
	if c.sheets != d.sheets {
		return c.sheets < d.sheets
	}
	return c.y < d.y
}

// search looks for the cheapest place of one piece on the floor.
type search struct {
	mesh
	floor *floor
	best  cost
	at    spot
	on    []cellAt
}

// place finds the cheapest place for a piece, the upper left one first, and
// the sheets it lies on there. Below the last row of sheets in use there is
// always room.
func (m mesh) place(it *item, f *floor) (spot, []cellAt) {
	s := search{mesh: m, floor: f, best: cost{fresh: math.MaxInt}}
	below := (f.foot + m.ny) / m.ny * m.ny // the row under the last is kept clear
	for k, v := range it.views {
		// Nothing in this row or further down is cheaper: the next turn.
		for y := 0; y <= below && (cost{0, v.least, y}).less(s.best); y++ {
			if it.whole {
				s.wholeRow(k, v, y)
			} else {
				s.spreadRow(k, v, y)
			}
		}
	}
	return s.at, s.on
}

var onOne = []cellAt{{}}

// wholeRow tries row y for a piece that fits on one sheet: the places where it
// does.
func (s *search) wholeRow(k int, v *view, y int) {
	if float64(y%s.ny)*s.cy+v.height > s.py+1e-6 {
		return
	}
	last := min(s.nx-1, int((s.px-v.width+1e-6)/s.cx))
	for col := range s.floor.cols {
		c := cost{1, 1, y}
		if s.floor.isUsed(y/s.ny, col) {
			c.fresh = 0
		}
		if !c.less(s.best) {
			continue
		}
		for x := col * s.nx; x <= col*s.nx+last; {
			ok, next := s.floor.room(v.raster, x, y)
			if ok {
				s.best, s.at, s.on = c, spot{k, x, y}, onOne
				break
			}
			x = max(x+1, next)
		}
	}
}

// stride keeps the number of places tried on a large sheet in bounds, in cells
// from one to the next.
func stride(n int) int { return n/60 + 1 }

// spreadRow tries row y for a piece larger than a sheet.
func (s *search) spreadRow(k int, v *view, y int) {
	if y%s.ny%stride(s.ny) != 0 {
		return
	}
	wide := float64(s.floor.cols)*s.sx + s.overlapX()
	last := int((wide - v.width + 1e-6) / s.cx)
	for x := 0; x <= last; x++ {
		sheets := v.sheets[y%s.ny*s.nx+x%s.nx]
		if sheets == nil || !(cost{0, len(sheets), y}).less(s.best) {
			continue
		}
		c := cost{0, len(sheets), y}
		for _, q := range sheets {
			if !s.floor.isUsed(y/s.ny+q.r, x/s.nx+q.c) {
				c.fresh++
			}
		}
		if !c.less(s.best) {
			continue
		}
		if ok, next := s.floor.room(v.raster, x, y); ok {
			s.best, s.at, s.on = c, spot{k, x, y}, sheets
		} else {
			x = max(x, next-1)
		}
	}
}

// countSheets works out which sheets a piece needs, for every place of its
// first cell on a sheet that is tried.
func (m mesh) countSheets(v *view) {
	v.sheets = make([][]cellAt, m.nx*m.ny)
	v.least = math.MaxInt
	for y := 0; y < m.ny; y += stride(m.ny) {
		for x := 0; x < m.nx; x += stride(m.nx) {
			on := m.sheetsUnder(v.raster, x, y)
			v.sheets[y*m.nx+x] = on
			v.least = min(v.least, len(on))
		}
	}
}

// sheetsUnder lists the sheets that a raster needs whose first cell is (px,
// py) of a sheet.
func (m mesh) sheetsUnder(r raster, px, py int) []cellAt {
	cols := (px + int(r.width/m.cx) + 1 + m.nx - 1) / m.nx
	rows := (py + len(r.rows) + m.ny - 1) / m.ny
	f := newField(cols+1, rows+1)
	lastX := lastPart(float64(px)*m.cx+r.width, m.sx, m.overlapX())
	lastY := lastPart(float64(py)*m.cy+r.height, m.sy, m.overlapY())
	for j, runs := range r.rows {
		y := min(lastY, part(py+j, m.ny, m.stripY))
		for _, q := range runs {
			end := min(lastX, part(px+q.b-1, m.nx, m.stripX))
			for x := part(px+q.a, m.nx, m.stripX); x <= end; x++ {
				*f.at(y, x) = true
			}
		}
	}
	var out []cellAt
	for r, row := range f.sheets() {
		for c, kept := range row {
			if kept {
				out = append(out, cellAt{r, c})
			}
		}
	}
	return out
}

// lastPart is the part of a field that ink reaching to edge mm ends in.
func lastPart(edge, step, overlap float64) int {
	n := int((edge - 1e-6) / step)
	if edge-float64(n)*step <= overlap+1e-6 {
		return 2 * n
	}
	return 2*n + 1
}

// part is the part of a field that cell i lies in.
func part(i, n, strip int) int {
	if i%n < strip {
		return 2 * (i / n)
	}
	return 2*(i/n) + 1
}
