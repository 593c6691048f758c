package length

import (
	"errors"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// parallelTol is how far, in mm, a moved hem may be from true parallel.
const parallelTol = 1e-3

// Hemmed is a piece whose hems were moved. The zero Hemmed is one whose hems
// were not.
type Hemmed struct {
	Edges  []geom.Path
	before []geom.Path
	by     []float64
	out    float64 // 1 where the outside lies to the right of the line walked, else -1
}

// Hem moves edge j of piece q, drawn as edges, by by[j] mm straight out,
// parallel to itself within 0.001 mm; below 0 moves it in. The edges beside go
// on in their own direction. What cannot be is an error that says the piece and
// the edge in plain words. When every by is 0, Edges are the very ones given.
func Hem(q model.Piece, edges []geom.Path, by []float64) (Hemmed, error) {
	any := false
	for _, b := range by {
		any = any || b != 0
	}
	if !any {
		return Hemmed{Edges: edges}, nil
	}
	held := make([]bool, len(edges))
	for j, e := range q.Edges {
		held[j] = e.Kind == model.Fold || e.Kind == model.Centre
	}
	moved, err := geom.ShiftEdges(edges, by, held, parallelTol)
	if err != nil {
		return Hemmed{}, hemWhy(q, err)
	}
	h := Hemmed{Edges: moved, before: edges, by: by, out: -1}
	if geom.Join(edges...).Area() < 0 {
		h.out = 1
	}
	return h, nil
}

func hemWhy(q model.Piece, err error) error {
	var at *geom.EdgeError
	if !errors.As(err, &at) {
		return words.Errorf("moving the hem of %s: %w", q.Name, err)
	}
	name := named(q.Edges[at.Edge].Name, words.F("edge %d", at.Edge+1))
	return words.Errorf("the hem of %s cannot be moved that far: at the %s nothing of the line is left", q.Name, name)
}

// Along is how far from the edge's start a place now lies that lay s mm from it
// before: its share of a hem, and as far as before from the end of another edge
// that stays.
func (h Hemmed) Along(edge int, s float64) float64 {
	if h.before == nil {
		return s
	}
	old, now := h.before[edge], h.Edges[edge]
	if h.by[edge] != 0 {
		was, errWas := old.Length(parallelTol)
		is, errIs := now.Length(parallelTol)
		if errWas == nil && errIs == nil && was > 0 {
			return s * is / was
		}
	}
	return s - now.Start().Sub(old.Start()).Dot(old.StartDir())
}

// LineEnd is where the end of a line drawn on the piece lies now: one that
// ended on a hem goes on to it in its own direction, dir, which leads out of
// the line; another stays.
func (h Hemmed) LineEnd(p geom.Point, dir geom.Vec) geom.Point {
	const near = 1.0 // mm that a line drawn by hand may end short of the hem or past it
	for j, by := range h.by {
		if by == 0 {
			continue
		}
		k, t, d := h.before[j].Nearest(p, parallelTol)
		out := h.before[j][k].Tangent(t).Perp().Scale(h.out)
		if along := dir.Dot(out); d <= near && along >= math.Sqrt2/2 {
			return p.Add(dir.Scale(by / along))
		}
	}
	return p
}
