package edit

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// AddPicture puts a flattened picture on the Table. Its File must be kept with
// the project by the caller.
func AddPicture(q model.Picture) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Pictures = append(slices.Clone(p.Pictures), q)
		return p, p.Validate()
	}
}

// RemovePicture takes a picture off the Table, with what is being traced from
// it; pieces traced from it stay.
func RemovePicture(id string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if p.PictureIndex(id) < 0 {
			return p, words.Error("there is no such picture")
		}
		p.Pictures = without(p.Pictures, func(q model.Picture) bool { return q.ID == id })
		p.Tracings = without(p.Tracings, func(t model.Tracing) bool { return t.Picture == id })
		p.Pieces = slices.Clone(p.Pieces)
		for i := range p.Pieces {
			if p.Pieces[i].Picture == id {
				p.Pieces[i].Picture = ""
			}
		}
		return p, nil
	}
}

// FadePicture dims a picture: 0 as taken, 1 gone.
func FadePicture(id string, faded float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PictureIndex(id)
		if i < 0 {
			return p, words.Error("there is no such picture")
		}
		p.Pictures = slices.Clone(p.Pictures)
		p.Pictures[i].Faded = min(max(faded, 0), 1)
		return p, nil
	}
}

// StartTracing begins a piece on a picture; its ID is the caller's.
func StartTracing(id, picture, name string, cut int) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Tracings = append(slices.Clone(p.Tracings), model.Tracing{ID: id, Picture: picture, Name: name, Cut: cut})
		return p, p.Validate()
	}
}

// DropTracing gives a tracing up.
func DropTracing(id string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if p.TracingIndex(id) < 0 {
			return p, words.Error("nothing of that name is being traced")
		}
		p.Tracings = without(p.Tracings, func(t model.Tracing) bool { return t.ID == id })
		return p, nil
	}
}

// NameTracing names the piece being traced and says how often it is cut.
func NameTracing(id, name string, cut int) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		t.Name, t.Cut = name, cut
		return t, nil
	})
}

// PrintedSizes keeps which sizes are printed, the smallest and the largest, with
// the piece being traced; empty where it was not said.
func PrintedSizes(id, from, to string) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		t.Printed = [2]string{from, to}
		return t, nil
	})
}

// onTracing changes a tracing; f must replace slices, not write into them.
func onTracing(id string, f func(model.Tracing) (model.Tracing, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.TracingIndex(id)
		if i < 0 {
			return p, words.Error("nothing of that name is being traced")
		}
		t, err := f(p.Tracings[i])
		if err != nil {
			return p, err
		}
		p.Tracings = slices.Clone(p.Tracings)
		p.Tracings[i] = t
		return p, p.Validate()
	}
}

// onTraced changes the line of one size of a tracing, new where it has none.
func onTraced(id, size string, f func(model.TracedSize) (model.TracedSize, error)) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		i := slices.IndexFunc(t.Sizes, func(s model.TracedSize) bool { return s.Size == size })
		s := model.TracedSize{Size: size}
		if i >= 0 {
			s = t.Sizes[i]
		}
		s.Corners, s.Edges = slices.Clone(s.Corners), slices.Clone(s.Edges)
		s, err := f(s)
		if err != nil {
			return t, err
		}
		t.Sizes = slices.Clone(t.Sizes)
		if i < 0 {
			t.Sizes = append(t.Sizes, s)
		} else {
			t.Sizes[i] = s
		}
		return t, nil
	})
}

// AddCorner goes on with a size's line: along edge, which ends at the new
// corner. The first corner has no edge; an empty edge is straight.
func AddCorner(id, size string, corner geom.Point, edge geom.Path) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, size, func(s model.TracedSize) (model.TracedSize, error) {
		if s.Closed {
			return s, words.Errorf("the line of size %s is done; undo a point to go on with it", size)
		}
		if n := len(s.Corners); n > 0 {
			s.Edges = append(s.Edges, between(edge, s.Corners[n-1], corner))
		}
		s.Corners = append(s.Corners, corner)
		return s, nil
	})
}

// CloseSize ends a size's line along edge, at its first corner.
func CloseSize(id, size string, edge geom.Path) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, size, func(s model.TracedSize) (model.TracedSize, error) {
		n := len(s.Corners)
		if s.Closed || n < 3 {
			return s, words.Error("a line needs three corners before it can be closed")
		}
		s.Edges, s.Closed = append(s.Edges, between(edge, s.Corners[n-1], s.Corners[0])), true
		return s, nil
	})
}

// between is an edge brought to end exactly at two corners; straight where there
// is none.
func between(edge geom.Path, from, to geom.Point) geom.Path {
	if len(edge) == 0 {
		return geom.Path{geom.Line(from, to)}
	}
	return edge.CarryEnds(from.Sub(edge.Start()), to.Sub(edge.End()), notchTol)
}

// UndoPoint takes back the last corner of a size's line, or its closing edge.
func UndoPoint(id, size string) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, size, func(s model.TracedSize) (model.TracedSize, error) {
		switch {
		case s.Closed:
			s.Closed, s.Edges = false, s.Edges[:len(s.Edges)-1]
		case len(s.Corners) > 1:
			s.Corners, s.Edges = s.Corners[:len(s.Corners)-1], s.Edges[:len(s.Edges)-1]
		case len(s.Corners) == 1:
			s.Corners = nil
		default:
			return s, words.Error("there is no point to take back")
		}
		return s, nil
	})
}

// MoveCorner moves a corner of a size's line; its edges go along, or take the
// ones given, before and after it, where they are not empty.
func MoveCorner(id, size string, corner int, to geom.Point, before, after geom.Path) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, size, func(s model.TracedSize) (model.TracedSize, error) {
		n := len(s.Corners)
		if corner < 0 || corner >= n {
			return s, words.Errorf("the line of size %s has no such corner", size)
		}
		s.Corners[corner] = to
		if in := (corner + n - 1) % n; in < len(s.Edges) && (corner > 0 || s.Closed) {
			if len(before) == 0 {
				before = s.Edges[in]
			}
			s.Edges[in] = between(before, s.Corners[in], to)
		}
		if corner < len(s.Edges) {
			if len(after) == 0 {
				after = s.Edges[corner]
			}
			s.Edges[corner] = between(after, to, s.Corners[(corner+1)%n])
		}
		return s, nil
	})
}

// ReshapeEdge gives an edge of a size's line another course between its corners.
func ReshapeEdge(id, size string, edge int, along geom.Path) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, size, func(s model.TracedSize) (model.TracedSize, error) {
		if edge < 0 || edge >= len(s.Edges) {
			return s, words.Errorf("the line of size %s has no such edge", size)
		}
		s.Edges[edge] = between(along, s.Edges[edge].Start(), s.Edges[edge].End())
		return s, nil
	})
}

// TakeTraced puts a whole size's line in, such as one that followed another
// size's corner by corner.
func TakeTraced(id string, line model.TracedSize) func(model.Pattern) (model.Pattern, error) {
	return onTraced(id, line.Size, func(model.TracedSize) (model.TracedSize, error) { return line, nil })
}

// NameTracedEdge says what edge number j of a tracing is, in every size.
func NameTracedEdge(id string, j int, name string, kind model.EdgeKind, allowance float64) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		t.Edges = slices.Clone(t.Edges)
		for len(t.Edges) <= j {
			t.Edges = append(t.Edges, model.Edge{ID: fmt.Sprintf("e%d", len(t.Edges)+1)})
		}
		if j < 0 {
			return t, words.Error("there is no such edge")
		}
		t.Edges[j].Name, t.Edges[j].Kind, t.Edges[j].Allowance = name, kind, allowance
		return t, nil
	})
}
