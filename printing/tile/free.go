package tile

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// mostFree keeps a mistyped measure from making an endless page, mm.
const mostFree = 50_000.0

// mesh is what the pieces are placed on.
func (s Setup) mesh() mesh {
	kx, _ := s.Printer.Scale()
	switch {
	case s.Paper.Roll():
		return freeMesh((s.Paper.Width - 2*s.Margin) / kx)
	case s.Paper.Free:
		return freeMesh(longest - 2*s.Margin)
	}
	return newMesh(s.grid())
}

// settle gives a free page the size that the ink needs, with below mm to spare
// below it. A roll is cut where a page can be no longer, and goes on on the
// next.
func (s Setup) settle(ink geom.Box, below float64) (Setup, error) {
	if !s.Paper.Free {
		return s, nil
	}
	kx, ky := s.Printer.Scale()
	s.Landscape = false
	s.Paper.Height = math.Min(longest, (ink.Height()+2*border+below)*ky+2*s.Margin)
	if s.Paper.Roll() {
		if room := (s.Paper.Width - 2*s.Margin) / kx; ink.Width() > room+1e-6 {
			return s, words.Errorf("the pieces lie over %.0f mm, and %s prints %.0f mm across: move them closer together", math.Ceil(ink.Width()), s.Paper.Said(), math.Floor(room))
		}
		return s, nil
	}
	s.Paper.Width = (ink.Width()+2*border)*kx + 2*s.Margin
	if wide, high := s.Paper.Width, (ink.Height()+2*border)*ky+2*s.Margin; math.Max(wide, high) > longest {
		return s, words.Errorf("the pieces need a page of %.0f x %.0f mm, and one page has at most %.0f mm a side: show fewer pieces at a time", wide, high, longest)
	}
	return s, nil
}

// origin is the corner of the first window, from which all others count: on
// sheets a corner of the grid, on a free page the corner of the ink, or on a
// roll as far left as keeps the pieces where they lie.
func (s Setup) origin(ink geom.Box) geom.Point {
	g := s.grid()
	at := geom.Pt(math.Floor(ink.Min.X/g.sx)*g.sx, math.Floor(ink.Min.Y/g.sy)*g.sy)
	if !s.Paper.Free {
		return at
	}
	at.Y = ink.Min.Y - border
	switch left := ink.Min.X - border; {
	case s.Paper.Projected():
		at.X = left
	case ink.Min.X < 0:
		at.X = left
	case ink.Max.X > g.px:
		at.X = math.Max(0, math.Min(left, ink.Max.X+border-g.px))
	default:
		at.X = 0
	}
	return at
}

// withPanel reports whether the scale check goes on a sheet with the pieces
// where there is room: on large sheets and rolls.
func (s Setup) withPanel() bool {
	return s.Paper.Roll() || s.Paper.Width*s.Paper.Height >= largeSheet
}

// panelPiece stands for the scale check among the pieces.
func (s Setup) panelPiece() printing.Piece {
	b := s.panelSize()
	o := geom.Polyline(geom.Pt(0, 0), geom.Pt(b.X, 0), geom.Pt(b.X, b.Y), geom.Pt(0, b.Y), geom.Pt(0, 0))
	return printing.Piece{Name: words.T("the scale check"), Outline: o}
}
