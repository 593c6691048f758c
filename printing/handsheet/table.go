package handsheet

import (
	"fmt"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// The table, mm.
const (
	rowHigh    = 4.5
	headRows   = 11.0
	titleSize  = 3.2 // letter height of the columns' names
	cellSize   = 3.4 // letter height
	cellAir    = 1.6 // left free in a column
	exactSize  = 2.3
	exactApart = 1.0
	numberWide = 8.0
	wayWide    = 16.0
	leastName  = 32.0
	mostStage  = 30.0
	stageMore  = 1.3 // at least so much wider than a gap's column
)

// table is the sheet's table with its columns laid out.
type table struct {
	d          *document
	name       float64 // wide
	gap, stage float64 // wide, of one column
	shrink     float64 // of all amounts, so that the longest has room
}

// newTable lays the columns out by what is longest in them. Where that is too
// much for the page, all amounts shrink alike.
func (d *document) newTable() table {
	t := table{d: d, shrink: 1}
	for _, g := range d.s.Gaps {
		t.gap = max(t.gap, d.Width(g, titleSize, false))
	}
	for _, g := range d.s.Stages {
		t.stage = max(t.stage, d.Width(g, titleSize, true))
	}
	for _, q := range d.s.Points {
		for _, r := range d.rows(q) {
			for _, c := range r.gaps {
				t.gap = max(t.gap, d.wide(c, false))
			}
			for _, c := range r.stages {
				t.stage = max(t.stage, d.wide(c, true))
			}
		}
	}
	t.gap += cellAir
	t.stage = max(t.stage+cellAir, stageMore*t.gap)
	room := d.paper.Width - 2*margin - numberWide - wayWide
	need := t.gap*float64(len(d.s.Gaps)) + t.stage*float64(len(d.s.Stages))
	k := min((room-leastName)/need, mostStage/t.stage)
	t.gap, t.stage, t.name = k*t.gap, k*t.stage, room-k*need
	t.shrink = min(1, k)
	return t
}

// row is one direction of a point as the table shows it.
type row struct {
	way          string
	arrow        geom.Vec
	gaps, stages []cell
}

// cell is an amount, with its exact value where that is shown.
type cell struct{ shown, exact string }

// rows are the two rows of a point: across the grain and along it.
func (d *document) rows(q Point) [2]row {
	of := func(m Moves, along bool, arrow geom.Vec) row {
		r := row{way: d.ruler.way(m.Total(), along), arrow: arrow}
		for _, g := range m.Gaps {
			shown, _ := d.ruler.cell(g, along, r.way)
			r.gaps = append(r.gaps, cell{shown: shown})
		}
		for _, g := range m.Stages {
			shown, exact := d.ruler.cell(g, along, r.way)
			r.stages = append(r.stages, cell{shown, exact})
		}
		return r
	}
	return [2]row{of(q.Out, false, q.arrowAcross(d.ruler)), of(q.Down, true, q.arrowAlong(d.ruler))}
}

// widths are how wide an amount and its exact value are, shrunk.
func (d *document) widths(c cell, shrink float64, bold bool) (shown, exact float64) {
	shown = d.Width(c.shown, shrink*cellSize, bold)
	if c.exact != "" {
		exact = d.Width(c.exact, shrink*exactSize, false) + shrink*exactApart
	}
	return shown, exact
}

// wide is how wide an amount is with its exact value.
func (d *document) wide(c cell, bold bool) float64 {
	shown, exact := d.widths(c, 1, bold)
	return shown + exact
}

// draw draws the rows from point from on that fit in room, one at least, and
// returns how many and where they end.
func (t table) draw(room geom.Box, from int) (n int, y float64) {
	left := len(t.d.s.Points) - from
	if left == 0 {
		return 0, room.Min.Y
	}
	n = min(left, max(1, int((room.Height()-headRows)/(2*rowHigh)+1e-9)))
	t.head(room)
	y = room.Min.Y + headRows
	for k := from; k < from+n; k++ {
		t.point(room, y, k)
		y += 2 * rowHigh
	}
	t.rule(room, y, 0.3)
	return n, y
}

func (t table) rule(room geom.Box, y, width float64) {
	t.d.p.Line(geom.Pt(room.Min.X, y), geom.Pt(room.Max.X, y), width, page.Grey(0.3))
}

// columns are the left edges of the way, the first gap and the first stage.
func (t table) columns(room geom.Box) (way, gaps, stages float64) {
	way = room.Min.X + numberWide + t.name
	gaps = way + wayWide
	return way, gaps, gaps + t.gap*float64(len(t.d.s.Gaps))
}

func (t table) head(room geom.Box) {
	d, s := t.d, t.d.s
	way, gaps, stages := t.columns(room)
	y := room.Min.Y
	t.rule(room, y, 0.3)
	d.text(room.Min.X+numberWide, y+headRows-1.8, way-room.Min.X-numberWide, titleSize, true, words.C("of a piece", "Point"))
	unit := d.ruler.unitWord()
	t.centred(gaps, y+4, stages-gaps, titleSize, false, words.F("Printed gaps, %s", unit))
	t.centred(stages, y+4, room.Max.X-stages, titleSize, true, words.F("To add, %s", unit))
	for i, g := range s.Gaps {
		t.centred(gaps+t.gap*float64(i), y+headRows-1.8, t.gap, titleSize, false, g)
	}
	for i, g := range s.Stages {
		t.centred(stages+t.stage*float64(i), y+headRows-1.8, t.stage, titleSize, true, g)
	}
	t.rule(room, y+headRows, 0.3)
}

// centred writes s in the middle of a column.
func (t table) centred(x, y, wide, size float64, bold bool, s string) {
	t.d.Write(t.d.p, page.Words{Text: s, At: geom.Pt(x+wide/2, y), Size: t.d.Fit(s, wide-cellAir, size, bold), Bold: bold})
}

// point draws the two rows of point k with their upper edge at y.
func (t table) point(room geom.Box, y float64, k int) {
	d, q := t.d, t.d.s.Points[k]
	if k%2 == 1 {
		b := geom.Box{Min: geom.Pt(room.Min.X, y), Max: geom.Pt(room.Max.X, y+2*rowHigh)}
		d.p.Fill(b, page.Grey(0.94))
	}
	d.Write(d.p, page.Words{Text: fmt.Sprint(k + 1), At: geom.Pt(room.Min.X+numberWide/2, y+rowHigh+1.2), Size: 4, Bold: true})
	t.pointName(geom.Pt(room.Min.X+numberWide, y+rowHigh+1.2), q.Name, k)
	for _, r := range d.rows(q) {
		t.row(room, y, r)
		y += rowHigh
	}
}

// pointName writes the name of a point at mid height of its rows; a long one in
// two lines.
func (t table) pointName(at geom.Point, name string, k int) {
	if name == "" {
		name = words.F("point %d", k+1)
	}
	wide := t.name - 2
	if t.d.Width(name, cellSize, false) <= wide {
		t.d.text(at.X, at.Y, wide, cellSize, false, name)
		return
	}
	lines := t.d.Wrap(name, wide, cellSize)
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	y := at.Y - rowHigh/2*float64(len(lines)-1)
	for _, l := range lines {
		t.d.text(at.X, y, wide, cellSize, false, l)
		y += rowHigh
	}
}

func (t table) row(room geom.Box, y float64, r row) {
	d := t.d
	way, gaps, stages := t.columns(room)
	base := y + rowHigh - 1.05
	d.text(way+5, base, wayWide-5, cellSize, false, r.way)
	if !r.arrow.IsZero() {
		middle := geom.Pt(way+2, y+rowHigh/2)
		d.arrow(middle.Add(r.arrow.Scale(-arrowLong/2)), r.arrow)
	}
	for i, c := range r.gaps {
		t.amount(gaps+t.gap*(float64(i)+0.5), base, c, false)
	}
	for i, c := range r.stages {
		t.amount(stages+t.stage*(float64(i)+0.5), base, c, i == len(r.stages)-1)
	}
}

// amount writes an amount about x, its exact value small behind it.
func (t table) amount(x, y float64, c cell, bold bool) {
	d := t.d
	shown, exact := d.widths(c, t.shrink, bold)
	x -= (shown + exact) / 2
	d.Write(d.p, page.Words{Text: c.shown, At: geom.Pt(x, y), Size: t.shrink * cellSize, Bold: bold, Left: true})
	if c.exact != "" {
		x += shown + t.shrink*exactApart
		d.Write(d.p, page.Words{Text: c.exact, At: geom.Pt(x, y), Size: t.shrink * exactSize, Left: true, Ink: page.Grey(0.35)})
	}
}
