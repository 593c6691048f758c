package spread

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const (
	lineTol = 1e-6 // mm: lengths, crossings, and how near two places are one
	flatTol = 0.1  // mm an edge may stray from straight and still count as straight
)

// outline is the printed line of a piece as one ring.
type outline struct {
	piece model.Piece
	edges []geom.Path
	ring  geom.Measured
	rough polygon
	start []float64 // mm along the ring where each edge starts, and where the last ends
	right float64   // 1 where the piece lies to the right of the line walked, else -1
	// centre is the direction of the centre line, down the piece.
	centre  geom.Vec
	stretch []stretch
	// turned says for each edge, at its start and its end, that a cut turns the
	// straight edge it runs smoothly on from.
	turned [][2]bool
}

func newOutline(q model.Piece) (*outline, error) {
	if len(q.Nest) == 0 {
		return nil, words.Errorf("%s is printed in no size", q.Name)
	}
	o := &outline{piece: q, edges: q.Nest[0].Edges, start: []float64{0}, right: 1}
	var whole geom.Path
	for j, e := range o.edges {
		length, err := e.Length(lineTol)
		if err != nil {
			return nil, words.Errorf("measuring edge %d of %s: %w", j+1, q.Name, err)
		}
		o.start = append(o.start, o.start[j]+length)
		whole = append(whole, e...)
	}
	var err error
	if o.ring, err = geom.Measure(whole, lineTol); err != nil {
		return nil, words.Errorf("measuring the outline of %s: %w", q.Name, err)
	}
	o.rough = newPolygon(whole)
	if whole.Area() < 0 {
		o.right = -1
	}
	o.centre = o.centreDir()
	o.stretch = o.stretches()
	return o, nil
}

// still reports that edge j may not move across itself.
func (o *outline) still(j int) bool {
	return slices.Contains([]model.EdgeKind{model.Fold, model.Centre}, o.piece.Edges[j].Kind)
}

// chord is the movement from the start of edge j to its end.
func (o *outline) chord(j int) geom.Vec { return o.edges[j].End().Sub(o.edges[j].Start()) }

// centreDir is the direction of the longest fold or centre edge, pointing the
// way the grain does; the grain where there is none.
func (o *outline) centreDir() geom.Vec {
	grain := o.piece.GrainDir()
	var longest geom.Vec
	for j := range o.edges {
		if c := o.chord(j); o.still(j) && c.Len() > longest.Len() {
			longest = c
		}
	}
	if longest.IsZero() {
		return grain
	}
	if longest.Dot(grain) < 0 {
		longest = longest.Scale(-1)
	}
	return longest.Unit()
}

// length is that of the whole ring, mm.
func (o *outline) length() float64 { return o.start[len(o.edges)] }

// ahead is how far along the ring b lies after a, mm.
func (o *outline) ahead(a, b float64) float64 {
	d := math.Mod(b-a, o.length())
	if d < 0 {
		d += o.length()
	}
	return d
}

// apart is the distance of two places along the ring, the shorter way round.
func (o *outline) apart(a, b float64) float64 {
	d := o.ahead(a, b)
	return min(d, o.length()-d)
}

// between is the ring from a on to b.
func (o *outline) between(a, b float64) geom.Path {
	if a <= b {
		return o.ring.Between(a, b)
	}
	return geom.Join(o.ring.Between(a, o.length()), o.ring.Between(0, b))
}

// partOf is the outline of the part of the paper cut off from a to b.
func (o *outline) partOf(a, b float64) geom.Path {
	return geom.Join(o.between(a, b), geom.Polyline(o.ring.At(b), o.ring.At(a)))
}
