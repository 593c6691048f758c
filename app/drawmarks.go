package app

import (
	"math"
	"slices"

	"quarterstep/assets/words"
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
	layer string
	words [][]printing.Label // for each word, the places it may stand at
}

// draw draws what belongs to one size: notches and darts, and with whole the
// grain, the fold and the lines across the piece, which all sizes share.
func (m *marks) draw(whole bool) {
	if whole {
		m.shared()
	}
	for _, n := range m.r.Notches {
		m.notch(n)
	}
	for _, d := range m.r.Darts {
		m.stroke(geom.Polyline(d.Leg1, d.Apex, d.Leg2), 3, 2)
	}
	m.layWords()
}

func (m *marks) shared() {
	layer := m.layer
	m.layer = ""
	for _, l := range m.r.Lines {
		m.line(l)
	}
	for j, e := range m.q.Edges {
		if e.Kind == model.Fold {
			m.fold(m.r.Edges[j])
		}
	}
	m.layer = layer
}

// layWords puts each word at the first of its places that is clear; in smaller
// letters where none is, and nowhere where that does not help: its line says
// what it is without words too.
func (m *marks) layWords() {
	const tol = 0.1
	ring := m.piece.Outline.Flatten(tol)
	for _, places := range m.words {
		lines := obstacles(*m.piece, tol)
		if at := slices.IndexFunc(places, func(l printing.Label) bool { return standsClear(l, ring, lines, wordGap) }); at >= 0 {
			m.piece.Labels = append(m.piece.Labels, places[at])
		}
	}
}

func (m *marks) stroke(p geom.Path, dash ...float64) {
	m.piece.Strokes = append(m.piece.Strokes, printing.Stroke{Path: p, Width: thinWidth, Dash: dash, Layer: m.layer})
}

// word asks for a word beside the line from a to b, as besideLine.
func (m *marks) word(text string, a, b geom.Point, share, gap float64, below bool) {
	var places []printing.Label
	for _, size := range []float64{markSize, 0.8 * markSize, 0.6 * markSize} {
		places = append(places, besideLine(text, size, a, b, share, gap, below)...)
	}
	m.words = append(m.words, places)
}

func (m *marks) line(l grading.Line) {
	if len(l.Path) == 0 {
		return
	}
	switch l.Kind {
	case model.Grain:
		m.stroke(l.Path)
		long := math.Min(arrowHead, l.Path.Start().Dist(l.Path.End())/3)
		m.arrow(l.Path.End(), l.Path.EndDir(), long)
		m.arrow(l.Path.Start(), l.Path.StartDir().Scale(-1), long)
	case model.Lengthen:
		side := l.Path.StartDir().Perp().Scale(lengthenGap / 2)
		m.stroke(l.Path.Move(side))
		m.stroke(l.Path.Move(side.Scale(-1)))
		m.word(words.T("Lengthen or shorten here"), l.Path.Start(), l.Path.End(), 0.5, lengthenGap, true)
	case model.BustLine, model.WaistLine, model.HipLine:
		m.stroke(l.Path, 8, 3, 2, 3)
		m.word(levelWords(l.Kind), l.Path.Start(), l.Path.End(), 0.85, 1.5, false)
	case model.DartLine:
		m.stroke(l.Path, 3, 2)
	default:
		m.stroke(l.Path)
	}
}

// levelWords is what is written on a level line.
func levelWords(k model.LineKind) string {
	switch k {
	case model.BustLine:
		return words.C("on a line", "bust")
	case model.WaistLine:
		return words.C("on a line", "waist")
	}
	return words.C("on a line", "hip")
}

// arrow draws an arrow head long mm with its tip at tip, pointing along dir.
func (m *marks) arrow(tip geom.Point, dir geom.Vec, long float64) {
	back := tip.Add(dir.Scale(-long))
	side := dir.Perp().Scale(long * 0.35)
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
	deep := math.Min(foldDeep, 0.4*m.deep(in))
	a2, b2 := a.Add(in.Scale(deep)), b.Add(in.Scale(deep))
	m.stroke(geom.Polyline(a, a2, b2, b))
	m.arrow(a, in.Scale(-1), math.Min(arrowHead, 0.6*deep))
	m.arrow(b, in.Scale(-1), math.Min(arrowHead, 0.6*deep))
	m.word(words.T("Place on the fold"), a2, b2, 0.5, 2.4, true)
}

// deep is how far the piece reaches along dir, in mm.
func (m *marks) deep(dir geom.Vec) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range m.piece.Outline.Flatten(1) {
		at := geom.Vec(p).Dot(dir)
		lo, hi = math.Min(lo, at), math.Max(hi, at)
	}
	return hi - lo
}
