package match

import (
	"slices"

	"quarterstep/model"
)

// splitNotches keeps notches where they are when edge old is cut in every size
// and the second part becomes edge fresh. A notch goes with the part that holds
// it in most sizes; in a size where it lies on the other part it is put at the
// cut.
func splitNotches(q model.Piece, old, fresh string, cuts []cutAt) []model.Notch {
	out := slices.Clone(q.Notches)
	for j, m := range out {
		if m.Edge != old {
			continue
		}
		second := 0
		for _, s := range m.Spots {
			if s.S > cutOfSize(q, cuts, s.Size).s {
				second++
			}
		}
		out[j].Spots = slices.Clone(m.Spots)
		if 2*second > len(m.Spots) {
			out[j].Edge = fresh
		}
		for i, s := range m.Spots {
			c := cutOfSize(q, cuts, s.Size)
			if out[j].Edge == fresh {
				out[j].Spots[i].S = max(0, s.S-c.s)
			} else {
				out[j].Spots[i].S = min(s.S, c.s)
			}
		}
	}
	return out
}

// cutOfSize is the cut of a size; for the size that stands for all, the first.
func cutOfSize(q model.Piece, cuts []cutAt, size string) cutAt {
	for i, o := range q.Nest {
		if slices.Contains(o.Sizes(), size) {
			return cuts[i]
		}
	}
	return cuts[0]
}

// mergeNotches moves the notches of edge k to the edge before it, which takes k
// in.
func mergeNotches(q model.Piece, before, k int) ([]model.Notch, error) {
	out := slices.Clone(q.Notches)
	for j, m := range out {
		if m.Edge != q.Edges[k].ID {
			continue
		}
		out[j].Edge = q.Edges[before].ID
		out[j].Spots = slices.Clone(m.Spots)
		for i, s := range m.Spots {
			o, ok := q.Printed(s.Size)
			if !ok {
				o = q.Nest[0]
			}
			l, err := o.Edges[before].Length(ringTol)
			if err != nil {
				return nil, err
			}
			out[j].Spots[i].S += l
		}
	}
	return out, nil
}

// shiftNotches keeps the notches of one size where they are when the point
// between edges before and k moves; was is the old length of before.
func shiftNotches(q model.Piece, before, k int, size string, was float64, c cutAt) []model.Notch {
	out := slices.Clone(q.Notches)
	for j, m := range out {
		first, second := m.Edge == q.Edges[before].ID, m.Edge == q.Edges[k].ID
		if !first && !second {
			continue
		}
		out[j].Spots = slices.Clone(m.Spots)
		for i, s := range m.Spots {
			switch {
			case s.Size != size:
			case first:
				out[j].Spots[i].S = min(s.S, c.s)
			case second:
				out[j].Spots[i].S = max(0, was+s.S-c.s)
			}
		}
	}
	return out
}

// Relink brings links in line after AddPoint or RemovePoint changed a piece:
// an edge that was cut is followed by its second part, edges that became one
// are named once. A stretch may leave edges out, as a side seam leaves out its
// dart. Links that held only part of a new edge cannot be kept and are returned
// as lost.
func Relink(links []model.Link, before, after model.Piece) (kept, lost []model.Link) {
	for _, l := range links {
		lead, ok1 := relinked(l.Lead, before, after)
		and, ok2 := relinkedAll(l.And, before, after)
		follow, ok3 := relinked(l.Follow, before, after)
		if !ok1 || !ok2 || !ok3 {
			lost = append(lost, l)
			continue
		}
		l.Lead, l.And, l.Follow = lead, and, follow
		kept = append(kept, l)
	}
	return kept, lost
}

// Relength is Relink for lengthenings: a hem that cannot be kept is left out.
func Relength(all []model.Lengthening, before, after model.Piece) []model.Lengthening {
	out := slices.Clone(all)
	for i, l := range out {
		out[i].Hems = nil
		for _, s := range l.Hems {
			if hem, ok := relinked(s, before, after); ok {
				out[i].Hems = append(out[i].Hems, hem)
			}
		}
	}
	return out
}

// relinkedAll is relinked for several stretches; false where one is lost.
func relinkedAll(all []model.Stretch, before, after model.Piece) ([]model.Stretch, bool) {
	out := slices.Clone(all)
	for i, s := range all {
		var ok bool
		if out[i], ok = relinked(s, before, after); !ok {
			return nil, false
		}
	}
	return out, true
}

// relinked names the same stretch by the edges of after; false where a run of
// it does not begin and end at grade points any more.
func relinked(s model.Stretch, before, after model.Piece) (model.Stretch, bool) {
	if s.Piece != before.ID || len(s.Edges) == 0 {
		return s, true
	}
	old := slices.Clone(s.Edges)
	if s.Reverse {
		slices.Reverse(old)
	}
	var edges []string
	for len(old) > 0 {
		first := before.EdgeIndex(old[0])
		if first < 0 {
			return s, false
		}
		last, n := first, 1
		for ; n < len(old) && before.EdgeIndex(old[n]) == (last+1)%len(before.Edges); n++ {
			last = before.EdgeIndex(old[n])
		}
		old = old[n:]
		run, ok := between(after, before.Points[first].ID, before.Points[(last+1)%len(before.Points)].ID)
		if !ok {
			return s, false
		}
		edges = append(edges, run...)
	}
	if s.Reverse {
		slices.Reverse(edges)
	}
	s.Edges = edges
	return s, true
}

// between names the edges of q from one grade point to another, in outline
// order; false where one of them is gone.
func between(q model.Piece, from, to string) (edges []string, ok bool) {
	k, end := q.PointIndex(from), q.PointIndex(to)
	if k < 0 || end < 0 {
		return nil, false
	}
	for {
		edges = append(edges, q.Edges[k].ID)
		if k = (k + 1) % len(q.Edges); k == end {
			return edges, true
		}
	}
}
