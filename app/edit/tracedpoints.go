package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// AddTracedCorner cuts an edge of a size's line in two at the place on it
// nearest to at.
func AddTracedCorner(id, size string, edge int, at geom.Point) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		i, err := tracedEdge(t, size, edge)
		if err != nil {
			return t, err
		}
		s := t.Sizes[i]
		along, _, err := s.Edges[edge].NearestS(at, notchTol)
		if err != nil {
			return t, err
		}
		before, after, err := s.Edges[edge].SplitAt(along, notchTol)
		if err != nil {
			return t, err
		}
		corner := after.Start()
		if corner.Dist(s.Edges[edge].Start()) < nextCorner || corner.Dist(s.Edges[edge].End()) < nextCorner {
			return t, words.Errorf("there is a corner of size %s already", size)
		}
		s.Corners = slices.Insert(slices.Clone(s.Corners), edge+1, corner)
		s.Edges = slices.Replace(slices.Clone(s.Edges), edge, edge+1, before, after)
		if i == 0 && edge < len(t.Edges) {
			t.Edges = slices.Insert(slices.Clone(t.Edges), edge+1, t.Edges[edge])
		}
		t.Sizes = slices.Clone(t.Sizes)
		t.Sizes[i] = s
		return t, nil
	})
}

// nextCorner is how near, in mm, two corners of a traced line may lie.
const nextCorner = 0.5

// RemoveTracedCorner takes a corner out of a size's line; along is the edge
// between its neighbours, or empty for the two edges there run on as one.
func RemoveTracedCorner(id, size string, corner int, along geom.Path) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		i := slices.IndexFunc(t.Sizes, func(s model.TracedSize) bool { return s.Size == size })
		if i < 0 || corner < 0 || corner >= len(t.Sizes[i].Corners) {
			return t, words.Errorf("the line of size %s has no such corner", size)
		}
		s, err := withoutCorner(t.Sizes[i], corner, along)
		if err != nil {
			return t, err
		}
		if i == 0 && corner < len(t.Edges) {
			t.Edges = slices.Delete(slices.Clone(t.Edges), corner, corner+1)
		}
		t.Sizes = slices.Clone(t.Sizes)
		t.Sizes[i] = s
		return t, nil
	})
}

func withoutCorner(s model.TracedSize, c int, along geom.Path) (model.TracedSize, error) {
	n := len(s.Corners)
	if s.Closed && n <= 3 {
		return s, words.Errorf("a line needs three corners, so none of size %s can go", s.Size)
	}
	edges := slices.Clone(s.Edges)
	switch {
	case !s.Closed && c == n-1:
		edges = edges[:max(n-2, 0)]
	case !s.Closed && c == 0:
		edges = edges[min(1, len(edges)):]
	default:
		in := (c + n - 1) % n
		if len(along) == 0 {
			along = geom.Join(edges[in], edges[c])
		}
		edges[in] = between(along, s.Corners[in], s.Corners[(c+1)%n])
		edges = slices.Delete(edges, c, c+1)
	}
	s.Edges, s.Corners = edges, slices.Delete(slices.Clone(s.Corners), c, c+1)
	return s, nil
}

// AddTracedPoint puts a point on a curve of a size's line, where it is nearest
// to at, so that the curve can be shaped there; the curve stays as it is.
func AddTracedPoint(id, size string, edge int, at geom.Point) func(model.Pattern) (model.Pattern, error) {
	return onTracedEdge(id, size, edge, func(e geom.Path) (geom.Path, error) {
		i, u, _ := e.Nearest(at, notchTol)
		if place := e[i].At(u); place.Dist(e[i].P0) < nextCorner || place.Dist(e[i].P3) < nextCorner {
			return e, words.Error("there is a point already")
		}
		a, b := e[i].Split(u)
		return slices.Replace(slices.Clone(e), i, i+1, a, b), nil
	})
}

// RemoveTracedPoint takes the point out that begins cubic k of an edge: the
// curve runs through its neighbours as near as can be to where it ran.
func RemoveTracedPoint(id, size string, edge, k int) func(model.Pattern) (model.Pattern, error) {
	return onTracedEdge(id, size, edge, func(e geom.Path) (geom.Path, error) {
		if k < 1 || k >= len(e) {
			return e, words.Error("there is no such point on the edge")
		}
		const samples = 24
		var pts []geom.Point
		for _, c := range e[k-1 : k+1] {
			for i := range samples {
				pts = append(pts, c.At(float64(i)/samples))
			}
		}
		pts = append(pts, e[k].P3)
		one, _, err := geom.Fit(pts, e[k-1:k].StartDir(), e[k:k+1].EndDir(), 1)
		if err != nil {
			return e, err
		}
		return slices.Replace(slices.Clone(e), k-1, k+1, one...), nil
	})
}

// onTracedEdge changes one edge between its corners.
func onTracedEdge(id, size string, edge int, f func(geom.Path) (geom.Path, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		k := p.TracingIndex(id)
		if k < 0 {
			return p, words.Error("nothing of that name is being traced")
		}
		i, err := tracedEdge(p.Tracings[k], size, edge)
		if err != nil {
			return p, err
		}
		along, err := f(p.Tracings[k].Sizes[i].Edges[edge])
		if err != nil {
			return p, err
		}
		return ReshapeEdge(id, size, edge, along)(p)
	}
}

// tracedEdge is the index of the size that has such an edge.
func tracedEdge(t model.Tracing, size string, edge int) (int, error) {
	i := slices.IndexFunc(t.Sizes, func(s model.TracedSize) bool { return s.Size == size })
	if i < 0 || edge < 0 || edge >= len(t.Sizes[i].Edges) || len(t.Sizes[i].Edges[edge]) == 0 {
		return 0, words.Errorf("the line of size %s has no such edge", size)
	}
	return i, nil
}
