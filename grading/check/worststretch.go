package check

import (
	"math"
	"slices"

	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Bit is part of an edge's line, as cut, in its piece's coordinates.
type Bit struct {
	Edge string // ID
	Line geom.Path
}

// worstStretch is where a seam's follower is furthest off what it should have: the
// line between the two marks that are, edge by edge; nil where no stretch is worse
// than the seam may be, or where the whole of it is one.
func (l *looking) worstStretch(k model.Link) []Bit {
	pr := l.walked(k)
	if pr.print == nil {
		return nil
	}
	w, err := pr.print.Walk(l.sheets(k), l.p.Target.Place)
	if err != nil || len(w.Parts) < 2 {
		return nil
	}
	worst, most := -1, l.limit(LimitSeams)
	for i, part := range w.Parts {
		if off := math.Abs(part.Over()); off > most {
			worst, most = i, off
		}
	}
	if worst < 0 {
		return nil
	}
	return l.between(k.Follow, w.Follow.Marks, w.Parts[worst])
}

// between is the line of a stretch along a part of the seam; marks are those of the
// stretch, as walked.
func (l *looking) between(s model.Stretch, marks []seam.Mark, part seam.Part) []Bit {
	i := l.p.PieceIndex(s.Piece)
	q, r := l.p.Pieces[i], l.r.Pieces[i]
	lines, begins := make([]geom.Measured, len(s.Edges)), make([]float64, len(s.Edges)+1) // as walked
	for n, id := range s.Edges {
		line := r.Edges[q.EdgeIndex(id)]
		if s.Reverse {
			line = line.Reverse()
		}
		m, err := geom.Measure(line, arcTol)
		if err != nil {
			return nil
		}
		lines[n], begins[n+1] = m, begins[n]+m.Length()
	}
	place := func(k seam.Mark) float64 {
		edge := -1 // every edge is between two marks that are no notches
		for _, m := range marks[:slices.Index(marks, k)+1] {
			if m.Kind != seam.Notch {
				edge++
			}
		}
		if k.Kind != seam.Notch {
			return begins[edge]
		}
		at := r.Notches[k.Index].S
		if s.Reverse {
			at = lines[edge].Length() - at
		}
		return begins[edge] + at
	}
	from, to := place(part.From.Follow), place(part.To.Follow)
	var out []Bit
	for n, id := range s.Edges {
		a, b := max(from, begins[n]), min(to, begins[n+1])
		if b-a > arcTol {
			out = append(out, Bit{id, lines[n].Between(a-begins[n], b-begins[n])})
		}
	}
	return out
}

// longest is the longest of some bits, of one at least.
func longest(bits []Bit) Bit {
	best, most := bits[0], -1.0
	for _, b := range bits {
		if l, err := b.Line.Length(arcTol); err == nil && l > most {
			best, most = b, l
		}
	}
	return best
}
