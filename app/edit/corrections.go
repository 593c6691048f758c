package edit

import (
	"fmt"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Correction is one thing the sewist changed by eye, in words, with the edit
// that takes it back.
type Correction struct {
	Piece string // piece ID; "" for a style change over the whole pattern
	Point string // the grade point it is of, or
	Edge  string // the edge; both "" for a style change
	Stage string // the size it belongs to, "" where it holds at every size
	// What says it in plain words, amounts in the pattern's unit: "Underarm
	// 1/8 in out and 1/4 in down, at 44".
	What     string
	TakeBack func(model.Pattern) (model.Pattern, error)
}

// Corrections lists all corrections of a pattern: style changes first, then
// piece by piece in the order they are laid on the line.
func Corrections(p model.Pattern) []Correction {
	out := styleCorrections(p)
	for _, q := range p.Pieces {
		c := corrected{p: p, q: q}
		c.curves()
		c.moves()
		c.shapes()
		c.shifts()
		c.through()
		out = append(out, c.out...)
	}
	return out
}

// TakeBackAll removes all corrections of one piece.
func TakeBackAll(piece string) func(model.Pattern) (model.Pattern, error) {
	return onHand(piece, func(model.Hand) model.Hand { return model.Hand{} })
}

// styleCorrections is one entry for each style change, with the farthest that
// any grade point goes.
func styleCorrections(p model.Pattern) []Correction {
	var names []string
	far := map[string]float64{}
	for _, q := range p.Pieces {
		for _, m := range q.Hand.Moves {
			if m.Style == "" {
				continue
			}
			if !slices.Contains(names, m.Style) {
				names = append(names, m.Style)
			}
			far[m.Style] = max(far[m.Style], m.By.Len())
		}
	}
	var out []Correction
	for _, name := range names {
		out = append(out, Correction{
			What:     StyleKind(name).Said() + ", " + amount(p, far[name]),
			TakeBack: takeBackStyle(name),
		})
	}
	return out
}

// takeBackStyle removes a style change from every piece.
func takeBackStyle(name string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		of := func(m model.PointMove) bool { return m.Style == name }
		for i, q := range p.Pieces {
			if slices.ContainsFunc(q.Hand.Moves, of) {
				q.Hand.Moves = without(q.Hand.Moves, of)
				p = p.WithPiece(i, func(model.Piece) model.Piece { return q })
			}
		}
		return p, nil
	}
}

// corrected gathers the corrections of one piece.
type corrected struct {
	p   model.Pattern
	q   model.Piece
	out []Correction
}

// add adds a correction of a point or an edge, whichever is named.
func (c *corrected) add(point, edge, stage, what string, takeBack func(model.Hand) model.Hand) {
	if stage != "" {
		what = words.F("%s, at %s", what, stage)
	}
	c.out = append(c.out, Correction{
		Piece: c.q.ID, Point: point, Edge: edge, Stage: stage, What: capital(what), TakeBack: onHand(c.q.ID, takeBack),
	})
}

func (c *corrected) curves() {
	for _, e := range c.q.Hand.Curves {
		what := c.edge(e.Edge)
		switch e.Kind {
		case model.NearestCurve:
			what = words.F("%s with the curve of the nearest printed size", what)
		case model.PrintedCurve:
			what = words.F("%s with the curve of size %s", what, e.Size)
		case model.StraightCurve:
			what = words.F("%s straight", what)
		}
		c.add("", e.Edge, "", what, func(h model.Hand) model.Hand {
			h.Curves = without(h.Curves, func(o model.EdgeCurve) bool { return o.Edge == e.Edge })
			return h
		})
	}
}

func (c *corrected) moves() {
	for _, m := range c.q.Hand.Moves {
		if m.Style != "" {
			continue
		}
		what := c.point(m.Point) + " " + c.way(m)
		c.add(m.Point, "", m.Stage, what, func(h model.Hand) model.Hand {
			h.Moves = without(h.Moves, func(o model.PointMove) bool {
				return o.Point == m.Point && o.Stage == m.Stage && o.Style == ""
			})
			return h
		})
	}
}

func (c *corrected) shapes() {
	for _, s := range c.q.Hand.Shapes {
		var most float64
		for _, v := range s.By {
			most = max(most, v.Len())
		}
		what := words.F("%s bent, handles by up to %s", c.edge(s.Edge), amount(c.p, most))
		c.add("", s.Edge, s.Stage, what, func(h model.Hand) model.Hand {
			h.Shapes = without(h.Shapes, func(o model.EdgeShape) bool { return o.Edge == s.Edge && o.Stage == s.Stage })
			return h
		})
	}
}

func (c *corrected) shifts() {
	for _, s := range c.q.Hand.Shifts {
		what := words.F("whole %s %s", c.edge(s.Edge), signed(c.p, s.Out, words.T("%s out"), words.T("%s inward")))
		c.add("", s.Edge, s.Stage, what, func(h model.Hand) model.Hand {
			h.Shifts = without(h.Shifts, func(o model.EdgeShift) bool { return o.Edge == s.Edge && o.Stage == s.Stage })
			return h
		})
	}
}

func (c *corrected) through() {
	for _, id := range c.q.Hand.Through {
		c.add(id, "", "", words.F("line smooth through %s", c.point(id)), func(h model.Hand) model.Hand {
			h.Through = without(h.Through, func(o string) bool { return o == id })
			return h
		})
	}
}

// point names a grade point.
func (c *corrected) point(id string) string {
	if k := c.q.PointIndex(id); k >= 0 {
		return pointName(c.q, k)
	}
	return words.T("a grade point that is gone")
}

// edge names an edge.
func (c *corrected) edge(id string) string {
	if j := c.q.EdgeIndex(id); j >= 0 {
		return edgeName(c.q, j)
	}
	return words.T("an edge that is gone")
}

// way says a move as out or in, and down or up the grain; a part too small to
// show is left out.
func (c *corrected) way(m model.PointMove) string {
	across, along := c.q.AcrossAlong(m.By)
	var parts []string
	if v := c.outward(m.Point) * across; shows(c.p, v) {
		parts = append(parts, signed(c.p, v, words.T("%s out"), words.T("%s inward")))
	}
	if shows(c.p, along) {
		parts = append(parts, signed(c.p, along, words.T("%s down"), words.T("%s up")))
	}
	if len(parts) == 0 {
		return words.T("by a hair")
	}
	if len(parts) == 2 {
		return words.F("%s and %s", parts[0], parts[1])
	}
	return parts[0]
}

// outward is 1 where moving a grade point to the right across the grain moves
// it out of the piece, else -1: away from the fold or centre line, or without
// one from the middle of the largest printed size.
func (c *corrected) outward(point string) float64 {
	k := c.q.PointIndex(point)
	if k < 0 || len(c.q.Nest) == 0 {
		return 1
	}
	x := func(at geom.Point) float64 {
		across, _ := c.q.AcrossAlong(geom.Vec(at))
		return across
	}
	edges := c.q.Nest[len(c.q.Nest)-1].Edges
	middle := x(geom.Join(edges...).Bounds().Centre())
	for j, e := range c.q.Edges {
		if e.Kind == model.Fold || e.Kind == model.Centre {
			return math.Copysign(1, middle-x(edges[j].Start()))
		}
	}
	return math.Copysign(1, x(edges[k].Start())-middle)
}

// amount is a length without its sign, in the pattern's unit.
func amount(p model.Pattern, mm float64) string { return measure.FormatMM(math.Abs(mm), p.Unit) }

// shows reports that a length is not rounded away when shown.
func shows(p model.Pattern, mm float64) bool { return amount(p, mm) != amount(p, 0) }

// signed is a length in one of two formats, by its sign.
func signed(p model.Pattern, mm float64, above, below string) string {
	if mm < 0 {
		return fmt.Sprintf(below, amount(p, mm))
	}
	return fmt.Sprintf(above, amount(p, mm))
}

// capital is s with a capital first letter.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}
