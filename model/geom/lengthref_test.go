package geom

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// refOutline is an outline of testdata/outlines.json with its lengths by
// reference libraries; testdata/outlines.py says how they were found.
type refOutline struct {
	Edges      [][]float64 // control points, x and y in turn, mm
	Allowances []float64
	Cut, Sewn  []float64 // of each edge, mm
	Even       float64
	Whole      float64 // all round, Even mm inside
}

func (o refOutline) paths() []Path {
	out := make([]Path, len(o.Edges))
	for k, e := range o.Edges {
		var pts []Point
		for i := 0; i < len(e); i += 2 {
			pts = append(pts, Pt(e[i], e[i+1]))
		}
		out[k] = FromControls(pts)
	}
	return out
}

func refOutlines(t *testing.T) []refOutline {
	t.Helper()
	raw, err := os.ReadFile("testdata/outlines.json")
	if err != nil {
		t.Fatal(err)
	}
	var data struct {
		Made     string
		Outlines []refOutline
	}
	if err := json.Unmarshal(raw, &data); err != nil {
		t.Fatal(err)
	}
	if len(data.Outlines) != 200 {
		t.Fatalf("%d outlines, want 200", len(data.Outlines))
	}
	t.Logf("reference: %s", data.Made)
	return data.Outlines
}

// worst keeps the largest difference met.
type worst struct {
	by    float64
	where [2]int // outline, edge
	n     int
}

func (w *worst) add(got, want float64, outline, edge int) {
	w.n++
	if d := math.Abs(got - want); d > w.by || math.IsNaN(d) {
		w.by, w.where = d, [2]int{outline, edge}
	}
}

// Edge lengths against adaptive quadrature (scipy): within 0.001 mm.
func TestLengthAgainstQuadrature(t *testing.T) {
	var off worst
	for i, o := range refOutlines(t) {
		for k, e := range o.paths() {
			got, err := e.Length(1e-6)
			if err != nil {
				t.Fatal(err)
			}
			off.add(got, o.Cut[k], i, k)
		}
	}
	t.Logf("%d edges, worst %.2g mm (outline, edge %v)", off.n, off.by, off.where)
	if !(off.by <= 0.001) {
		t.Errorf("%.4f mm off, want at most 0.001", off.by)
	}
}

// The line inside mixed allowances, edge by edge, against the parallel curve's
// own integral between its meetings (scipy): within 0.01 mm, and no outline
// that has such a line is refused.
func TestInsideLineAgainstQuadrature(t *testing.T) {
	var off worst
	for i, o := range refOutlines(t) {
		in := make([]float64, len(o.Allowances))
		for k, a := range o.Allowances {
			in[k] = -a
		}
		out, err := OffsetOutline(o.paths(), in, 0.005)
		if err != nil {
			t.Errorf("outline %d: %v", i, err)
			continue
		}
		for k, e := range out {
			got, err := e.Length(1e-6)
			if err != nil {
				t.Fatal(err)
			}
			off.add(got, o.Sewn[k], i, k)
		}
	}
	t.Logf("%d edges, worst %.2g mm (outline, edge %v)", off.n, off.by, off.where)
	if !(off.by <= 0.01) {
		t.Errorf("%.4f mm off, want at most 0.01", off.by)
	}
}

// The same line measured without being drawn, where that can be: within the
// 0.001 mm asked.
func TestBesideAgainstQuadrature(t *testing.T) {
	var off worst
	edges := 0
	for i, o := range refOutlines(t) {
		p, n := o.paths(), len(o.Edges)
		side := math.Copysign(1, Join(p...).Area())
		d := func(k int) float64 { return -side * o.Allowances[k%n] }
		for k := range p {
			edges++
			if b, ok := MeasureBeside(p[(k+n-1)%n], p[k], p[(k+1)%n], d(k+n-1), d(k), d(k+1), 1e-3); ok {
				off.add(b.Length(), o.Sewn[k], i, k)
			}
		}
	}
	t.Logf("%d of %d edges, worst %.2g mm (outline, edge %v)", off.n, edges, off.by, off.where)
	if !(off.by <= 1e-3) || off.n < edges*9/10 {
		t.Errorf("%.5f mm off on %d of %d edges, want at most 0.001 on nearly all", off.by, off.n, edges)
	}
}

// All round inside one allowance against another library's polygons (GEOS),
// in which nothing of the reference above is used. Its chords are shorter than
// the curves by at most a few thousandths of a mm all round.
func TestInsideLineAgainstPolygons(t *testing.T) {
	var off worst
	for i, o := range refOutlines(t) {
		out, err := OffsetOutline(o.paths(), all(len(o.Edges), -o.Even), 0.005)
		if err != nil {
			t.Errorf("outline %d: %v", i, err)
			continue
		}
		off.add(length(t, Join(out...)), o.Whole, i, 0)
	}
	t.Logf("%d outlines, worst %.2g mm (outline %d)", off.n, off.by, off.where[0])
	if !(off.by <= 0.01) {
		t.Errorf("%.4f mm off, want at most 0.01", off.by)
	}
}
