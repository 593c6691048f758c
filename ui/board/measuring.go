package board

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// measuring is a measure taken on the Table, from one place to another.
type measuring struct {
	board  *Board
	a, b   geom.Point
	taken  bool
	open   bool // begun by a click: its other end follows the pointer to the next one
	line   *canvas.Line
	ends   [2]*canvas.Circle
	figure *figure
}

func newMeasuring(b *Board) *measuring {
	m := &measuring{board: b, line: canvas.NewLine(nil), figure: newFigure(b)}
	m.line.StrokeWidth = 1.6
	for i := range m.ends {
		m.ends[i] = &canvas.Circle{StrokeWidth: 1.6}
		m.ends[i].Resize(size(9, 9))
	}
	m.clear()
	return m
}

func (m *measuring) objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{m.line, m.ends[0], m.ends[1]}, m.figure.objects()...)
}

func (m *measuring) recolour() {
	p := m.board.palette
	m.line.StrokeColor = p.Accent
	for _, e := range m.ends {
		e.FillColor, e.StrokeColor = p.Table, p.Accent
	}
	m.figure.recolour()
}

// snapReach is how near, in px, a measure's end comes to a grade point or a
// line before it lies on it.
const snapReach = 12

// snap is the place a measuring hand means at a place of the board.
func (m *measuring) snap(at view.Px) (geom.Point, bool) {
	return m.board.view.Snap(at, m.places(), m.edges(), snapReach)
}

// edges are the lines a measure may end on: the computed ones and, where they
// are shown, the printed ones.
func (m *measuring) edges() []geom.Path {
	in := m.board.in
	var out []geom.Path
	for i, q := range in.Pattern.Pieces {
		out = append(out, in.Edges(i)...)
		if _, closed := in.Closed[q.ID]; closed || !in.Nest {
			continue
		}
		place := in.Place(q.ID)
		for _, o := range q.Nest {
			for _, e := range o.Edges {
				out = append(out, e.Transform(place))
			}
		}
	}
	return out
}

// places are the grade points a measure may end on.
func (m *measuring) places() []geom.Point {
	var out []geom.Point
	for _, e := range m.edges() {
		out = append(out, e.Start())
	}
	return out
}

// upright is within how many degrees of level or upright a measure is taken
// straight across or down.
const upright = 3

// press begins a measure at a place of the board, or ends there one that was begun by
// a click.
func (m *measuring) press(at view.Px) {
	if m.open {
		m.to(at)
		return
	}
	m.a, _ = m.snap(at)
	m.b, m.taken = m.a, true
	m.place()
}

// release is told whether the hand has dragged: a click alone begins a measure, and
// the next one ends it.
func (m *measuring) release(dragged bool) {
	m.open = !m.open && !dragged
}

// follow lays the other end of a measure begun by a click where the pointer is.
func (m *measuring) follow(at view.Px) {
	if m.open {
		m.to(at)
	}
}

// begin and end lay the measure's two ends on places of the Table.
func (m *measuring) begin(at geom.Point) {
	m.a, m.b, m.taken, m.open = at, at, true, false
	m.place()
}

func (m *measuring) end(at geom.Point) {
	m.b = at
	m.place()
}

func (m *measuring) to(at view.Px) {
	m.b, _ = m.snap(at)
	if b, ok := m.straight(at); ok {
		m.b = b
	}
	m.place()
}

// straight is the end of a measure that goes straight across or down, on the
// line it crosses near at; false for one at an angle, or to a grade point.
func (m *measuring) straight(at view.Px) (geom.Point, bool) {
	v := m.board.view
	d := view.Upright(v.ToMM(at).Sub(m.a), upright)
	if d.X != 0 && d.Y != 0 || d.IsZero() {
		return geom.Point{}, false
	}
	if _, place := v.Spot(at, m.places(), snapReach); place {
		return geom.Point{}, false
	}
	near := snapReach / v.Scale
	far := m.a.Add(d).Add(d.Unit().Scale(near))
	best := d.Len()
	for _, c := range scene.Crossings(m.board.in, m.a, far, 0.01) {
		if off := math.Abs(c.S - d.Len()); off <= near && c.S > near {
			best, near = c.S, off
		}
	}
	return m.a.Add(d.Unit().Scale(best)), true
}

func (m *measuring) clear() {
	m.taken, m.open = false, false
	m.place()
}

// place draws the measure where the view has it.
func (m *measuring) place() {
	for _, o := range []fyne.CanvasObject{m.line, m.ends[0], m.ends[1]} {
		if m.taken {
			o.Show()
		} else {
			o.Hide()
		}
	}
	if !m.taken {
		m.figure.hide()
		return
	}
	a, b := m.board.view.ToPx(m.a), m.board.view.ToPx(m.b)
	m.line.Position1, m.line.Position2 = pos(a.X, a.Y), pos(b.X, b.Y)
	m.ends[0].Move(pos(a.X-4.5, a.Y-4.5))
	m.ends[1].Move(pos(b.X-4.5, b.Y-4.5))
	m.line.Refresh()
	d := m.b.Sub(m.a)
	if m.open && d.IsZero() {
		m.figure.hide()
		return
	}
	m.figure.show(d.Len(), m.caption(), b.X+16, b.Y-46)
}

// Measured is the measure on the Table: its two ends, and false for none.
func (b *Board) Measured() (from, to geom.Point, ok bool) {
	m := b.parts.measure
	return m.a, m.b, m.taken
}
