package target

import (
	"context"
	"errors"
	"image"
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
)

// Any target, tilted by as much as 35 degrees and 40 pixels across or more, is
// found as itself, to 0.3 pixels, its size to a pixel.
func TestFindAnyTarget(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		const w, h = 340, 320
		c := camera{
			w: w, h: h, dist: 100,
			tilt:   rapid.Float64Range(0, 35).Draw(rt, "tilt"),
			toward: rapid.Float64Range(0, 360).Draw(rt, "toward"),
			roll:   rapid.Float64Range(0, 360).Draw(rt, "roll"),
			k1:     rapid.Float64Range(-0.05, 0.05).Draw(rt, "k1"),
		}
		one := laid{
			code: rapid.IntRange(0, Codes-1).Draw(rt, "code"), radius: rapid.Float64Range(7.5, 9.5).Draw(rt, "radius"),
			at:   geom.Pt(rapid.Float64Range(-8, 8).Draw(rt, "x"), rapid.Float64Range(-8, 8).Draw(rt, "y")),
			turn: rapid.Float64Range(0, 7).Draw(rt, "turn"),
		}
		light := rapid.Float64Range(0, 0.4).Draw(rt, "shade")
		s := onTable(one)
		g := c.photograph(t, func(p geom.Point) float64 { return s(p) * (1 - light*(0.5+0.005*p.X)) }, 3, rapid.Uint64().Draw(rt, "seed"))
		found, err := Find(context.Background(), g)
		if err != nil || len(found) != 1 {
			rt.Fatalf("%d targets: %v", len(found), err)
		}
		f := found[0]
		if f.Code != one.code {
			rt.Errorf("code %d read as %d", one.code, f.Code)
		}
		if d := f.Centre.Dist(c.project(one.at)); d > 0.3 {
			rt.Errorf("its middle is %.3f px off", d)
		}
		longest := 0.0
		for k := range 180 {
			v := geom.Vec(round(one.radius, float64(k)*math.Pi/180))
			longest = max(longest, c.project(one.at.Add(v)).Dist(c.project(one.at.Add(v.Scale(-1))))/2)
		}
		if math.Abs(f.Size-longest) > 1 {
			rt.Errorf("size %.1f px, shown with %.1f", f.Size, longest)
		}
		var edge []geom.Point
		for k := range 720 {
			edge = append(edge, c.project(one.at.Add(geom.Vec(round(one.radius, float64(k)*math.Pi/360)))))
		}
		for k, p := range f.Rim {
			nearest := math.Inf(1)
			for _, q := range edge {
				nearest = min(nearest, p.Dist(q))
			}
			if nearest > 0.6 {
				rt.Errorf("place %d of its rim is %.2f px off", k, nearest)
			}
		}
	})
}

// Many targets in one photo are found with none left out and none twice.
func TestFindAllOfASheet(t *testing.T) {
	c := camera{w: 800, h: 800, mid: geom.Pt(105, 105), dist: 240, tilt: 18, toward: 40, roll: -12, k1: 0.02}
	var all []laid
	for i := range 9 {
		all = append(all, laid{i, geom.Pt(70*float64(i%3)+35, 70*float64(i/3)+35), 8, float64(i)})
	}
	found, err := Find(context.Background(), c.photograph(t, onTable(all...), 4, 7))
	if err != nil || len(found) != len(all) {
		t.Fatalf("%d of %d targets: %v", len(found), len(all), err)
	}
	for i, f := range found {
		if d := f.Centre.Dist(c.project(all[i].at)); f.Code != i || d > 0.15 {
			t.Errorf("target %d was read as %d, %.3f px off", i, f.Code, d)
		}
	}
}

// What looks like a target in part is none: rings, wheels, buttons, checkers,
// a target's negative, one cut off by a fold, letters, noise.
func TestFindNoneWhereThereIsNone(t *testing.T) {
	ring := func(p geom.Point) bool { r := geom.Vec(p).Len(); return r >= RingInside && r <= 1 }
	without := map[string]func(geom.Point) bool{
		"ring":      ring,
		"disc":      func(p geom.Point) bool { return geom.Vec(p).Len() <= 1 },
		"two rings": func(p geom.Point) bool { r := geom.Vec(p).Len(); return ring(p) || r > 0.25 && r < 0.45 },
		"button": func(p geom.Point) bool {
			return ring(p) || geom.Pt(math.Abs(p.X), math.Abs(p.Y)).Dist(geom.Pt(0.2, 0.2)) < 0.12
		},
		"wheel of eight": func(p geom.Point) bool {
			return ring(p) || geom.Vec(p).Len() < 0.45 && int(math.Floor(4*math.Atan2(p.Y, p.X)/math.Pi))%2 == 0
		},
		"half disc": func(p geom.Point) bool { return ring(p) || geom.Vec(p).Len() < 0.45 && p.X > 0 },
		"no dots":   func(p geom.Point) bool { return geom.Vec(p).Len() < 0.5 && Dark(0, p) || ring(p) },
		"two dots": func(p geom.Point) bool {
			return Dark(0, p) || dotPlace(3, 0).Dist(p) < DotRadius
		},
		"negative": func(p geom.Point) bool { return geom.Vec(p).Len() < 1.1 && !Dark(3, p) },
		"no ring":  func(p geom.Point) bool { return geom.Vec(p).Len() < RingInside && Dark(3, p) },
		"half":     func(p geom.Point) bool { return p.Y < 0.1 && Dark(3, p) },
		"chess":    func(p geom.Point) bool { return (int(math.Floor(2*p.X))+int(math.Floor(2*p.Y)))%2 == 0 },
		"letter":   func(p geom.Point) bool { return ring(p) || math.Abs(p.X) < 0.1 && math.Abs(p.Y) < 0.5 },
		"square": func(p geom.Point) bool {
			m := max(math.Abs(p.X), math.Abs(p.Y))
			return m < 1 && m > 0.8 || m < 0.45 && (p.X > 0) == (p.Y > 0)
		},
		"hatched":   func(p geom.Point) bool { return math.Mod(math.Abs(p.X+p.Y), 0.3) < 0.1 },
		"all white": func(geom.Point) bool { return false },
	}
	c := camera{w: 200, h: 200, dist: 100, tilt: 12, toward: 70, roll: 20}
	for name, dark := range without {
		g := c.photograph(t, func(p geom.Point) float64 {
			if dark(geom.Pt(p.X/25, p.Y/25)) {
				return 20
			}
			return 215
		}, 3, 5)
		if found, err := Find(context.Background(), g); err != nil || len(found) > 0 {
			t.Errorf("%s: %v, %v", name, found, err)
		}
	}
	// The same camera does find one.
	if found, _ := Find(context.Background(), c.photograph(t, onTable(laid{3, geom.Pt(0, 0), 25, 0}), 3, 5)); len(found) != 1 {
		t.Errorf("%d targets where there is one", len(found))
	}
}

// Codes differ by two dots or more from each other in every turn that a checker
// cannot tell apart, so that one dot misread is never another target.
func TestCodesAreApart(t *testing.T) {
	if Codes != 60 {
		t.Errorf("%d codes", Codes)
	}
	for i, a := range marks {
		if halfTurn(a) == a {
			t.Errorf("code %d looks the same by half a turn", i)
		}
		for j, b := range marks[:i] {
			if d := min(bits.OnesCount8(a^b), bits.OnesCount8(a^halfTurn(b))); d < 2 {
				t.Errorf("codes %d and %d differ by %d dots", i, j, d)
			}
		}
		if c, ok := codeOf(halfTurn(a)); !ok || c != i {
			t.Errorf("code %d turned is %d", i, c)
		}
	}
}

// FuzzFind: any picture at all is looked through without a fault, in time.
func FuzzFind(f *testing.F) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{0, 1, 7, 300, 90_000} {
		b := make([]byte, n)
		for i := range b {
			b[i] = byte(r.Uint32())
		}
		f.Add(b, uint16(300))
	}
	c := camera{w: 160, h: 160, dist: 80, tilt: 20}
	f.Add(c.photograph(f, onTable(laid{5, geom.Pt(0, 0), 20, 1}), 2, 1).Pix, uint16(160))
	f.Fuzz(func(t *testing.T, pix []byte, wide uint16) {
		w := max(int(wide), 1)
		h := len(pix) / w
		g := &image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, h)}
		began := time.Now()
		found, err := Find(context.Background(), g)
		if err != nil {
			t.Fatal(err)
		}
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("%d pixels took %v", len(pix), took)
		}
		for _, f := range found {
			if !f.Centre.Finite() || f.Code < 0 || f.Code >= Codes || !(f.Size > 0) {
				t.Errorf("found %+v", f)
			}
		}
	})
}

func TestFindIsEnded(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Find(ctx, image.NewGray(image.Rect(0, 0, 300, 300))); !errors.Is(err, context.Canceled) {
		t.Errorf("ended: %v", err)
	}
}

// BenchmarkFind12MP is the time for a photo of noise and boards, 12 megapixels.
func BenchmarkFind12MP(b *testing.B) {
	r := rand.New(rand.NewPCG(8, 9))
	g := image.NewGray(image.Rect(0, 0, 3000, 4000))
	for i := range g.Pix {
		g.Pix[i] = uint8(150 + 6*r.NormFloat64())
		if i%3000%400 < 12 {
			g.Pix[i] /= 3
		}
	}
	for b.Loop() {
		if _, err := Find(context.Background(), g); err != nil {
			b.Fatal(err)
		}
	}
}
