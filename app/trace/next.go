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

	next  follow.Proposal
	folds []bool // by edge: it lies on the fold
	sure  []bool // by corner: it was confirmed or corrected
}

// Propose is the line of a size from the sizes of a tracing that are done, one
// or more: their corners shifted along with the print, and the edges followed
// (follow.Field.Next). An edge on the fold is straight. It is false where no size
// is done or those done differ in their corners, where the size has a line
// already, or nothing is followed, and where ctx ends. It takes about half a second.
func (h Hand) Propose(ctx context.Context, k model.Tracing, chart model.SizeChart, size string) (Proposal, bool) {
	at, ok := chart.Place(size)
	if line, _ := LineOf(k, size); !ok || len(line.Corners) > 0 || !h.follows() {
		return Proposal{}, false
	}
	done := doneAlike(k)
	next, err := h.Lines.Next(ctx, tracedAt(done, chart), follow.NextOptions{Place: at})
	if err != nil {
		return Proposal{}, false
	}
	n := len(next.Corners)
	p := Proposal{Line: model.TracedSize{Size: size, Closed: true}, next: next, folds: make([]bool, n), sure: make([]bool, n)}
	for j := range p.folds {
		p.folds[j] = j < len(k.Edges) && k.Edges[j].Kind == model.Fold && done[0].Size == k.Sizes[0].Size
	}
	return p.shown(), true
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

// Corrected is a proposal with one of its corners at a place that is beyond
// doubt. The others that are not beyond doubt, and the edges, are looked for anew
// in the light of it, which takes some hundredths of a second.
func (p Proposal) Corrected(corner int, to geom.Point) Proposal {
	if corner < 0 || corner >= len(p.sure) {
		return p
	}
	p.sure = slices.Clone(p.sure)
	p.sure[corner] = true
	p.next = p.next.Given(corner, to)
	return p.shown()
}

// Sure is a proposal in which one of the corners is right where it is, and the
// others are looked for in the light of that.
func (p Proposal) Sure(corner int) Proposal {
	if corner < 0 || corner >= len(p.Line.Corners) {
		return p
	}
	return p.Corrected(corner, p.Line.Corners[corner])
}

// IsSure reports that a corner was confirmed or corrected.
func (p Proposal) IsSure(corner int) bool { return corner < len(p.sure) && p.sure[corner] }

// Ask is the corner to be confirmed next: the first doubtful one, or the first
// that is not beyond doubt; -1 where all are.
func (p Proposal) Ask() (corner int, doubtful bool) {
	first := -1
	for i, sure := range p.sure {
		switch {
		case sure:
		case p.doubtful(i):
			return i, true
		case first < 0:
			first = i
		}
	}
	return first, false
}

// doubtful reports that a corner may be wrong.
func (p Proposal) doubtful(i int) bool { return len(p.Corners[i]) > 0 }

// shown is a proposal by what was found last. Its edges on the fold are straight.
func (p Proposal) shown() Proposal {
	p.Line.Corners, p.Corners = p.next.Corners, p.next.Doubts
	p.Line.Edges, p.Doubts = nil, nil
	for j, e := range p.next.Edges {
		if p.folds[j] {
			e = follow.Edge{Path: geom.Polyline(e.Path.Start(), e.Path.End())}
		}
		p.Line.Edges, p.Doubts = append(p.Line.Edges, e.Path), append(p.Doubts, e.Doubts)
	}
	return p
}
