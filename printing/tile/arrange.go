package tile

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// Arrange places the pieces so that few sheets are printed, or so that a roll
// is short or a projector's page small. Grain runs down the sheets, tall or
// wide; pieces keep Clear mm apart; a piece that fits on one sheet lies on one
// sheet unless a sheet is saved by it. Where no sheet is saved either way, few
// joins go through pieces, no sheet shows a mere sliver of a piece where that
// can be helped, and the grid is not long and narrow. The search is bounded by
// the work it does, some tenths of a second, and the same pieces give the same
// places. Errors name the piece or say what is wrong with the setup.
func Arrange(pieces []printing.Piece, setup Setup) ([]Placed, error) {
	if err := setup.Validate(); err != nil {
		return nil, err
	}
	a, err := newArranging(pieces, setup)
	if err != nil || len(pieces) == 0 {
		return nil, err
	}
	t := a.seek()
	out := make([]Placed, len(pieces))
	for i := range pieces {
		s := t.spots[i]
		out[i] = Placed{pieces[i], a.items[i].at(a.mesh, s)}
	}
	return out, nil
}

// arranging is the pieces to be placed, and the scale check behind them where
// it goes on the sheets.
type arranging struct {
	placer
	setup  Setup
	pieces []printing.Piece
}

func newArranging(pieces []printing.Piece, setup Setup) (*arranging, error) {
	a := &arranging{setup: setup, pieces: pieces}
	a.mesh = setup.mesh()
	for _, p := range pieces {
		it, err := a.newItem(p)
		if err != nil {
			return nil, err
		}
		a.items = append(a.items, it)
	}
	if len(pieces) > 0 && setup.withPanel() {
		it, err := a.newItem(setup.panelPiece())
		if err != nil {
			return nil, err
		}
		it.views = it.views[:1]
		a.items = append(a.items, it)
	}
	a.clashes = newClashes(a.items)
	return a, nil
}

// item is a piece to place, in its two turns.
type item struct {
	views []*view
	area  float64
	whole bool // fits on one sheet
}

// at is what brings the piece to spot s.
func (it *item) at(m mesh, s spot) geom.Affine {
	v := it.views[s.view]
	corner := geom.Vec{X: float64(s.x) * m.cx, Y: float64(s.y) * m.cy}
	return geom.Translate(corner.Add(v.corner)).Mul(geom.Rotate(v.turn))
}

// view is a piece in one turn.
type view struct {
	turn   float64
	corner geom.Vec // brings the turned piece's ink to its first cell
	number int      // among all views
	raster
	sets []sheetSet
}

func (a *arranging) newItem(p printing.Piece) (*item, error) {
	base := upright(p.Grain)
	it := &item{}
	for k := range 2 {
		turn := base + float64(k)*math.Pi
		s, err := shapeOf(p, geom.Rotate(turn))
		if err != nil {
			return nil, err
		}
		if err := a.fits(p.Name, s.box); err != nil {
			return nil, err
		}
		v := &view{turn: turn, corner: zeroCorner(s.box), raster: a.raster(s)}
		it.area = float64(v.cells) * a.cx * a.cy
		it.whole = v.width <= a.px+1e-6 && v.height <= a.py+1e-6
		it.views = append(it.views, v)
	}
	if !a.free {
		for _, v := range it.views {
			if v.sets = a.sheetSets(v); it.whole {
				v.splitSets()
			}
		}
	}
	return it, nil
}

// fits refuses a piece that is too large for the paper to be meant.
func (a *arranging) fits(name string, b geom.Box) error {
	if p := a.setup.Paper; p.Roll() && b.Width()+2*border > a.px+1e-6 {
		return words.Errorf("placing %s: it is %.0f mm wide, and %s prints %.0f mm: choose a wider roll, or sheets to glue", name, math.Ceil(b.Width()), p.Said(), math.Floor(a.px))
	}
	if a.free && math.Max(b.Width(), b.Height()) > mostFree ||
		!a.free && b.Width()/a.sx*(b.Height()/a.sy) > mostSheets {
		return words.Errorf("placing %s: it is %.0f x %.0f mm, more than 2000 sheets: check its measures", name, b.Width(), b.Height())
	}
	return nil
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
