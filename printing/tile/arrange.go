package tile

import (
	"fmt"
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// Arrange places the pieces so that few sheets are printed. Grain stays along
// the sheets' long side; a piece that fits on one sheet lies on one sheet;
// pieces keep Clear mm apart. It tries several widths of the grid and orders
// of the pieces, puts each piece where it opens the fewest new sheets, and
// keeps the try with the fewest sheets and, among those, few joins through
// pieces and a grid that is not long and narrow. The same pieces give the same places. Errors name the piece
// or say what is wrong with the setup.
func Arrange(pieces []printing.Piece, setup Setup) ([]Placed, error) {
	if err := setup.Validate(); err != nil {
		return nil, err
	}
	m := newMesh(setup.grid())
	items := make([]*item, len(pieces))
	for i, p := range pieces {
		var err error
		if items[i], err = m.newItem(p, setup); err != nil {
			return nil, err
		}
	}
	if len(items) == 0 {
		return nil, nil
	}
	var best *try
	for _, order := range orders(items) {
		for _, cols := range m.widths(items) {
			if t := m.attempt(items, order, cols); best == nil || t.better(best) {
				best = t
			}
		}
	}
	out := make([]Placed, len(pieces))
	for i, s := range best.spots {
		v := items[i].views[s.view]
		corner := geom.Vec{X: float64(s.x) * m.cx, Y: float64(s.y) * m.cy}
		out[i] = Placed{pieces[i], geom.Translate(corner.Add(v.corner)).Mul(geom.Rotate(v.turn))}
	}
	return out, nil
}

// item is a piece to place, in its two turns.
type item struct {
	views [2]*view
	area  float64
	whole bool // fits on one sheet
}

// view is a piece in one turn.
type view struct {
	turn   float64
	corner geom.Vec // brings the turned piece's ink to its first cell
	raster
	sheets map[int][]cellAt // by phase: the sheets it needs
}

// cellAt is a sheet, by rows and columns from the one under the first cell.
type cellAt struct{ r, c int }

func (m mesh) newItem(p printing.Piece, setup Setup) (*item, error) {
	base := upright(p.Grain, setup)
	it := &item{}
	for k := range it.views {
		turn := base + float64(k)*math.Pi
		s, err := shapeOf(p, geom.Rotate(turn))
		if err != nil {
			return nil, err
		}
		if s.box.Width()/m.sx*(s.box.Height()/m.sy) > mostSheets {
			return nil, fmt.Errorf("placing %s: it is %.0f x %.0f mm, more than 2000 sheets: check its measures", p.Name, s.box.Width(), s.box.Height())
		}
		it.views[k] = &view{turn: turn, corner: zeroCorner(s.box), raster: m.raster(s), sheets: map[int][]cellAt{}}
	}
	r := it.views[0].raster
	it.area = float64(r.cells) * m.cx * m.cy
	it.whole = r.width <= m.px && r.height <= m.py
	return it, nil
}

// zeroCorner brings the upper left corner of b to (border, border).
func zeroCorner(b geom.Box) geom.Vec {
	return geom.Pt(border, border).Sub(b.Min)
}

// upright is the turn, in radians, that lays the grain along the sheets' long
// side: of the two, the smaller one. A piece without grain is not turned.
func upright(grain geom.Vec, setup Setup) float64 {
	if grain.IsZero() {
		return 0
	}
	along := math.Pi / 2
	if w, h := setup.Size(); w > h {
		along = 0
	}
	turn := math.Remainder(along-math.Atan2(grain.Y, grain.X), math.Pi)
	if math.Abs(turn) < 1e-12 {
		return 0
	}
	return turn
}

// orders are the orders to try: large pieces first, tall ones first, wide ones
// first.
func orders(items []*item) [][]int {
	by := func(size func(*item) float64) []int {
		order := make([]int, len(items))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			if d := size(items[b]) - size(items[a]); d > 0 {
				return 1
			} else if d < 0 {
				return -1
			}
			return 0
		})
		return order
	}
	return [][]int{
		by(func(it *item) float64 { return it.area }),
		by(func(it *item) float64 { return it.views[0].height }),
		by(func(it *item) float64 { return it.views[0].width }),
	}
}

// widths are the grid widths to try, in sheets: from the widest piece's up to
// a little over a square.
func (m mesh) widths(items []*item) []int {
	least, area := 1, 0.0
	for _, it := range items {
		least = max(least, Count(it.views[0].width, m.px, m.overlapX()))
		area += it.area
	}
	most := max(least+2, int(math.Ceil(math.Sqrt(area/(m.sx*m.sy))))+1)
	var out []int
	for n := max(least, most-5); n <= most; n++ {
		out = append(out, n)
	}
	if out[0] > least {
		out = append([]int{least}, out...)
	}
	return out
}

// spot is where a piece goes: its turn and its first cell.
type spot struct{ view, x, y int }

// try is one arrangement and what it costs.
type try struct {
	spots       []spot
	sheets      int
	joins       int // sheets counted once for every piece on them
	rows, width int // of the grid in use
}

func (t *try) better(o *try) bool {
	return t.sheets < o.sheets || t.sheets == o.sheets && t.trouble() < o.trouble()
}

// trouble weighs joins through pieces against a grid that is long and narrow
// or full of blanks.
func (t *try) trouble() int {
	return t.joins + max(t.rows, t.width) + t.rows*t.width - t.sheets
}

// attempt places the pieces one after the other on a grid cols sheets wide.
func (m mesh) attempt(items []*item, order []int, cols int) *try {
	f := newFloor(cols, m.nx, m.stripX)
	t := &try{spots: make([]spot, len(items))}
	for _, i := range order {
		s, sheets := m.place(items[i], f)
		t.spots[i] = s
		f.put(items[i].views[s.view].raster, s.x, s.y)
		for _, c := range sheets {
			r, col := s.y/m.ny+c.r, s.x/m.nx+c.c
			if !f.isUsed(r, col) {
				t.sheets++
				f.use(r, col)
				t.width = max(t.width, col+1)
			}
		}
		t.joins += len(sheets)
	}
	t.rows = len(f.used)
	return t
}

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

// place finds the cheapest place for a piece, the upper left one first. Below
// the last row of sheets in use there is always room.
func (m mesh) place(it *item, f *floor) (spot, []cellAt) {
	best := cost{fresh: math.MaxInt}
	var at spot
	var on []cellAt
	below := (f.foot + m.ny) / m.ny * m.ny // the row below the last is kept clear
	wide := float64(f.cols)*m.sx + m.overlapX()
	for k, v := range it.views {
		lastX := int((wide - v.width + 1e-6) / m.cx)
		for y := 0; y <= below; y++ {
			for x := 0; x <= lastX; x++ {
				sheets := m.needs(it, v, x, y)
				if sheets == nil {
					continue
				}
				c := cost{0, len(sheets), y}
				for _, s := range sheets {
					if !f.isUsed(y/m.ny+s.r, x/m.nx+s.c) {
						c.fresh++
					}
				}
				if !c.less(best) {
					continue
				}
				ok, next := f.room(v.raster, x, y)
				if ok {
					best, at, on = c, spot{k, x, y}, sheets
				} else {
					x = max(x, next-1)
				}
			}
		}
	}
	return at, on
}

var onOne = []cellAt{{}}

// needs lists the sheets that a piece at cell (x, y) lies on; nil where a piece
// that fits on one sheet would lie on more, and at places left untried: on
// large sheets, a piece larger yet is tried only at every few cells.
func (m mesh) needs(it *item, v *view, x, y int) []cellAt {
	px, py := x%m.nx, y%m.ny
	if it.whole {
		if float64(px)*m.cx+v.width > m.px+1e-6 || float64(py)*m.cy+v.height > m.py+1e-6 {
			return nil
		}
		return onOne
	}
	const most = 60
	if px%(m.nx/most+1) != 0 || py%(m.ny/most+1) != 0 {
		return nil
	}
	key := py*m.nx + px
	sheets, ok := v.sheets[key]
	if !ok {
		sheets = m.sheetsUnder(v.raster, px, py)
		v.sheets[key] = sheets
	}
	return sheets
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
