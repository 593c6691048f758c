package tile

import (
	"encoding/binary"
	"math"
)

// cellAt is a sheet, by rows and columns from the one under the first cell.
type cellAt struct{ r, c int }

// sheetSet is sheets that a piece needs, and where its first cell lies on a
// sheet when it needs just these: bit x of row y of at.
type sheetSet struct {
	sheets []cellAt
	split  bool // the piece fits on one sheet, and lies on more
	at     bitmap
	top    int // rows of at, from and up to, in which there is a place
	bottom int
}

// a sheet is not looked through at more places than this for what a piece
// needs there.
const mostPhases = 10000

// sheetSets works out which sheets a view needs for every place of its first
// cell on a sheet; on large sheets, for every second or third place.
func (m mesh) sheetSets(v *view) []sheetSet {
	var sets []sheetSet
	byParts := map[string]int{}
	bySheets := map[string]int{}
	add := func(sheets []cellAt) int {
		key := make([]byte, 0, 2*len(sheets))
		for _, c := range sheets {
			key = binary.AppendUvarint(binary.AppendUvarint(key, uint64(c.r)), uint64(c.c))
		}
		i, ok := bySheets[string(key)]
		if !ok {
			i = len(sets)
			bySheets[string(key)] = i
			sets = append(sets, sheetSet{sheets: sheets, at: newBitmap(m.nx, m.ny)})
		}
		return i
	}
	whole := add([]cellAt{{}})
	lastX, lastY := -1, -1 // where it lies whole on its first sheet
	if v.width <= m.px+1e-6 && v.height <= m.py+1e-6 {
		lastX = min(m.nx-1, int((m.px-v.width+1e-6)/m.cx))
		lastY = min(m.ny-1, int((m.py-v.height+1e-6)/m.cy))
		for y := 0; y <= lastY; y++ {
			sets[whole].at.set(y, 0, lastX+1)
		}
	}
	t := m.table(v.raster)
	stride := int(math.Ceil(math.Sqrt(float64(m.nx) * float64(m.ny) / mostPhases)))
	var key []byte
	for y := 0; y < m.ny; y += stride {
		for x := 0; x < m.nx; x += stride {
			if x <= lastX && y <= lastY {
				continue
			}
			f := m.parts(t, v.raster, x, y)
			key = f.key(key[:0])
			i, ok := byParts[string(key)]
			if !ok {
				i = add(m.sheetList(f))
				byParts[string(key)] = i
			}
			sets[i].at.set(y, x, x+1)
		}
	}
	for i := range sets {
		sets[i].span()
	}
	return sets
}

// span finds the rows with a place.
func (s *sheetSet) span() {
	s.top = s.at.high()
	for y := range s.at.high() {
		for _, w := range s.at.row(y) {
			if w != 0 {
				s.top, s.bottom = min(s.top, y), y+1
			}
		}
	}
}

// splitSets marks the sets that split a piece which fits on one sheet.
func (v *view) splitSets() {
	for i := range v.sets {
		v.sets[i].split = len(v.sets[i].sheets) > 1
	}
}

// sheetList lists the sheets that show all covered parts of f.
func (m mesh) sheetList(f field) []cellAt {
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

// key is f in few bytes.
func (f field) key(b []byte) []byte {
	b = binary.AppendUvarint(b, uint64(f.cols))
	for i, on := range f.covered {
		if i%8 == 0 {
			b = append(b, 0)
		}
		if on {
			b[len(b)-1] |= 1 << (i % 8)
		}
	}
	return b
}

// sums is a summed table of a raster's cells: the number of them above and to
// the left of each corner.
type sums struct {
	wide int
	n    []int32
}

func (m mesh) table(r raster) sums {
	wide, high := r.wide, len(r.rows)
	s := sums{wide + 1, make([]int32, (wide+1)*(high+1))}
	for y, runs := range r.rows {
		row, above := s.n[(y+1)*s.wide:], s.n[y*s.wide:]
		for _, q := range runs {
			for x := q.a; x < q.b; x++ { // runs may lie over each other
				row[x+1] = 1
			}
		}
		for x, sum := 1, int32(0); x <= wide; x++ {
			sum += row[x]
			row[x] = above[x] + sum
		}
	}
	return s
}

// any reports whether there is a cell in columns x0 up to x1 of rows y0 up to
// y1.
func (s sums) any(x0, x1, y0, y1 int) bool {
	return s.n[y1*s.wide+x1]-s.n[y0*s.wide+x1]-s.n[y1*s.wide+x0]+s.n[y0*s.wide+x0] > 0
}

// parts marks the parts of the floor that a raster covers whose first cell is
// (px, py) of a sheet.
func (m mesh) parts(t sums, r raster, px, py int) field {
	cols := (px+r.wide+m.nx-1)/m.nx + 1
	rows := (py+len(r.rows)+m.ny-1)/m.ny + 1
	f := newField(cols, rows)
	xs := cuts(px, r.wide, m.nx, m.stripX, lastPart(float64(px)*m.cx+r.width, m.sx, m.overlapX()))
	ys := cuts(py, len(r.rows), m.ny, m.stripY, lastPart(float64(py)*m.cy+r.height, m.sy, m.overlapY()))
	for _, y := range ys {
		for _, x := range xs {
			if t.any(x.from, x.to, y.from, y.to) {
				*f.at(y.part, x.part) = true
			}
		}
	}
	return f
}

// cut is a stretch of a raster's rows or columns and the part it lies in.
type cut struct{ part, from, to int }

// cuts splits n cells from place p of a sheet on into the parts they lie in,
// none beyond last.
func cuts(p, n, step, strip, last int) []cut {
	var out []cut
	for i := 0; i < n; {
		at := p + i
		part, end := 2*(at/step)+1, at/step*step+step
		if at%step < strip {
			part, end = part-1, at/step*step+strip
		}
		if part >= last {
			return append(out, cut{last, i, n})
		}
		to := min(n, end-p)
		out = append(out, cut{part, i, to})
		i = to
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
