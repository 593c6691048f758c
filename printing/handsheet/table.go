package handsheet

import (
	"fmt"

	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// The table, mm.
const (
	rowHigh    = 4.5
	headRows   = 11.0
	cellSize   = 3.4 // letter height
	exactSize  = 2.3
	numberWide = 8.0
	wayWide    = 17.0
	leastName  = 32.0
	mostGap    = 18.0
	stageMore  = 1.7 // how much wider a stage's column is than a gap's
)

// table is the sheet's table with its columns laid out.
type table struct {
	d          *document
	name       float64 // wide
	gap, stage float64 // wide, of one column
}

func (d *document) newTable() table {
	room := d.paper.Width - 2*margin - numberWide - wayWide
	parts := float64(len(d.s.Gaps)) + stageMore*float64(len(d.s.Stages))
	gap := min(mostGap, (room-leastName)/parts)
	return table{d: d, name: room - gap*parts, gap: gap, stage: gap * stageMore}
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
	const size = 3.2
	d.text(room.Min.X+numberWide, y+headRows-1.8, way-room.Min.X-numberWide, size, true, "Point")
	unit := string(d.ruler.unit)
	t.centred(gaps, y+4, stages-gaps, size, false, "Printed gaps, "+unit)
	t.centred(stages, y+4, room.Max.X-stages, size, true, "To add, "+unit)
	for i, g := range s.Gaps {
		t.centred(gaps+t.gap*float64(i), y+headRows-1.8, t.gap, size, false, g)
	}
	for i, g := range s.Stages {
		t.centred(stages+t.stage*float64(i), y+headRows-1.8, t.stage, size, true, g)
	}
	t.rule(room, y+headRows, 0.3)
}

// centred writes s in the middle of a column.
func (t table) centred(x, y, wide, size float64, bold bool, s string) {
	const air = 1.0
	t.d.Write(t.d.p, page.Words{Text: s, At: geom.Pt(x+wide/2, y), Size: t.d.Fit(s, wide-air, size, bold), Bold: bold})
}

// point draws the two rows of point k with their upper edge at y.
func (t table) point(room geom.Box, y float64, k int) {
	d, q := t.d, t.d.s.Points[k]
	if k%2 == 1 {
		b := geom.Box{Min: geom.Pt(room.Min.X, y), Max: geom.Pt(room.Max.X, y+2*rowHigh)}
		d.p.Fill(b, page.Grey(0.94))
	}
	name := q.Name
	if name == "" {
		name = "point " + fmt.Sprint(k+1)
	}
	d.Write(d.p, page.Words{Text: fmt.Sprint(k + 1), At: geom.Pt(room.Min.X+numberWide/2, y+rowHigh+1.2), Size: 4, Bold: true})
	d.text(room.Min.X+numberWide, y+rowHigh+1.2, t.name-2, cellSize+0.2, false, name)
	t.row(room, y, q.Out, false, q.arrowAcross(d.ruler))
	t.row(room, y+rowHigh, q.Down, true, q.arrowAlong(d.ruler))
}

func (t table) row(room geom.Box, y float64, m Moves, along bool, arrow geom.Vec) {
	d := t.d
	way, gaps, stages := t.columns(room)
	base := y + rowHigh - 1.05
	word := d.ruler.way(m.Total(), along)
	d.text(way+5, base, wayWide-5, cellSize, false, word)
	if !arrow.IsZero() {
		middle := geom.Pt(way+2, y+rowHigh/2)
		d.arrow(middle.Add(arrow.Scale(-arrowLong/2)), arrow)
	}
	for i, g := range m.Gaps {
		shown, _ := d.ruler.cell(g, along, word)
		t.centred(gaps+t.gap*float64(i), base, t.gap, cellSize, false, shown)
	}
	for i, g := range m.Stages {
		shown, exact := d.ruler.cell(g, along, word)
		t.amount(stages+t.stage*float64(i), base, shown, exact, i == len(m.Stages)-1)
	}
}

// amount writes what to add in a stage's column, its exact value small behind
// it.
func (t table) amount(x, y float64, shown, exact string, bold bool) {
	d := t.d
	if exact == "" {
		t.centred(x, y, t.stage, cellSize, bold, shown)
		return
	}
	const apart = 1.0
	k := 1.0
	wide := func() (a, b float64) {
		return d.Width(shown, k*cellSize, bold), d.Width(exact, k*exactSize, false)
	}
	a, b := wide()
	if room := t.stage - 1; a+apart+b > room {
		k = (room - apart) / (a + b)
		a, b = wide()
	}
	x += (t.stage - a - apart - b) / 2
	d.Write(d.p, page.Words{Text: shown, At: geom.Pt(x, y), Size: k * cellSize, Bold: bold, Left: true})
	d.Write(d.p, page.Words{Text: exact, At: geom.Pt(x+a+apart, y), Size: k * exactSize, Left: true, Ink: page.Grey(0.35)})
}
