package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// SameTracedEdge is the number of the edge of another size that is edge j of a
// line, whichever corner either was begun at; false where their corners differ.
func SameTracedEdge(line, other model.TracedSize, j int) (int, bool) {
	switch {
	case line.Size == other.Size:
		return j, j < len(other.Edges)
	case !line.Closed || !other.Closed || len(line.Corners) != len(other.Corners):
		return 0, false
	}
	want := Alike(other, line).Edges[j]
	k := slices.IndexFunc(other.Edges, func(e geom.Path) bool {
		return e.Start() == want.Start() && e.End() == want.End() || e.Start() == want.End() && e.End() == want.Start()
	})
	return k, k >= 0
}

// FoldTracedEdge says that an edge lies on the fold, or does not: on it, it is
// straight in every size.
func FoldTracedEdge(id, size string, edge int, on bool) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		t, i, err := tracedIn(p, id, size, edge)
		if err != nil {
			return p, err
		}
		name, kind := "", model.Plain
		if on {
			name, kind = words.T("fold"), model.Fold
		}
		for _, s := range t.Sizes {
			if j, ok := SameTracedEdge(t.Sizes[i], s, edge); ok && on {
				if p, err = ReshapeEdge(id, s.Size, j, geom.Path{geom.Line(s.Edges[j].Start(), s.Edges[j].End())})(p); err != nil {
					return p, err
				}
			}
		}
		return NameEdgeOfSize(id, size, edge, name, kind)(p)
	}
}

// NameEdgeOfSize says what edge number j of one size's line is, in every size.
func NameEdgeOfSize(id, size string, j int, name string, kind model.EdgeKind) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		t, i, err := tracedIn(p, id, size, j)
		if err != nil {
			return p, err
		}
		k, ok := SameTracedEdge(t.Sizes[i], t.Sizes[0], j)
		if !ok {
			return p, words.Errorf("size %s has other corners than size %s, so its edge cannot be told", size, t.Sizes[0].Size)
		}
		return NameTracedEdge(id, k, name, kind, 0)(p)
	}
}

// tracedIn is a tracing and the index of its size that has such an edge.
func tracedIn(p model.Pattern, id, size string, edge int) (model.Tracing, int, error) {
	k := p.TracingIndex(id)
	if k < 0 {
		return model.Tracing{}, 0, words.Error("nothing of that name is being traced")
	}
	i, err := tracedEdge(p.Tracings[k], size, edge)
	return p.Tracings[k], i, err
}
