package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// besides measures every edge of an outline; nil for one that must be drawn.
func besides(edges []Path, d []float64, tol float64) []*Beside {
	n := len(edges)
	side := math.Copysign(1, Join(edges...).Area())
	out := make([]*Beside, n)
	for k := range edges {
		a, c := (k+n-1)%n, (k+1)%n
		if b, ok := MeasureBeside(edges[a], edges[k], edges[c], side*d[a], side*d[k], side*d[c], tol); ok {
			out[k] = &b
		}
	}
	return out
}

// A regular polygon moved in by d has sides shorter by 2 d tan(pi/n); a quarter
// circle of radius R beside its two radii, all moved in by d, keeps an arc of
// radius R-d that subtends acos and asin of d/(R-d) less (closed forms).
func TestBesideClosedForms(t *testing.T) {
	square := sides(ring(Pt(0, 0), Pt(200, 0), Pt(200, 200), Pt(0, 200)))
	for _, b := range besides(square, all(4, -15), 1e-6) {
		if b == nil || math.Abs(b.Length()-170) > 1e-9 {
			t.Errorf("a side of the square is %+v, want 170", b)
		}
	}
	for _, b := range besides(square, all(4, 10), 1e-6) {
		if b == nil || math.Abs(b.Length()-220) > 1e-9 {
			t.Errorf("a side of the square moved out is %+v, want 220", b)
		}
	}
	const r, d = 150.0, 15.0
	var arc Path
	for k := range 8 { // eight cubics: within 1e-7 mm of the circle
		a0, a1 := float64(k)*math.Pi/16, float64(k+1)*math.Pi/16
		h := 4.0 / 3 * math.Tan((a1-a0)/4) * r
		p, q := Pt(r*math.Cos(a0), r*math.Sin(a0)), Pt(r*math.Cos(a1), r*math.Sin(a1))
		u, v := Vec{-math.Sin(a0), math.Cos(a0)}, Vec{-math.Sin(a1), math.Cos(a1)}
		arc = append(arc, Cubic{p, p.Add(u.Scale(h)), q.Add(v.Scale(-h)), q})
	}
	quarter := []Path{{Line(Pt(0, 0), Pt(r, 0))}, arc, {Line(Pt(0, r), Pt(0, 0))}}
	got := besides(quarter, all(3, -d), 1e-6)
	want := (r - d) * (math.Pi/2 - 2*math.Asin(d/(r-d)))
	if got[1] == nil || math.Abs(got[1].Length()-want) > 1e-5 {
		t.Errorf("the arc is %+v, want %.6f", got[1], want)
	}
	leg := math.Sqrt((r-d)*(r-d)-d*d) - d
	if got[0] == nil || math.Abs(got[0].Length()-leg) > 1e-5 {
		t.Errorf("the radius is %+v, want %.6f", got[0], leg)
	}
	// Half the turn of the arc lies half its length along, by symmetry.
	if at, err := got[1].Along(r * math.Pi / 4); err != nil || math.Abs(at-want/2) > 1e-5 {
		t.Errorf("half way lies %.6f along, want %.6f (%v)", at, want/2, err)
	}
}

// Against the line drawn: on random garment-like outlines lengths agree, and
// places go there and back.
func TestBesideIsTheLineDrawn(t *testing.T) {
	measured := 0
	rapid.Check(t, func(t *rapid.T) {
		edges := bodice()
		for k := range edges {
			edges[k] = append(Path(nil), edges[k]...)
			for i := range edges[k] {
				c := &edges[k][i]
				if c.straight() {
					continue
				}
				c.P1 = c.P1.Add(Vec{rapid.Float64Range(-6, 6).Draw(t, "x1"), rapid.Float64Range(-6, 6).Draw(t, "y1")})
				c.P2 = c.P2.Add(Vec{rapid.Float64Range(-6, 6).Draw(t, "x2"), rapid.Float64Range(-6, 6).Draw(t, "y2")})
			}
		}
		d := make([]float64, len(edges))
		for k := range d {
			d[k] = -rapid.SampledFrom([]float64{0, 6, 10, 15, 15.875, 25}).Draw(t, "seam")
		}
		turn := Rotate(rapid.Float64Range(0, 6).Draw(t, "turn"))
		for k := range edges {
			edges[k] = edges[k].Transform(turn)
		}
		drawn, err := OffsetOutline(edges, d, 1e-4)
		if err != nil {
			return
		}
		for k, b := range besides(edges, d, 1e-4) {
			if b == nil {
				continue
			}
			measured++
			want := length(t, drawn[k])
			if math.Abs(b.Length()-want) > 2e-3 {
				t.Fatalf("edge %d, allowances %v: measured %.5f, drawn %.5f", k, d, b.Length(), want)
			}
			x := b.head + rapid.Float64Range(0.1, 0.9).Draw(t, "along")*(b.length-b.head-b.tail)
			s, err := b.Place(x)
			if err != nil {
				t.Fatal(err)
			}
			// A kink inside an edge has a mitre's length for its one place.
			jump := 0.0
			for i := 1; i < len(edges[k]); i++ {
				jump += math.Abs(2 * d[k] * math.Tan(turnBetween(edges[k][i-1].Tangent(1), edges[k][i].Tangent(0))/2))
			}
			if back, err := b.Along(s); err != nil || math.Abs(back-x) > jump+2e-3 {
				t.Fatalf("edge %d: %.4f comes back as %.4f (%v)", k, x, back, err)
			}
		}
	})
	if measured < 200 {
		t.Errorf("only %d edges were measured without being drawn", measured)
	}
}

func BenchmarkBeside(b *testing.B) {
	edges := bodice()
	d := []float64{15, 15, 15, 15, 30, 30, 0}
	for k := range d {
		d[k] *= -math.Copysign(1, Join(edges...).Area())
	}
	n := len(edges)
	for b.Loop() {
		for k := range edges {
			a, c := (k+n-1)%n, (k+1)%n
			if _, ok := MeasureBeside(edges[a], edges[k], edges[c], d[a], d[k], d[c], 1e-3); !ok {
				b.Fatal(k)
			}
		}
	}
}
