package app

import (
	"slices"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

// wordsOffJoins lays the block that names a piece anew where a join between two
// pages runs through it, so that it can be read before the pages are glued; the
// pieces stay. It is false where none had to be, and leaves a block where no
// page has room for it.
func (j Job) wordsOffJoins(plan tile.Plan) ([]tile.Placed, bool) {
	joins := joinLines(plan)
	if len(joins) == 0 {
		return nil, false
	}
	out := slices.Clone(plan.Pieces)
	moved := false
	for i, p := range out {
		back, err := p.At.Inverse()
		if err != nil {
			continue // not a turn and a shift; Layout has refused it
		}
		there := make([]printing.Stroke, 0, len(joins))
		for _, l := range joins {
			there = append(there, printing.Stroke{Path: l.Transform(back), Width: thinWidth})
		}
		labels, ok := j.offLines(i, p.Piece.Labels, there)
		if !ok {
			continue
		}
		if p.At.A < 0 {
			labels = upright(labels)
		}
		out[i].Piece.Labels, moved = labels, true
	}
	return out, moved
}

// joinLines are the joins and the buttons of a plan, in layout mm.
func joinLines(plan tile.Plan) []geom.Path {
	var out []geom.Path
	for _, s := range plan.Sheets {
		a, b := s.Own.Min, s.Own.Max
		if s.Beside[tile.Right] != "" {
			out = append(out, geom.Polyline(geom.Pt(b.X, a.Y), b))
		}
		if s.Beside[tile.Down] != "" {
			out = append(out, geom.Polyline(geom.Pt(a.X, b.Y), b))
		}
		for _, n := range s.Buttons {
			out = append(out, circle(n.At, n.R))
		}
	}
	return out
}

// offLines is the labels of piece i before any turning, its block laid clear of
// lines; false where it, as it is laid now, is clear already or cannot be.
func (j Job) offLines(i int, now []printing.Label, lines []printing.Stroke) ([]printing.Label, bool) {
	first := slices.IndexFunc(now, func(l printing.Label) bool { return l.Bold })
	if first < 0 || !slices.ContainsFunc(now[first:], func(l printing.Label) bool { return runsOver(l, lines) }) {
		return nil, false
	}
	drawn := j.drawing.Pieces[i]
	others := slices.IndexFunc(drawn.Labels, func(l printing.Label) bool { return l.Bold })
	if others < 0 {
		return nil, false
	}
	drawn.Labels = slices.Clone(drawn.Labels[:others])
	drawn.Strokes = slices.Concat(drawn.Strokes, lines)
	block := pieceWords(drawn, j.words[i])
	if len(block) < len(now)-first {
		return nil, false // rather all of it on two pages than a part on one
	}
	return append(drawn.Labels, block...), true
}

// runsOver reports whether any line runs over a label's words.
func runsOver(l printing.Label, lines []printing.Stroke) bool {
	ring := wordRing(l)
	middle := wordMiddle(l)
	around := geom.BoxOf(ring...)
	back := geom.Rotate(-l.Turn)
	for _, s := range lines {
		if !s.Path.Bounds().Grow(1e-6).Intersects(around) {
			continue
		}
		moved := turned(s.Path.Flatten(0.2), back.Mul(geom.Translate(geom.Point{}.Sub(middle))))
		if sideRoom(moved, geom.Point{}, (letterTall+letterFoot)/2*l.Size) < halfWidth(l) {
			return true
		}
	}
	return false
}
