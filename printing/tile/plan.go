package tile

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Side is one of a sheet's four sides.
type Side int

// The sides in reading order: of any two neighbours, the one to the right or
// below is trimmed and lies on top.
const (
	Left Side = iota
	Up
	Right
	Down
)

// step is the way from a sheet to its neighbour, in rows and columns.
func (s Side) step() (row, col int) {
	return [...]int{0, -1, 0, 1}[s], [...]int{-1, 0, 1, 0}[s]
}

// Sheet is one printed page of the layout.
type Sheet struct {
	Row, Col int    // from 0
	Name     string // A1
	// Window is the part of the layout the page shows, all that the printer
	// can print on, in layout mm.
	Window geom.Box
	// Own is the part that stays in sight when all is glued: it ends at the
	// joins, in the middle of the overlaps.
	Own geom.Box
	// Beside names the neighbour on each Side; empty where there is none.
	Beside [4]string
	// Buttons are the joining buttons of which this sheet prints a part.
	Buttons []Button
	// NameAt is the left end of the baseline of the sheet's name, in layout
	// mm, clear of lines and words where there is such a place.
	NameAt geom.Point
	// Tips are the places for a few words in the strips, in layout mm, clear
	// of lines, words and buttons; where a strip is too narrow, beside its
	// join; empty where there is none.
	Tips [4]geom.Box
}

// InStrip reports whether the tip of a side lies in its strip.
func (s Sheet) InStrip(side Side) bool {
	return math.Min(s.Strip(side).Width(), s.Strip(side).Height()) >= tipHigh
}

// Trim reports whether the sheet is cut along its join on that side: on its
// left and upper sides, where there is a neighbour to lie on.
func (s Sheet) Trim(side Side) bool {
	return (side == Left || side == Up) && s.Beside[side] != ""
}

// Glue reports whether the neighbour on that side is glued on top.
func (s Sheet) Glue(side Side) bool {
	return (side == Right || side == Down) && s.Beside[side] != ""
}

// Strip is what the sheet shows beyond the join on a side, in layout mm: glue
// strip or waste. It is empty where there is no neighbour, and without overlap.
func (s Sheet) Strip(side Side) geom.Box {
	b := s.Window
	switch {
	case s.Beside[side] == "":
		return geom.Box{}
	case side == Left:
		b.Max.X = s.Own.Min.X
	case side == Right:
		b.Min.X = s.Own.Max.X
	case side == Up:
		b.Max.Y = s.Own.Min.Y
	case side == Down:
		b.Min.Y = s.Own.Max.Y
	}
	return b
}

// Plan is what is printed: the pieces in their places and the sheets in order,
// row by row. Without pieces there are no sheets, and only the page with the
// scale check is printed.
type Plan struct {
	// Setup is the one asked for, with the sides of a free page settled.
	Setup  Setup
	Pieces []Placed
	// Rows and Cols count the grid, blank sheets included.
	Rows, Cols int
	Sheets     []Sheet
	// Panel is where the scale check and its words stand, in layout mm, on
	// sheet PanelOn. Where there is no room it is empty, and they have a page
	// of their own before the sheets.
	Panel   geom.Box
	PanelOn int // index in Sheets
}

// Cover reports whether a page of its own with the scale check, the page map
// and the words comes before the sheets. A projector needs none: its page has
// squares to set it by.
func (p Plan) Cover() bool {
	return p.Panel.Empty() && !(p.Setup.Paper.Projected() && len(p.Sheets) > 0)
}

// Pages is how many pages are printed, the cover included.
func (p Plan) Pages() int {
	if p.Cover() {
		return len(p.Sheets) + 1
	}
	return len(p.Sheets)
}

// CoverName names the page before the sheets among the pages.
const CoverName = "Cover"

// PageNames are the names of the pages in the order in which they are printed.
func (p Plan) PageNames() []string {
	var out []string
	if p.Cover() {
		out = append(out, CoverName)
	}
	for _, s := range p.Sheets {
		out = append(out, s.Name)
	}
	return out
}

// At is the sheet in a row and column; false where it is blank and left out.
func (p Plan) At(row, col int) (Sheet, bool) {
	for _, s := range p.Sheets {
		if s.Row == row && s.Col == col {
			return s, true
		}
	}
	return Sheet{}, false
}

// Blank is where a blank sheet that was left out would lie, in layout mm.
func (p Plan) Blank(row, col int) geom.Box {
	if len(p.Sheets) == 0 {
		return geom.Box{}
	}
	s, g := p.Sheets[0], p.Setup.grid()
	shift := geom.Vec{X: float64(col-s.Col) * g.sx, Y: float64(row-s.Row) * g.sy}
	b := geom.Box{Min: s.Window.Min.Add(shift), Max: s.Window.Max.Add(shift)}
	inset := geom.Vec{X: g.overlapX() / 2, Y: g.overlapY() / 2}
	return geom.Box{Min: b.Min.Add(inset), Max: b.Max.Add(inset.Scale(-1))}
}

// OnPage takes layout mm to mm on the page of s, from the upper left corner of
// the paper. It stretches by the printer's correction and nothing else.
func (p Plan) OnPage(s Sheet) geom.Affine {
	kx, ky := p.Setup.Printer.Scale()
	m := p.Setup.Margin
	return geom.Translate(geom.Vec{X: m, Y: m}).Mul(geom.ScaleXY(kx, ky)).Mul(geom.Translate(geom.Point{}.Sub(s.Window.Min)))
}

// Layout says which sheets show the pieces as they lie, and leaves out the
// blank ones. Errors name the piece, or say what is wrong with the setup.
func Layout(placed []Placed, setup Setup) (Plan, error) {
	if err := setup.Validate(); err != nil {
		return Plan{}, err
	}
	plan := Plan{Setup: setup, Pieces: placed}
	shapes := make([]shape, len(placed))
	var ink geom.Box
	for i, p := range placed {
		if !rigid(p.At) {
			return Plan{}, words.Errorf("laying out %s: a piece may be turned and moved, not stretched", p.Piece.Name)
		}
		var err error
		if shapes[i], err = shapeOf(p.Piece, p.At); err != nil {
			return Plan{}, err
		}
		ink = ink.Union(shapes[i].box)
	}
	if ink.Empty() {
		return plan, plan.settleEmpty()
	}
	var err error
	if plan.Setup, err = setup.settle(ink, 0); err != nil {
		return Plan{}, err
	}
	if err := plan.addSheets(shapes, ink); err != nil {
		return Plan{}, err
	}
	plan.joinUp(shapes)
	plan.nameSheets(shapes)
	plan.placeTips(shapes)
	if plan.placePanel(shapes); plan.Panel.Empty() && setup.Paper.Roll() {
		return plan, plan.addPanelBelow(ink)
	}
	return plan, nil
}

// settleEmpty gives a free page without pieces the size of the scale check.
func (p *Plan) settleEmpty() error {
	var err error
	p.Setup, err = p.Setup.settle(geom.Box{Max: geom.Pt(PanelWidth, PanelHeight)}, 0)
	return err
}

// mostSheets keeps a mistyped measure from filling the printer.
const mostSheets = 2000

// addSheets finds the sheets in use; the floor is moved so that the grid
// starts at the first column and row that show ink.
func (p *Plan) addSheets(shapes []shape, ink geom.Box) error {
	g := p.Setup.grid()
	shift := p.Setup.origin(ink).Sub(geom.Point{})
	if ink.Width()/g.sx*(ink.Height()/g.sy) > mostSheets {
		return words.Error("the layout needs more than 2000 sheets: check the measures of its pieces")
	}
	cols := Count(ink.Max.X-shift.X, g.px, g.overlapX())
	rows := Count(ink.Max.Y-shift.Y, g.py, g.overlapY())
	local := make([]shape, len(shapes))
	for i, s := range shapes {
		local[i] = s.move(shift.Scale(-1))
	}
	kept := coverField(g, cols, rows, local).sheets()
	top, left, bottom, right := used(kept)
	p.Rows, p.Cols = bottom-top+1, right-left+1
	for r := top; r <= bottom; r++ {
		for c := left; c <= right; c++ {
			if kept[r][c] {
				w := g.window(r, c)
				w.Min, w.Max = w.Min.Add(shift), w.Max.Add(shift)
				p.Sheets = append(p.Sheets, Sheet{Row: r - top, Col: c - left, Name: SheetName(r-top, c-left), Window: w})
			}
		}
	}
	return nil
}

// used is the range of rows and columns with a kept sheet.
func used(kept [][]bool) (top, left, bottom, right int) {
	top, left, bottom, right = len(kept), len(kept[0]), -1, -1
	for r, row := range kept {
		for c, k := range row {
			if k {
				top, left, bottom, right = min(top, r), min(left, c), max(bottom, r), max(right, c)
			}
		}
	}
	return top, left, bottom, right
}

// joinUp finds neighbours, joins and buttons.
func (p *Plan) joinUp(shapes []shape) {
	g := p.Setup.grid()
	index := map[[2]int]int{}
	for i, s := range p.Sheets {
		index[[2]int{s.Row, s.Col}] = i
	}
	for i := range p.Sheets {
		s := &p.Sheets[i]
		for side := Left; side <= Down; side++ {
			dr, dc := side.step()
			if j, ok := index[[2]int{s.Row + dr, s.Col + dc}]; ok {
				s.Beside[side] = p.Sheets[j].Name
			}
		}
		s.Own = s.Window
		inset := [4]float64{g.overlapX() / 2, g.overlapY() / 2, g.overlapX() / 2, g.overlapY() / 2}
		for side := range inset {
			if s.Beside[side] == "" {
				inset[side] = 0
			}
		}
		s.Own.Min = s.Own.Min.Add(geom.Vec{X: inset[Left], Y: inset[Up]})
		s.Own.Max = s.Own.Max.Add(geom.Vec{X: -inset[Right], Y: -inset[Down]})
	}
	p.sewButtons(index, shapes)
}

// rigid reports whether m turns and shifts without stretching or mirroring.
func rigid(m geom.Affine) bool {
	const slack = 1e-9
	return math.Abs(m.A-m.D) < slack && math.Abs(m.B+m.C) < slack &&
		math.Abs(m.A*m.A+m.B*m.B-1) < slack
}
