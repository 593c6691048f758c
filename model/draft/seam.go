package draft

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

const (
	lineTol = 1e-4 // mm, stitching lines and lengths
	seamTol = 1e-3 // mm, how exactly seams are brought to one length
)

// stitching is a piece's stitching line, edge by edge.
type stitching struct {
	part  part
	paths []geom.Path
}

// stitch takes the seam allowances off a drawn piece.
func (p part) stitch(edges []geom.Path) (stitching, error) {
	in := make([]float64, len(p.corners))
	for i, c := range p.corners {
		in[i] = -c.seam
	}
	paths, err := geom.OffsetOutline(edges, in, lineTol)
	if err != nil {
		return stitching{}, words.Errorf("finding the stitching line of %s: %w", p.name, err)
	}
	return stitching{p, paths}, nil
}

// length is the stitched length of the named edges together, mm.
func (s stitching) length(edges ...string) (float64, error) {
	var sum float64
	for _, name := range edges {
		l, err := s.paths[s.part.index(name)].Length(lineTol)
		if err != nil {
			return 0, words.Errorf("measuring the %s of %s: %w", name, s.part.name, err)
		}
		sum += l
	}
	return sum, nil
}

// lengths is length for several stretches at once.
func (s stitching) lengths(stretches ...[]string) ([]float64, error) {
	out := make([]float64, len(stretches))
	for i, edges := range stretches {
		var err error
		if out[i], err = s.length(edges...); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// sewnAt is how far along the stitched edge the place s mm along the cutting
// edge lies, mm.
func (s stitching) sewnAt(edges []geom.Path, edge string, at float64) (float64, error) {
	return across(edges[s.part.index(edge)], s.paths[s.part.index(edge)], at)
}

// cutAt is the inverse of sewnAt.
func (s stitching) cutAt(edges []geom.Path, edge string, at float64) (float64, error) {
	return across(s.paths[s.part.index(edge)], edges[s.part.index(edge)], at)
}

// across goes from a place on one line to the nearest on a line beside it.
func across(from, to geom.Path, at float64) (float64, error) {
	m, err := geom.Measure(from, lineTol)
	if err != nil {
		return 0, err
	}
	s, _, err := to.NearestS(m.At(at), lineTol)
	return s, err
}

// settle moves the values x until off, by how many mm each of as many seams
// misses, is within seamTol everywhere. It is Newton's rule with measured
// slopes.
func settle(x []float64, off func(x []float64) ([]float64, error)) ([]float64, error) {
	const tries, nudge = 12, 0.25
	n := len(x)
	for range tries {
		miss, err := off(x)
		if err != nil {
			return nil, err
		}
		if worst(miss) <= seamTol {
			return x, nil
		}
		slopes := mat.NewDense(n, n, nil)
		for k := range n {
			y := append([]float64(nil), x...)
			y[k] += nudge
			there, err := off(y)
			if err != nil {
				return nil, err
			}
			for i := range n {
				slopes.Set(i, k, (there[i]-miss[i])/nudge)
			}
		}
		var step mat.VecDense
		if err := step.SolveVec(slopes, mat.NewVecDense(n, miss)); err != nil {
			return nil, words.Errorf("bringing seams to one length: %w", err)
		}
		y := make([]float64, n)
		for k := range y {
			y[k] = x[k] - step.AtVec(k)
		}
		x = y
	}
	return nil, words.Error("bringing seams to one length: they never meet; choose a size nearer the middle of the chart")
}

func worst(v []float64) float64 {
	var w float64
	for _, x := range v {
		w = math.Max(w, math.Abs(x))
	}
	return w
}
