package geom

import (
	"math"

	"quarterstep/assets/words"
)

// EdgeError says which edge of an outline cannot be drawn, and why.
type EdgeError struct {
	Edge int // index in the outline
	Why  string
}

// Error counts edges from 1.
func (e *EdgeError) Error() string { return words.F("edge %d: %s", e.Edge+1, e.Why) }

// OffsetOutline moves each edge of a closed outline by its own width d[k] in
// mm, positive outwards whichever way the outline runs, and returns the edges
// of the new closed outline, one for one. An edge with width 0 keeps its line.
// Away from corners an edge keeps |d[k]| from its own old line within tol mm.
//
// Neighbours meet where their lines, or the straight lines that go on from
// their ends, cross; a mitred corner farther than 4 widths from the old one is
// cut off straight, and two widths on one smooth line meet in a step. A corner
// that closes in is trimmed.
//
// An *EdgeError names the edge of which nothing is left, or that runs across
// another. Other errors: no edges, edges that do not join within 1e-6 mm, a
// list of widths of another length, tol not positive.
func OffsetOutline(edges []Path, d []float64, tol float64) ([]Path, error) {
	whole, err := outlineOf(edges, d)
	if err != nil {
		return nil, words.Errorf("moving an outline: %w", err)
	}
	side := math.Copysign(1, whole.Area())
	if len(edges) == 1 {
		return offsetRing(edges[0], side*d[0], tol)
	}
	raw, widths := make([]Path, len(edges)), make([]float64, len(edges))
	for k, e := range edges {
		widths[k] = side * d[k]
		if raw[k], err = OffsetEdge(e, widths[k], tol/2); err != nil {
			return nil, &EdgeError{k, err.Error()}
		}
	}
	out, err := meetAll(edges, raw, widths, tol/2)
	if err != nil {
		return nil, err
	}
	return out, checkRing(out, side, tol)
}

// outlineOf joins the edges after checking that they make an outline.
func outlineOf(edges []Path, d []float64) (Path, error) {
	if len(edges) == 0 || len(edges) != len(d) {
		return nil, words.Errorf("it has %d edges and %d widths", len(edges), len(d))
	}
	var whole Path
	for k, e := range edges {
		if len(e) == 0 {
			return nil, &EdgeError{k, words.T("it is empty")}
		}
		whole = append(whole, e...)
	}
	if err := whole.Validate(); err != nil {
		return nil, err
	}
	if !whole.Closed(joinTol) {
		return nil, words.Errorf("it is not closed: it starts at (%s, %s) and ends at (%s, %s)",
			words.Figure(whole.Start().X, 3), words.Figure(whole.Start().Y, 3), words.Figure(whole.End().X, 3), words.Figure(whole.End().Y, 3))
	}
	return whole, nil
}

// offsetRing serves an outline of one edge, as two halves.
func offsetRing(p Path, d, tol float64) ([]Path, error) {
	i, t := len(p)/2, 0.0
	if len(p) == 1 {
		t = 0.5
	}
	last := len(p) - 1
	side := math.Copysign(1, p.Area())
	halves, err := OffsetOutline([]Path{p.between(0, 0, i, t), p.between(i, t, last, 1)}, []float64{side * d, side * d}, tol)
	if e, ok := err.(*EdgeError); ok {
		return nil, &EdgeError{0, e.Why}
	} else if err != nil {
		return nil, err
	}
	return []Path{Join(halves...)}, nil
}

// meetAll solves every corner on the untrimmed lines, then cuts each line at
// its two ends.
func meetAll(edges, raw []Path, d []float64, tol float64) ([]Path, error) {
	n := len(raw)
	turns := make([]turn, n) // turns[k] ends edge k
	for k := range raw {
		next := (k + 1) % n
		var ok bool
		turns[k], ok = corner{raw[k], raw[next], d[k], d[next], edges[k].End(), tol}.solve()
		if !ok {
			return nil, &EdgeError{k, words.F("moved %s mm, it never meets the edge after it", words.Figure(math.Abs(d[k]), 1))}
		}
	}
	out := make([]Path, n)
	for k, e := range raw {
		first, last := turns[(k+n-1)%n], turns[k]
		if first.ib > last.ia || first.ib == last.ia && first.tb >= last.ta {
			return nil, &EdgeError{k, words.F("moved %s mm, nothing of it is left", words.Figure(math.Abs(d[k]), 1))}
		}
		out[k] = first.leave(last.arrive(e.between(first.ib, first.tb, last.ia, last.ta)))
	}
	return out, nil
}

// checkRing refuses an outline turned inside out or running across itself.
func checkRing(edges []Path, side, tol float64) error {
	var whole Path
	var owner []int
	for k, e := range edges {
		for range e {
			owner = append(owner, k)
		}
		whole = append(whole, e...)
	}
	for _, x := range SelfCrossings(whole, tol) {
		return &EdgeError{owner[x.IA], words.F("once moved, it runs across edge %d near (%s, %s)",
			owner[x.IB]+1, words.Figure(x.At.X, 1), words.Figure(x.At.Y, 1))}
	}
	if whole.Area()*side <= 0 {
		return &EdgeError{0, words.T("once moved, the outline is turned inside out: the widths are more than the piece has")}
	}
	return nil
}
