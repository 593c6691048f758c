package geom

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// arcPath is a circle's arc about c from angle a to b in radians, drawn in
// parts of at most 15 degrees with the handles of the usual approximation,
// which is then within 1e-8 of the radius.
func arcPath(c Point, r, a, b float64) Path {
	n := int(math.Ceil(math.Abs(b-a) / (math.Pi / 12)))
	h := (b - a) / float64(n)
	k := r * 4 / 3 * math.Tan(h/4)
	on := func(t float64) Point { return Pt(c.X+r*math.Cos(t), c.Y+r*math.Sin(t)) }
	along := func(t float64) Vec { return Vec{-math.Sin(t), math.Cos(t)} }
	var out Path
	for i := range n {
		t, u := a+float64(i)*h, a+float64(i+1)*h
		out = append(out, Cubic{on(t), on(t).Add(along(t).Scale(k)), on(u).Add(along(u).Scale(-k)), on(u)})
	}
	return out
}

// closedRing holds the edges of an outline to joining exactly.
func closedRing(t interface{ Fatalf(string, ...any) }, edges []Path) {
	for k, e := range edges {
		if err := e.Validate(); err != nil {
			t.Fatalf("edge %d: %v", k+1, err)
		}
		if d := e.End().Dist(edges[(k+1)%len(edges)].Start()); d > 1e-9 {
			t.Fatalf("edge %d ends %g mm from the next", k+1, d)
		}
	}
}

// The parallel of a circle's arc is the arc of r + out, and its corners slide
// along the spokes, whichever way the outline runs.
func TestAShiftedArcIsAnArc(t *testing.T) {
	const r = 100.0
	for _, tol := range []float64{0.1, 0.01, 1e-3, 1e-4} {
		for _, out := range []float64{-60, -5, 0.3, 12, 80} {
			for _, sweep := range []float64{1, 2, 3} {
				c := Pt(7, -3)
				arc := arcPath(c, r, 0.2, 0.2+sweep)
				ring := []Path{arc, Polyline(arc.End(), c), Polyline(c, arc.Start())}
				for _, back := range []bool{false, true} {
					if back {
						ring = []Path{ring[0].Reverse(), ring[2].Reverse(), ring[1].Reverse()}
					}
					got, err := ShiftEdges(ring, []float64{out, 0, 0}, make([]bool, 3), tol)
					if err != nil {
						t.Fatal(err)
					}
					closedRing(t, got)
					for _, q := range got[0] {
						for k := range 17 {
							if d := math.Abs(q.At(float64(k)/16).Dist(c) - (r + out)); d > tol {
								t.Fatalf("out %g: %g mm off the circle, may be %g", out, d, tol)
							}
						}
					}
					for j := 1; j < 3; j++ {
						if len(got[j]) != 1 || !got[j].IsStraight(tol) {
							t.Errorf("spoke %d is no longer one straight line", j)
						}
					}
					if u, v := ring[0].StartDir(), got[0].StartDir(); math.Abs(u.Cross(v)) > 1e-4 {
						t.Errorf("out %g: the arc sets off in another direction, by %g", out, u.Cross(v))
					}
				}
			}
		}
	}
}

// On a four-sided outline the shifted side lies out mm from the old one, its
// corners on the lines of its neighbours, and shifting back gives the old one.
func TestAShiftedSideOfFour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wobble := rapid.Float64Range(-40, 40)
		var pt [4]Point
		for i, at := range []Point{Pt(0, 0), Pt(300, 0), Pt(300, 300), Pt(0, 300)} {
			pt[i] = at.Add(Vec{wobble.Draw(t, "x"), wobble.Draw(t, "y")})
		}
		ring := make([]Path, 4)
		for i := range ring {
			ring[i] = Polyline(pt[i], pt[(i+1)%4])
		}
		k := rapid.IntRange(0, 3).Draw(t, "side")
		d := make([]float64, 4)
		d[k] = rapid.Float64Range(-60, 60).Draw(t, "out")
		got, err := ShiftEdges(ring, d, make([]bool, 4), 0.01)
		if err != nil {
			t.Fatal(err)
		}
		closedRing(t, got)
		normal := ring[k].StartDir().Perp().Scale(-1) // the ring runs clockwise
		for _, p := range []Point{got[k].Start(), got[k].End()} {
			if off := p.Sub(pt[k]).Dot(normal) - d[k]; math.Abs(off) > 1e-6 {
				t.Fatalf("the side lies %g mm wrong", off)
			}
		}
		for _, j := range []int{(k + 1) % 4, (k + 3) % 4} {
			if c := got[j].StartDir().Cross(ring[j].StartDir()); math.Abs(c) > 1e-8 || len(got[j]) != 1 {
				t.Fatalf("side %d left its line by %g, or is in %d parts", j+1, c, len(got[j]))
			}
		}
		d[k] = -d[k]
		back, err := ShiftEdges(got, d, make([]bool, 4), 0.01)
		if err != nil {
			t.Fatal(err)
		}
		for j, p := range pt {
			if off := back[j].Start().Dist(p); off > 1e-6 {
				t.Fatalf("corner %d comes back %g mm off", j+1, off)
			}
		}
	})
}

// stadium is two straight sides with half circles of 50 mm between.
func stadium() []Path {
	return []Path{
		Polyline(Pt(0, 0), Pt(200, 0)),
		arcPath(Pt(200, 50), 50, -math.Pi/2, math.Pi/2),
		Polyline(Pt(200, 100), Pt(0, 100)),
		arcPath(Pt(0, 50), 50, math.Pi/2, 3*math.Pi/2),
	}
}

// Where the line runs smoothly on, the corner moves straight out and carries
// the neighbour's end, whose other end and directions stay; two that are
// shifted alike go on smoothly; a held neighbour is met by a step.
func TestShiftingWhereTheLineRunsOn(t *testing.T) {
	ring := stadium()
	got, err := ShiftEdges(ring, []float64{8, 0, 0, 0}, make([]bool, 4), 0.01)
	if err != nil {
		t.Fatal(err)
	}
	closedRing(t, got)
	if p, q := got[0].Start(), got[0].End(); p.Dist(Pt(0, -8)) > 1e-9 || q.Dist(Pt(200, -8)) > 1e-9 {
		t.Errorf("the side runs from %v to %v", p, q)
	}
	if d := got[1].End().Dist(Pt(200, 100)); d > 1e-9 || got[1].StartDir().Sub(Vec{X: 1}).Len() > 1e-9 || len(got[1]) != len(ring[1]) {
		t.Errorf("the half circle ends %g mm off, sets off towards %v", d, got[1].StartDir())
	}
	alike, err := ShiftEdges(ring, []float64{8, 8, 8, 8}, make([]bool, 4), 0.01)
	if err != nil {
		t.Fatal(err)
	}
	closedRing(t, alike)
	for _, c := range alike[1] {
		if d := math.Abs(c.At(0.5).Dist(Pt(200, 50)) - 58); d > 0.01 {
			t.Errorf("the half circle is %g mm off that of 58 mm", d)
		}
	}
	held, err := ShiftEdges(ring, []float64{8, 0, 0, 0}, []bool{false, true, false, true}, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	closedRing(t, held)
	for j := 1; j < 4; j++ {
		for k, c := range held[j] {
			if c != ring[j][k] {
				t.Errorf("edge %d moved though its neighbour alone was shifted", j+1)
			}
		}
	}
	if p := held[0].Start(); p.Dist(Pt(0, 0)) > 1e-9 || len(held[0]) != 3 {
		t.Errorf("the step starts at %v, %d parts", p, len(held[0]))
	}
}

func TestShiftsThatCannotBe(t *testing.T) {
	ring := []Path{Polyline(Pt(0, 0), Pt(100, 0)), Polyline(Pt(100, 0), Pt(80, 40)), Polyline(Pt(80, 40), Pt(20, 40)), Polyline(Pt(20, 40), Pt(0, 0))}
	var at *EdgeError
	if _, err := ShiftEdges(ring, []float64{-60, 0, 0, 0}, make([]bool, 4), 0.01); !errors.As(err, &at) {
		t.Errorf("a side was shifted right through the piece: %v", err)
	}
	for name, f := range map[string]func() ([]Path, error){
		"no edges":  func() ([]Path, error) { return ShiftEdges(nil, nil, nil, 0.01) },
		"one edge":  func() ([]Path, error) { return ShiftEdges([]Path{wholeStadium()}, []float64{1}, []bool{false}, 0.01) },
		"not told":  func() ([]Path, error) { return ShiftEdges(ring, make([]float64, 4), nil, 0.01) },
		"tolerance": func() ([]Path, error) { return ShiftEdges(ring, []float64{1, 0, 0, 0}, make([]bool, 4), 0) },
		"open":      func() ([]Path, error) { return ShiftEdges(ring[:3], make([]float64, 3), make([]bool, 3), 0.01) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func wholeStadium() Path {
	var out Path
	for _, e := range stadium() {
		out = append(out, e...)
	}
	return out
}
