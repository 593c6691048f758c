package tile

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// Button is a joining button: a round four-hole button centred on a join. Each
// sheet prints the quarters that lie on its own side of the join, so that the
// button is whole only when the sheets meet; its cross-hair is printed in full
// on each.
type Button struct {
	At geom.Point // layout mm
	R  float64    // mm
	// Quarters are the parts this sheet prints, clockwise from the upper left.
	Quarters [4]bool
}

// radii of the buttons where four sheets meet and along a join, mm.
const (
	cornerButton = 4.0
	joinButton   = 3.0
)

// along a join there is a button about every this many mm.
const buttonEvery = 200.0

// quarters lists, clockwise from the upper left, the row and column of the
// sheet under each quarter of a button on the corner before sheet (0, 0).
var quarters = [4][2]int{{-1, -1}, {-1, 0}, {0, 0}, {0, -1}}

// sewButtons puts buttons on every join and every corner where two neighbours
// meet, where it can be clear of the lines of the shapes. index finds a sheet by
// row and column.
func (p *Plan) sewButtons(index map[[2]int]int, shapes []shape) {
	for i := range p.Sheets {
		s := p.Sheets[i]
		if j, ok := index[[2]int{s.Row, s.Col + 1}]; ok {
			p.sewJoin(i, j, Right, shapes)
		}
		if j, ok := index[[2]int{s.Row + 1, s.Col}]; ok {
			p.sewJoin(i, j, Down, shapes)
		}
	}
	for r := 1; r < p.Rows; r++ {
		for c := 1; c < p.Cols; c++ {
			p.sewCorner(r, c, index)
		}
	}
}

// sewJoin puts buttons along the join between sheet i and its neighbour j.
func (p *Plan) sewJoin(i, j int, side Side, shapes []shape) {
	a, b := p.Sheets[i].Own, p.Sheets[j].Own
	first, second := [4]bool{true, false, false, true}, [4]bool{false, true, true, false}
	from, to := geom.Pt(a.Max.X, math.Max(a.Min.Y, b.Min.Y)), geom.Pt(a.Max.X, math.Min(a.Max.Y, b.Max.Y))
	if side == Down {
		first, second = [4]bool{true, true, false, false}, [4]bool{false, false, true, true}
		from, to = geom.Pt(math.Max(a.Min.X, b.Min.X), a.Max.Y), geom.Pt(math.Min(a.Max.X, b.Max.X), a.Max.Y)
	}
	n := math.Ceil(from.Dist(to) / buttonEvery)
	for k := 0.5; k < n; k++ {
		at := clearOf(shapes, from.Lerp(to, k/n), to.Sub(from).Scale(1/from.Dist(to)), from.Dist(to)/n/2)
		p.Sheets[i].Buttons = append(p.Sheets[i].Buttons, Button{at, joinButton, first})
		p.Sheets[j].Buttons = append(p.Sheets[j].Buttons, Button{at, joinButton, second})
	}
}

// clearOf is the place nearest to at, at most so far along the join, where no
// line runs through a button or close by; at itself where there is none.
func clearOf(shapes []shape, at geom.Point, along geom.Vec, most float64) geom.Point {
	const step, beside = 4.0, 1.5 // mm
	for off := 0.0; off <= most-2*cornerButton; off += step {
		for _, way := range []float64{1, -1} {
			q := at.Add(along.Scale(way * off))
			if !slices.ContainsFunc(shapes, func(s shape) bool { return s.meets(geom.BoxOf(q).Grow(1.5*joinButton + beside)) }) {
				return q
			}
		}
	}
	return at
}

// sewCorner puts a button where the sheets around the upper left corner of
// (r, c) meet. The quarter over a blank sheet is printed by the sheet beside
// it, so that the button still becomes whole.
func (p *Plan) sewCorner(r, c int, index map[[2]int]int) {
	var sheet [4]int
	for q, d := range quarters {
		i, ok := index[[2]int{r + d[0], c + d[1]}]
		if !ok {
			i = -1
		}
		sheet[q] = i
	}
	neighbours := false
	for q := range sheet {
		neighbours = neighbours || sheet[q] >= 0 && sheet[(q+1)%4] >= 0
	}
	if !neighbours {
		return
	}
	g := p.Setup.grid()
	printed := map[int][4]bool{}
	var at geom.Point
	for q := range sheet {
		i := sheet[q]
		if i < 0 {
			i = standIn(sheet, q)
		}
		if i < 0 {
			continue
		}
		parts := printed[i]
		parts[q] = true
		printed[i] = parts
		s := p.Sheets[i]
		at = s.Window.Min.Add(geom.Vec{
			X: float64(c-s.Col)*g.sx + g.overlapX()/2,
			Y: float64(r-s.Row)*g.sy + g.overlapY()/2,
		})
	}
	for _, i := range sheet {
		if parts, ok := printed[i]; ok && i >= 0 {
			p.Sheets[i].Buttons = append(p.Sheets[i].Buttons, Button{at, cornerButton, parts})
			delete(printed, i)
		}
	}
}

// standIn is the sheet that prints quarter q in place of a blank one: the one
// in its row, else the one in its column, else none (-1).
func standIn(sheet [4]int, q int) int {
	row, col := [4]int{1, 0, 3, 2}[q], [4]int{3, 2, 1, 0}[q]
	if sheet[row] >= 0 {
		return sheet[row]
	}
	return sheet[col]
}
