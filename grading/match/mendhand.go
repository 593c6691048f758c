package match

import (
	"slices"

	"quarterstep/model"
)

// splitHand carries corrections over when edge old is cut in two, fresh being
// its second part: a curve chosen for the edge, and a shift of it, hold for both
// parts; its bends are dropped, as its curves are no longer the same.
func splitHand(h model.Hand, old, fresh string) model.Hand {
	h = withoutShapes(h, old)
	for _, c := range h.Curves {
		if c.Edge == old {
			c.Edge = fresh
			h.Curves = append(slices.Clone(h.Curves), c)
		}
	}
	for _, s := range h.Shifts {
		if s.Edge == old {
			s.Edge = fresh
			h.Shifts = append(slices.Clone(h.Shifts), s)
		}
	}
	return h
}

// mergeHand carries corrections over when a grade point is taken out and edge
// kept takes in edge gone: what held for both edges alike goes on holding, what
// held for one of them or for the point is dropped.
func mergeHand(h model.Hand, point, kept, gone string) model.Hand {
	h = withoutShapes(h, kept, gone)
	h.Moves = without(h.Moves, func(m model.PointMove) bool { return m.Point == point })
	h.Through = without(h.Through, func(id string) bool { return id == point })
	curves, shifts := h.Curves, h.Shifts
	h.Curves = without(curves, func(c model.EdgeCurve) bool {
		twin := c
		twin.Edge = gone
		return c.Edge == gone || c.Edge == kept && !slices.Contains(curves, twin)
	})
	h.Shifts = without(shifts, func(s model.EdgeShift) bool {
		twin := s
		twin.Edge = gone
		return s.Edge == gone || s.Edge == kept && !slices.Contains(shifts, twin)
	})
	return h
}

func withoutShapes(h model.Hand, edges ...string) model.Hand {
	h.Shapes = without(h.Shapes, func(s model.EdgeShape) bool { return slices.Contains(edges, s.Edge) })
	return h
}

// without is list less those that are gone, nil when none is left.
func without[T any](list []T, gone func(T) bool) []T {
	var out []T
	for _, v := range list {
		if !gone(v) {
			out = append(out, v)
		}
	}
	return out
}
