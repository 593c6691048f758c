package spread

import "quarterstep/model/geom"

// stretch is edges first to last, on round the ring, that lie in one straight
// line; the zero count is an edge that is curved.
type stretch struct{ first, last, count int }

// whole reports that the edge is part of a straight stretch.
func (s stretch) whole() bool { return s.count > 0 }

// stretches finds for each edge the straight stretch it lies in. Edges of one
// kind go together where a smooth grade point joins them.
func (o *outline) stretches() []stretch {
	n := len(o.edges)
	out := make([]stretch, n)
	for j := range n {
		if out[j].whole() || !o.edges[j].IsStraight(flatTol) || o.chord(j).IsZero() {
			continue
		}
		s := stretch{j, j, 1}
		line := o.edges[j]
		for s.count < n {
			next := (s.last + 1) % n
			longer := geom.Join(line, o.edges[next])
			if out[next].whole() || !o.goesOn(s.last) || !longer.IsStraight(flatTol) {
				break
			}
			line, s.last, s.count = longer, next, s.count+1
		}
		for s.count < n {
			before := (s.first + n - 1) % n
			longer := geom.Join(o.edges[before], line)
			if out[before].whole() || !o.goesOn(before) || !longer.IsStraight(flatTol) {
				break
			}
			line, s.first, s.count = longer, before, s.count+1
		}
		for k := range s.count {
			out[(s.first+k)%n] = s
		}
	}
	return out
}

// goesOn reports that edge j and the one after it are of one kind and joined by
// a smooth grade point.
func (o *outline) goesOn(j int) bool {
	next := (j + 1) % len(o.edges)
	return o.piece.Points[next].Smooth && o.piece.Edges[j].Kind == o.piece.Edges[next].Kind
}

// turn is by how much, per mm of edge, cut l turns and stretches the straight
// stretch that the curved edge j runs smoothly on from, at its start or its end;
// nought where there is none.
func (o *outline) turn(l cutLine, j int, start bool) geom.Vec {
	st, ok := o.beside(j, start)
	if !ok {
		return geom.Vec{}
	}
	chord := o.edges[st.last].End().Dist(o.edges[st.first].Start())
	grows := o.share(l, o.start[st.last+1]) - o.share(l, o.start[st.first])
	return l.travel.Scale(grows / chord)
}

// beside is the straight stretch that the curved edge j runs smoothly on from,
// at its start or its end.
func (o *outline) beside(j int, start bool) (stretch, bool) {
	n := len(o.edges)
	point, k := j, (j+n-1)%n
	if !start {
		point, k = (j+1)%n, (j+1)%n
	}
	return o.stretch[k], o.piece.Points[point].Smooth && o.stretch[k].whole()
}

// smoothTurns finds where cuts turn straight edges that curves run smoothly on
// from.
func (o *outline) smoothTurns(cuts []cutLine) {
	o.turned = make([][2]bool, len(o.edges))
	for j := range o.edges {
		if !o.stretch[j].whole() {
			o.turned[j] = [2]bool{o.turnsAt(cuts, j, true), o.turnsAt(cuts, j, false)}
		}
	}
}

// turnsAt reports that a cut turns the straight edge that curved edge j runs on
// from, at its start or its end.
func (o *outline) turnsAt(cuts []cutLine, j int, start bool) bool {
	st, ok := o.beside(j, start)
	if !ok {
		return false
	}
	dir := o.edges[st.last].End().Sub(o.edges[st.first].Start()).Unit()
	for _, l := range cuts {
		if c := o.turn(l, j, start).Cross(dir); c > 1e-12 || c < -1e-12 {
			return true
		}
	}
	return false
}
