package trace

import (
	"context"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// Proposal is a size's line as the sizes traced already let expect it, to be
// confirmed corner by corner.
type Proposal struct {
	Line    model.TracedSize
	Doubts  [][]follow.Doubt // of each edge
	Corners [][]follow.Doubt // of each corner's place
}

// Propose is the line of a size from the sizes of a tracing that are done, one
// or more: their corners shifted along with the print, and the edges followed
// (follow.Field.Next). An edge on the fold is straight. It is false where no size
// is done or those done differ in their corners, where the size has a line
// already, or nothing is followed. It takes about half a second.
func (h Hand) Propose(k model.Tracing, chart model.SizeChart, size string) (Proposal, bool) {
	at, ok := chart.Place(size)
	if line, _ := LineOf(k, size); !ok || len(line.Corners) > 0 || !h.follows() {
		return Proposal{}, false
	}
	done := doneAlike(k)
	next, err := h.Lines.Next(context.Background(), tracedAt(done, chart), follow.NextOptions{Place: at})
	if err != nil {
		return Proposal{}, false
	}
	p := Proposal{Line: model.TracedSize{Size: size, Corners: next.Corners, Closed: true}, Corners: next.Doubts}
	for j, e := range next.Edges {
		if j < len(k.Edges) && k.Edges[j].Kind == model.Fold && done[0].Size == k.Sizes[0].Size {
			e = follow.Edge{Path: geom.Polyline(e.Path.Start(), e.Path.End())}
		}
		p.Line.Edges, p.Doubts = append(p.Line.Edges, e.Path), append(p.Doubts, e.Doubts)
	}
	return p, true
}

// doneAlike are the lines that are done, all begun at the same corner and run the
// same way where they have the same corners.
func doneAlike(k model.Tracing) []model.TracedSize {
	var out []model.TracedSize
	for _, s := range k.Sizes {
		if !s.Closed {
			continue
		}
		if len(out) > 0 && len(out[0].Corners) == len(s.Corners) {
			s = edit.Alike(s, out[0])
		}
		out = append(out, s)
	}
	return out
}

func tracedAt(done []model.TracedSize, chart model.SizeChart) []follow.Traced {
	var out []follow.Traced
	for _, s := range done {
		if place, ok := chart.Place(s.Size); ok {
			out = append(out, follow.Traced{Place: place, Edges: s.Edges})
		}
	}
	return out
}

// AllDoubts are the doubts of a proposal's corners and edges.
func (p Proposal) AllDoubts() []follow.Doubt {
	return append(slices.Concat(p.Corners...), slices.Concat(p.Doubts...)...)
}

// Corrected is a proposal with one of its corners elsewhere, and the two edges
// there followed anew.
func (h Hand) Corrected(k model.Tracing, p Proposal, corner int, to geom.Point) Proposal {
	n := len(p.Line.Corners)
	p.Line.Corners = slices.Clone(p.Line.Corners)
	p.Line.Corners[corner] = to
	p = h.refollowed(k, p, (corner+n-1)%n)
	return h.refollowed(k, p, corner).Sure(corner)
}

// Sure is a proposal with the place of one of its corners beyond doubt.
func (p Proposal) Sure(corner int) Proposal {
	p.Corners = slices.Clone(p.Corners)
	if corner < len(p.Corners) {
		p.Corners[corner] = nil
	}
	return p
}

// refollowed is a proposal with edge j followed anew.
func (h Hand) refollowed(k model.Tracing, p Proposal, j int) Proposal {
	e := h.Edge(k, p.Line, j, p.Line.Corners[(j+1)%len(p.Line.Corners)], nil)
	p.Line.Edges, p.Doubts = slices.Clone(p.Line.Edges), slices.Clone(p.Doubts)
	p.Line.Edges[j], p.Doubts[j] = e.Path, e.Doubts
	return p
}
