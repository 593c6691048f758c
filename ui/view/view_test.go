package view_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"quarterstep/model/geom"
	"quarterstep/ui/view"
)

func drawView(t *rapid.T) view.View {
	return view.View{
		Scale:  rapid.Float64Range(view.MinScale, view.MaxScale).Draw(t, "scale"),
		Origin: geom.Pt(rapid.Float64Range(-3000, 3000).Draw(t, "x"), rapid.Float64Range(-3000, 3000).Draw(t, "y")),
	}
}

func drawPx(t *rapid.T, label string) view.Px {
	return view.Px{
		X: rapid.Float64Range(-500, 3000).Draw(t, label+" x"),
		Y: rapid.Float64Range(-500, 2000).Draw(t, label+" y"),
	}
}

func TestPlacesGoThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, p := drawView(t), drawPx(t, "at")
		if d := v.ToPx(v.ToMM(p)).Sub(p).Len(); d > 1e-6 {
			t.Fatalf("came back %g px off", d)
		}
		q := v.Affine().Apply(v.ToMM(p))
		if d := (view.Px{X: q.X, Y: q.Y}).Sub(p).Len(); d > 1e-6 {
			t.Fatalf("Affine differs from ToPx by %g px", d)
		}
	})
}

func TestZoomHoldsThePlaceUnderThePointer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, at := drawView(t), drawPx(t, "at")
		factor := rapid.Float64Range(0.01, 100).Draw(t, "factor")
		z := v.Zoom(factor, at)
		if d := z.ToMM(at).Dist(v.ToMM(at)); d*z.Scale > 1e-6 {
			t.Fatalf("the place under the pointer moved %g px", d*z.Scale)
		}
		if z.Scale < view.MinScale || z.Scale > view.MaxScale {
			t.Fatalf("scale %g", z.Scale)
		}
	})
}

func TestSlideGoesWithTheHand(t *testing.T) {
	v := view.View{Scale: 2, Origin: geom.Pt(10, 20)}
	p := geom.Pt(50, 60)
	d := v.Slide(view.Px{X: 7, Y: -3}).ToPx(p).Sub(v.ToPx(p))
	if math.Abs(d.X-7) > 1e-9 || math.Abs(d.Y+3) > 1e-9 {
		t.Errorf("the paper moved %v, want 7 right and 3 up", d)
	}
}

func TestFitShowsAllWithAMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := geom.Pt(rapid.Float64Range(-2000, 2000).Draw(t, "x"), rapid.Float64Range(-2000, 2000).Draw(t, "y"))
		box := geom.Box{Min: at, Max: at.Add(geom.Vec{
			X: rapid.Float64Range(20, 3000).Draw(t, "wide"), Y: rapid.Float64Range(20, 3000).Draw(t, "high"),
		})}
		const w, h, margin = 1200, 700, 30
		v := view.Fit(box, w, h, margin)
		lo, hi := v.ToPx(box.Min), v.ToPx(box.Max)
		const slack = 1e-6
		if lo.X < margin-slack || lo.Y < margin-slack || hi.X > w-margin+slack || hi.Y > h-margin+slack {
			t.Fatalf("shown from %v to %v", lo, hi)
		}
		free := min(lo.X, lo.Y, w-hi.X, h-hi.Y)
		if v.Scale < view.MaxScale && free > margin+slack {
			t.Fatalf("%g px free on every side, want %d", free, margin)
		}
	})
}

// A 5 cm test square is 188.98 px on a screen of 96 px an inch.
func TestActualIsTheScaleOfPaper(t *testing.T) {
	v := view.Fit(geom.Box{}, 800, 600, 10).Actual(96/25.4, view.Px{X: 400, Y: 300})
	got := v.ToPx(geom.Pt(50, 0)).X - v.ToPx(geom.Pt(0, 0)).X
	if math.Abs(got-50*96/25.4) > 1e-9 {
		t.Errorf("50 mm are %g px", got)
	}
}

func TestKeepLeavesSomethingInSight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := drawView(t)
		box := geom.Box{Min: geom.Pt(0, 0), Max: geom.Pt(600, 900)}
		const w, h, most = 1000, 600, 64
		k := v.Keep(box, w, h, most)
		lo, hi := k.ToPx(box.Min), k.ToPx(box.Max)
		needX, needY := min(most, hi.X-lo.X), min(most, hi.Y-lo.Y)
		const slack = 1e-6
		if min(hi.X, w)-max(lo.X, 0) < needX-slack || min(hi.Y, h)-max(lo.Y, 0) < needY-slack {
			t.Fatalf("shown from %v to %v", lo, hi)
		}
		if again := k.Keep(box, w, h, most); again.Origin.Dist(k.Origin)*k.Scale > 1e-6 {
			t.Fatalf("keeping twice moved on")
		}
	})
}

func TestNearestSpotWithinReach(t *testing.T) {
	v := view.View{Scale: 0.5}
	places := []geom.Point{geom.Pt(100, 100), geom.Pt(140, 100), geom.Pt(140, 100), geom.Pt(400, 400)}
	for _, c := range []struct {
		at   view.Px
		want int
	}{
		{view.Px{X: 50, Y: 50}, 0},
		{view.Px{X: 61, Y: 50}, 2}, // nearer to the right, and the later of two
		{view.Px{X: 50, Y: 72}, 0},
		{view.Px{X: 50, Y: 72.1}, -1},
		{view.Px{X: 200, Y: 178}, 3},
	} {
		if got, ok := v.Spot(c.at, places, view.HandleReach); got != c.want || ok != (c.want >= 0) {
			t.Errorf("at %v: spot %d, want %d", c.at, got, c.want)
		}
	}
}

func TestNearestLineAgainstADenseWalk(t *testing.T) {
	curve := geom.Path{{P0: geom.Pt(0, 0), P1: geom.Pt(80, 0), P2: geom.Pt(100, 40), P3: geom.Pt(100, 120)}}
	paths := []geom.Path{geom.Polyline(geom.Pt(0, 200), geom.Pt(300, 200)), curve}
	rapid.Check(t, func(t *rapid.T) {
		v := view.View{Scale: rapid.Float64Range(0.3, 5).Draw(t, "scale"), Origin: geom.Pt(-20, -20)}
		p := geom.Pt(rapid.Float64Range(-20, 320).Draw(t, "x"), rapid.Float64Range(-20, 220).Draw(t, "y"))
		at := v.ToPx(p)
		best, dist := -1, math.Inf(1)
		for i, path := range paths {
			for k := range 4001 {
				if d := path[0].At(float64(k) / 4000).Dist(p); d < dist {
					best, dist = i, d
				}
			}
		}
		dist *= v.Scale
		got, on, ok := v.Line(at, paths, view.LineReach)
		switch {
		case dist < view.LineReach-0.3 && (!ok || got != best):
			t.Fatalf("line %d is %.2f px away, got %d", best, dist, got)
		case dist > view.LineReach+0.3 && ok:
			t.Fatalf("the nearest line is %.2f px away, got %d", dist, got)
		case ok && math.Abs(v.ToPx(on).Sub(at).Len()-dist) > 0.3:
			t.Fatalf("place is %.2f px away, want %.2f", v.ToPx(on).Sub(at).Len(), dist)
		}
	})
}

func TestNearestLineAtTheOrigin(t *testing.T) {
	v := view.View{Scale: 1}
	if _, _, ok := v.Line(view.Px{}, []geom.Path{geom.Polyline(geom.Pt(-5, 2), geom.Pt(5, 2))}, view.LineReach); !ok {
		t.Error("a line 2 px from the corner of the board was missed")
	}
}

func TestSnapPrefersPlacesToLines(t *testing.T) {
	v := view.View{Scale: 1}
	places := []geom.Point{geom.Pt(10, 0)}
	paths := []geom.Path{geom.Polyline(geom.Pt(0, 0), geom.Pt(100, 0))}
	for _, c := range []struct {
		at   view.Px
		want geom.Point
		ok   bool
	}{
		{view.Px{X: 12, Y: 3}, geom.Pt(10, 0), true},
		{view.Px{X: 50, Y: 5}, geom.Pt(50, 0), true},
		{view.Px{X: 50, Y: 60}, geom.Pt(50, 60), false},
	} {
		got, ok := v.Snap(c.at, places, paths, 10)
		if ok != c.ok || got.Dist(c.want) > 0.2 {
			t.Errorf("at %v: %v %v, want %v %v", c.at, got, ok, c.want, c.ok)
		}
	}
}

func TestUpright(t *testing.T) {
	for _, c := range []struct{ in, want geom.Vec }{
		{geom.Vec{X: 100, Y: 3}, geom.Vec{X: 100}},
		{geom.Vec{X: -3, Y: 100}, geom.Vec{Y: 100}},
		{geom.Vec{X: 100, Y: 10}, geom.Vec{X: 100, Y: 10}},
		{geom.Vec{}, geom.Vec{}},
	} {
		if got := view.Upright(c.in, 2); got != c.want {
			t.Errorf("%v became %v, want %v", c.in, got, c.want)
		}
	}
}
