package edit

import (
	"math"
	"slices"

	"quarterstep/grading/seam"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// lengthenLine is a lengthen line of a piece as it lies in the piece's largest
// printed size.
type lengthenLine struct {
	at       model.PieceLine
	line     model.Line
	q        model.Piece
	from, to geom.Point // where it meets the outline, carried on
	ends     []edgePlace
	tape     *seam.Tape
}

// edgePlace is a place on an edge, s mm from its start.
type edgePlace struct {
	edge int
	s    float64
}

// lengthenLines is every lengthen line of p that runs across its piece.
func lengthenLines(p model.Pattern) []lengthenLine {
	var out []lengthenLine
	for _, q := range p.Pieces {
		if len(q.Nest) == 0 {
			continue
		}
		o := q.Nest[len(q.Nest)-1]
		var tape *seam.Tape
		for _, l := range q.Lines {
			path, ok := drawnIn(l, o)
			if l.Kind != model.Lengthen || !ok {
				continue
			}
			if tape == nil {
				tape = seam.NewTape(q, o.Edges)
			}
			found := lengthenLine{at: model.PieceLine{Piece: q.ID, Line: l.ID}, line: l, q: q, tape: tape}
			if found.reach(o, path) {
				out = append(out, found)
			}
		}
	}
	return out
}

// drawnIn is l as drawn in a printed size; false where it was not.
func drawnIn(l model.Line, o model.Outline) (geom.Path, bool) {
	for _, d := range l.Drawn {
		if len(d.Path) > 0 && (d.Size == "" || slices.Contains(o.Sizes(), d.Size)) {
			return d.Path, true
		}
	}
	return nil, false
}

// reach carries the line on to the outline; false where it does not run across.
func (l *lengthenLine) reach(o model.Outline, path geom.Path) bool {
	const on = 1e-4 // mm from an edge that is on it
	s, err := spread.Read(model.Piece{
		Name: l.q.Name, Points: l.q.Points, Edges: l.q.Edges, Nest: []model.Outline{o}, Lines: grainOf(l.q),
		Cuts: []model.Cut{{From: path.Start(), To: path.End(), Measure: model.Steps, Share: 1}},
	})
	if err != nil {
		return false
	}
	l.from, l.to = s.Reach(0)
	for _, end := range [2]geom.Point{l.from, l.to} {
		for j, e := range o.Edges {
			if s, d, err := e.NearestS(end, on/10); err == nil && d <= on {
				l.ends = append(l.ends, edgePlace{j, s})
			}
		}
	}
	return true
}

// grainOf is the grain lines of q.
func grainOf(q model.Piece) []model.Line {
	return slices.DeleteFunc(slices.Clone(q.Lines), func(l model.Line) bool { return l.Kind != model.Grain })
}

// crosses is how far along a stretch, stitched, the line crosses it, and how
// long the stretch is; false where it does not.
func (l lengthenLine) crosses(s model.Stretch) (at, length float64, ok bool) {
	if s.Piece != l.q.ID {
		return 0, 0, false
	}
	for _, id := range s.Edges {
		j := l.q.EdgeIndex(id)
		if j < 0 {
			return 0, 0, false
		}
		sewn, err := l.tape.Length(j)
		if err != nil {
			return 0, 0, false
		}
		for _, end := range l.ends {
			if end.edge != j {
				continue
			}
			along, err := l.tape.Along(j, end.s)
			if err != nil {
				return 0, 0, false
			}
			if s.Reverse {
				along = sewn - along
			}
			at, ok = length+along, true
		}
		length += sewn
	}
	return at, length, ok
}

// sameSewn is how far apart two lengthen lines may meet a seam, from the end
// they are nearer to, and still be one line: 1/2 in, our own.
const sameSewn = 12.7

// meet reports that two lines cross the two sides of a link at about the same
// place.
func (l lengthenLine) meet(other lengthenLine, link model.Link) bool {
	for _, lead := range link.Leads() {
		for _, pair := range [2][2]lengthenLine{{l, other}, {other, l}} {
			a, la, okA := pair[0].crosses(lead)
			b, lb, okB := pair[1].crosses(link.Follow)
			if !okA || !okB {
				continue
			}
			if math.Abs(a-b) <= sameSewn || math.Abs((la-a)-(lb-b)) <= sameSewn {
				return true
			}
		}
	}
	return false
}
