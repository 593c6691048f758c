package trace

import (
	"slices"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// Proposal is a size's line as the sizes traced already let expect it, to be
// confirmed corner by corner.
type Proposal struct {
	Line   model.TracedSize
	Doubts [][]follow.Doubt // of each edge
}

// Propose is the line of a size from the sizes of a tracing that are done:
// their corners, as far beyond or between as the size's step on the chart, each
// then taken to the print, and the edges followed. It is false where the sizes
// done do not tell, where the size has a line already, or nothing is followed.
func (h Hand) Propose(k model.Tracing, chart model.SizeChart, size string) (Proposal, bool) {
	if line, _ := LineOf(k, size); len(line.Corners) > 0 || !h.follows() {
		return Proposal{}, false
	}
	corners := h.expected(k, chart, size)
	if corners == nil {
		return Proposal{}, false
	}
	n := len(corners)
	p := Proposal{
		Line:   model.TracedSize{Size: size, Corners: corners, Edges: make([]geom.Path, n), Closed: true},
		Doubts: make([][]follow.Doubt, n),
	}
	for j := range n {
		p = h.refollowed(k, p, j)
	}
	return p, true
}

// Corrected is a proposal with one of its corners elsewhere, and the two edges
// there followed anew.
func (h Hand) Corrected(k model.Tracing, p Proposal, corner int, to geom.Point) Proposal {
	n := len(p.Line.Corners)
	p.Line.Corners = slices.Clone(p.Line.Corners)
	p.Line.Corners[corner] = to
	p = h.refollowed(k, p, (corner+n-1)%n)
	return h.refollowed(k, p, corner)
}

// refollowed is a proposal with edge j followed anew.
func (h Hand) refollowed(k model.Tracing, p Proposal, j int) Proposal {
	e := h.Edge(k, p.Line, j, p.Line.Corners[(j+1)%len(p.Line.Corners)], nil)
	p.Line.Edges, p.Doubts = slices.Clone(p.Line.Edges), slices.Clone(p.Doubts)
	p.Line.Edges[j], p.Doubts[j] = e.Path, e.Doubts
	return p
}

// expected are the corners of a size, from the two sizes done that are nearest
// to it by the chart; nil where two are not there or differ in their corners.
func (h Hand) expected(k model.Tracing, chart model.SizeChart, size string) []geom.Point {
	at, ok := chart.Place(size)
	if !ok {
		return nil
	}
	place := func(s model.TracedSize) int {
		p, _ := chart.Place(s.Size)
		return p
	}
	var done []model.TracedSize
	for _, s := range k.Sizes {
		if s.Closed && s.Size != size {
			done = append(done, s)
		}
	}
	slices.SortStableFunc(done, func(a, b model.TracedSize) int {
		return max(place(a)-at, at-place(a)) - max(place(b)-at, at-place(b))
	})
	if len(done) < 2 || len(done[0].Corners) != len(done[1].Corners) {
		return nil
	}
	a, b := done[0], done[1]
	share := float64(at-place(a)) / float64(place(b)-place(a))
	b = edit.Alike(b, a)
	out := make([]geom.Point, len(a.Corners))
	for i := range out {
		out[i] = h.ontoExpected(a.Corners[i].Lerp(b.Corners[i], share))
	}
	return out
}

// ontoExpected is the crossing, else the middle of the line, nearest to where a
// corner is expected.
func (h Hand) ontoExpected(at geom.Point) geom.Point {
	const reach = 5 // mm that an expected corner may be off
	if c, ok := h.Lines.Corner(at, reach); ok {
		return c
	}
	if c, ok := h.Lines.Snap(at, reach); ok {
		return c
	}
	return at
}
