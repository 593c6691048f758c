package tile

import (
	"math"

	"quarterstep/model/geom"
)

// largeSheet is the area in mm² from which a sheet is too dear to be printed
// for the scale check alone: A2.
const largeSheet = 420 * 594

// panelSize is the scale check in layout mm.
func (s Setup) panelSize() geom.Vec {
	kx, ky := s.Printer.Scale()
	return geom.Vec{X: PanelWidth / kx, Y: PanelHeight / ky}
}

// placePanel puts the scale check on a sheet with the pieces, in the first free
// place from the lower right where it fits: on the only sheet, or on the first
// of several large ones that has room.
func (p *Plan) placePanel(shapes []shape) {
	if p.Setup.Paper.Projected() || len(p.Sheets) > 1 && p.Setup.Paper.Width*p.Setup.Paper.Height < largeSheet {
		return
	}
	for i, s := range p.Sheets {
		if b, ok := p.panelOn(s, shapes); ok {
			p.Panel, p.PanelOn = b, i
			return
		}
	}
}

// panelOn finds room for the scale check on one sheet, clear of its joins, as
// pieces are placed: cell by cell.
func (p *Plan) panelOn(s Sheet, shapes []shape) (geom.Box, bool) {
	m, size, room := p.Setup.mesh(), p.Setup.panelSize(), p.clearOfJoins(s).Grow(1e-6)
	taken := m.taken(s.Window, shapes)
	wide, high := taken.wide-1, taken.high()-1
	cols, rows := int((size.X+border)/m.cx)+1, int((size.Y+border)/m.cy)+1
	for y := high - rows; y >= 0; y-- {
		for x := wide - cols; x >= 0; x-- {
			if taken.any(x, x+cols, y, y+rows) {
				continue
			}
			at := s.Window.Min.Add(geom.Vec{X: float64(x)*m.cx + border, Y: float64(y)*m.cy + border})
			b := geom.Box{Min: at, Max: at.Add(size)}
			if room.Contains(b.Min) && room.Contains(b.Max) && !nameBox(s.NameAt).Intersects(b) && !wordsIn(b, shapes) {
				return b, true
			}
		}
	}
	return geom.Box{}, false
}

// taken is the cells of a window that pieces cover, pad cells around them and
// all.
func (m mesh) taken(window geom.Box, shapes []shape) sums {
	wide, high := int(math.Ceil(window.Width()/m.cx)), int(math.Ceil(window.Height()/m.cy))
	all := raster{wide: wide, rows: make([][]run, high)}
	for _, q := range shapes {
		if !q.box.Intersects(window) {
			continue
		}
		from := q.box.Min.Sub(window.Min).Add(geom.Vec{X: -border, Y: -border})
		x0, y0 := int(math.Floor(from.X/m.cx+1e-6)), int(math.Floor(from.Y/m.cy+1e-6))
		for j, runs := range thick(m.raster(q).rows) {
			if y := y0 + j - pad; y >= 0 && y < high {
				for _, q := range runs {
					all.rows[y] = append(all.rows[y], run{min(wide, max(0, x0+q.a-pad)), max(0, min(wide, x0+q.b+pad))})
				}
			}
		}
	}
	return m.table(all)
}

func (s sums) high() int { return len(s.n) / s.wide }

// clearOfJoins is the window of a sheet without its strips and the buttons on
// their joins.
func (p *Plan) clearOfJoins(s Sheet) geom.Box {
	room := s.Window
	for side, inset := range [4]geom.Vec{Left: {X: 1}, Up: {Y: 1}, Right: {X: -1}, Down: {Y: -1}} {
		if s.Beside[side] == "" {
			continue
		}
		strip := s.Strip(Side(side))
		across := math.Min(strip.Width(), strip.Height()) + cornerButton + Clear
		if Side(side) == Left || Side(side) == Up {
			room.Min = room.Min.Add(inset.Scale(across))
		} else {
			room.Max = room.Max.Add(inset.Scale(across))
		}
	}
	return room
}

func wordsIn(b geom.Box, shapes []shape) bool {
	for _, s := range shapes {
		for _, w := range s.words {
			if w.Intersects(b) {
				return true
			}
		}
	}
	return false
}

// addPanelBelow makes a roll's only page longer by the scale check, below the
// pieces on the right.
func (p *Plan) addPanelBelow(ink geom.Box) error {
	size := p.Setup.panelSize()
	settled, err := p.Setup.settle(ink, Clear+size.Y)
	if err != nil || len(p.Sheets) > 1 {
		return err
	}
	p.Setup = settled
	s := &p.Sheets[0]
	s.Window.Max.Y = s.Window.Min.Y + settled.grid().py
	s.Own = s.Window
	corner := s.Window.Max.Add(geom.Vec{X: -border, Y: -border})
	if p.Panel = (geom.Box{Min: corner.Add(size.Scale(-1)), Max: corner}); p.Panel.Min.Y < ink.Max.Y+Clear-1e-6 {
		p.Panel = geom.Box{} // the page can be no longer
	}
	return nil
}
