package app

import (
	"slices"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// marks draws what is on a piece besides its outline.
type marks struct {
	piece *printing.Piece
	q     model.Piece
	r     grading.Piece
	words [][]printing.Label // for each word, the places it may stand at
}

func (m *marks) draw() {
	for _, l := range m.r.Lines {
		m.line(l)
	}
	for _, n := range m.r.Notches {
		m.notch(n)
	}
	for _, d := range m.r.Darts {
		m.stroke(geom.Polyline(d.Leg1, d.Apex, d.Leg2), 3, 2)
	}
	for j, e := range m.q.Edges {
		if e.Kind == model.Fold {
			m.fold(m.r.Edges[j])
		}
	}
	m.layWords()
}

// layWords puts each word at the first of its places that is clear, or at the
// very first where none is.
func (m *marks) layWords() {
	const tol = 0.1
	ring := m.piece.Outline.Flatten(tol)
	for _, places := range m.words {
		lines := obstacles(*m.piece, tol)
		at := max(0, slices.IndexFunc(places, func(l printing.Label) bool { return standsClear(l, ring, lines) }))
		m.piece.Labels = append(m.piece.Labels, places[at])
	}
}

func (m *marks) stroke(p geom.Path, dash ...float64) {
	m.piece.Strokes = append(m.piece.Strokes, printing.Stroke{Path: p, Width: thinWidth, Dash: dash})
}

// word asks for a word beside the line from a to b, as besideLine.
func (m *marks) word(text string, a, b geom.Point, share, gap float64, below bool) {
	m.words = append(m.words, besideLine(text, markSize, a, b, share, gap, below))
}

func (m *marks) line(l grading.Line) {
	if len(l.Path) == 0 {
		return
	}
	switch l.Kind {
	case model.Grain:
		m.stroke(l.Path)
		m.arrow(l.Path.End(), l.Path.EndDir())
		m.arrow(l.Path.Start(), l.Path.StartDir().Scale(-1))
	case model.Lengthen:
		side := l.Path.StartDir().Perp().Scale(lengthenGap / 2)
		m.stroke(l.Path.Move(side))
		m.stroke(l.Path.Move(side.Scale(-1)))
		m.word("Lengthen or shorten here", l.Path.Start(), l.Path.End(), 0.5, lengthenGap, true)
	case model.BustLine, model.WaistLine, model.HipLine:
		m.stroke(l.Path, 8, 3, 2, 3)
		m.word(string(l.Kind), l.Path.Start(), l.Path.End(), 0.85, 1.5, false)
	case model.DartLine:
		m.stroke(l.Path, 3, 2)
	default:
		m.stroke(l.Path)
	}
}

// arrow draws an arrow head with its tip at tip, pointing along dir.
func (m *marks) arrow(tip geom.Point, dir geom.Vec) {
	back := tip.Add(dir.Scale(-arrowHead))
	side := dir.Perp().Scale(arrowHead * 0.35)
	m.stroke(geom.Polyline(back.Add(side), tip, back.Add(side.Scale(-1))))
}

func (m *marks) notch(n grading.Notch) {
	for _, line := range notchLines(n) {
		m.stroke(line)
	}
}

// notchLines is the one or two short lines of a notch.
func notchLines(n grading.Notch) []geom.Path {
	along := n.In.Perp()
	var out []geom.Path
	shifts := []float64{0}
	if n.Double {
		shifts = []float64{-notchGap / 2, notchGap / 2}
	}
	for _, s := range shifts {
		at := n.At.Add(along.Scale(s))
		out = append(out, geom.Polyline(at, at.Add(n.In.Scale(notchLength))))
	}
	return out
}

// fold draws the bracket that says: lay this edge on the fold.
func (m *marks) fold(e geom.Path) {
	dir := e.End().Sub(e.Start()).Unit()
	in := dir.Perp()
	if m.r.Outline().Area() < 0 {
		in = in.Scale(-1)
	}
	a, b := e.Start().Lerp(e.End(), 0.2), e.Start().Lerp(e.End(), 0.8)
	a2, b2 := a.Add(in.Scale(12)), b.Add(in.Scale(12))
	m.stroke(geom.Polyline(a, a2, b2, b))
	m.arrow(a, in.Scale(-1))
	m.arrow(b, in.Scale(-1))
	m.word("Place on the fold", a2, b2, 0.5, 2.4, true)
}
