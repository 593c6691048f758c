package model

import (
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// PieceIndex is the index of the piece with that ID, or -1.
func (p Pattern) PieceIndex(id string) int {
	return slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.ID == id })
}

// WithPiece returns p with piece i changed by edit, which gets its own copy of
// the piece struct; edit must replace slices, not write into them.
func (p Pattern) WithPiece(i int, edit func(Piece) Piece) Pattern {
	p.Pieces = slices.Clone(p.Pieces)
	p.Pieces[i] = edit(p.Pieces[i])
	return p
}

// PointIndex is the index of the grade point with that ID, or -1.
func (q Piece) PointIndex(id string) int {
	return slices.IndexFunc(q.Points, func(g GradePoint) bool { return g.ID == id })
}

// EdgeIndex is the index of the edge with that ID, or -1.
func (q Piece) EdgeIndex(id string) int {
	return slices.IndexFunc(q.Edges, func(e Edge) bool { return e.ID == id })
}

// Copies is how many of the piece to cut: Cut, at least 1.
func (q Piece) Copies() int { return max(q.Cut, 1) }

// CutWords says how many of the piece to cut, on paper and in the window: "Cut 1 on
// the fold", "Cut 2, cut lining 2".
func (q Piece) CutWords() string {
	onFold := slices.ContainsFunc(q.Edges, func(e Edge) bool { return e.Kind == Fold })
	switch {
	case onFold && q.Lining > 0:
		return words.F("Cut %d on the fold, cut lining %d", q.Copies(), q.Lining)
	case onFold:
		return words.F("Cut %d on the fold", q.Copies())
	case q.Lining > 0:
		return words.F("Cut %d, cut lining %d", q.Copies(), q.Lining)
	}
	return words.F("Cut %d", q.Copies())
}

// Sizes is every size printed on the line, smallest first.
func (o Outline) Sizes() []string { return append([]string{o.Size}, o.Also...) }

// Label names the sizes printed on the line: "38", or "38/40" where they share it.
func (o Outline) Label() string { return strings.Join(o.Sizes(), "/") }

// Printed is the outline of that size; false when it was not printed.
func (q Piece) Printed(size string) (Outline, bool) {
	for _, o := range q.Nest {
		if o.Size == size || slices.Contains(o.Also, size) {
			return o, true
		}
	}
	return Outline{}, false
}

// GrainDir is the unit direction of the grain: of the first grain line drawn,
// else straight down the paper.
func (q Piece) GrainDir() geom.Vec {
	for _, l := range q.Lines {
		if l.Kind != Grain {
			continue
		}
		for _, d := range l.Drawn {
			v := d.Path.End().Sub(d.Path.Start()).Unit()
			if v.IsZero() {
				continue
			}
			if v.Y < 0 || v.Y == 0 && v.X < 0 {
				v = v.Scale(-1)
			}
			return v
		}
	}
	return geom.Vec{Y: 1}
}

// AcrossAlong splits a movement into its parts across and along the grain, in
// mm: across is positive to the right when the grain points down.
func (q Piece) AcrossAlong(v geom.Vec) (across, along float64) {
	g := q.GrainDir()
	return v.Dot(g.Perp().Scale(-1)), v.Dot(g)
}

// FromAcrossAlong is the inverse of AcrossAlong.
func (q Piece) FromAcrossAlong(across, along float64) geom.Vec {
	g := q.GrainDir()
	return g.Perp().Scale(-across).Add(g.Scale(along))
}
