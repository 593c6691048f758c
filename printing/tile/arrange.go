package tile

import (
	"fmt"
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// Arrange places the pieces so that few sheets are printed. Grain runs down the
// sheets, tall or wide; a piece that fits on one sheet lies on one sheet;
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
	// For a piece larger than a sheet: which sheets it needs when its first
	// cell is cell (x, y) of a sheet, at y*nx+x, and the fewest of them.
	sheets [][]cellAt
	least  int
}

// cellAt is a sheet, by rows and columns from the one under the first cell.
type cellAt struct{ r, c int }

func (m mesh) newItem(p printing.Piece, setup Setup) (*item, error) {
	base := upright(p.Grain)
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
		v := &view{turn: turn, corner: zeroCorner(s.box), raster: m.raster(s), least: 1}
		it.area = float64(v.cells) * m.cx * m.cy
		if it.whole = v.width <= m.px && v.height <= m.py; !it.whole {
			m.countSheets(v)
		}
		it.views[k] = v
	}
	return it, nil
}

// zeroCorner brings the upper left corner of b to (border, border).
func zeroCorner(b geom.Box) geom.Vec {
	return geom.Pt(border, border).Sub(b.Min)
}

// upright is the turn, in radians, that lays the grain down the sheet, so that
// the words on a piece read as the page does: of the two, the smaller one. A
// piece without grain is not turned.
func upright(grain geom.Vec) float64 {
	if grain.IsZero() {
		return 0
	}
	turn := math.Remainder(math.Pi/2-math.Atan2(grain.Y, grain.X), math.Pi)
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
	return t.joins + 2*max(t.rows, t.width) + t.rows*t.width - t.sheets
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
