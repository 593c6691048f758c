package straight

import (
	"image"
	"math"
	"testing"

	"quarterstep/model/geom"
)

// circleSeen is a circle of radius r about mid, as m shows it.
func circleSeen(m Map, mid geom.Point, r float64) Round {
	out := Round{Middle: m.Pixel(mid)}
	for k := range 24 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 24)
		out.Edge = append(out.Edge, m.Pixel(mid.Add(geom.Vec{X: r * c, Y: r * s})))
	}
	return out
}

// A circle is out of round by nothing under the map that shows it; under one
// that stretches it by a share, by the share in its doubts.
func TestOutOfRound(t *testing.T) {
	truth := camera26(photoWide, photoHigh, geom.Pt(0, 0), 700, 17, 50, 20, 0.02)
	for _, stretch := range []float64{0, 0.002, 0.01, 0.03} {
		sum := 0.0
		m := moved(truth, geom.ScaleXY(1+stretch, 1))
		circleSeen(truth, geom.Pt(150, -80), 10).outOfRound(m, func(d float64) { sum += d * d })
		if want := stretch / roundNoise; math.Abs(math.Sqrt(sum)-want) > 0.02*want+1e-6 {
			t.Errorf("stretched by %g: out of round by %.3f doubts, want %.3f", stretch, math.Sqrt(sum), want)
		}
	}
}

// Four places of a rectangle say nothing of the lens; circles printed there do.
func TestRoundsTellTheLens(t *testing.T) {
	shape := []geom.Point{{X: -200, Y: -280}, {X: 200, Y: -280}, {X: 200, Y: 280}, {X: -200, Y: 280}}
	for _, k1 := range []float64{-0.04, -0.01, 0, 0.03} {
		truth := camera26(photoWide, photoHigh, geom.Pt(0, 0), 700, 9, 70, -8, k1)
		groups := seenBy(truth, shape, []geom.Affine{geom.Identity()}, 0, 1)
		var rounds []Round
		for i, p := range shape {
			rounds = append(rounds, circleSeen(truth, p, 8+0.1*float64(i))) // of whatever size
		}
		size := image.Pt(photoWide, photoHigh)
		without, err := FromGroups(groups, nil, size, Shot{Focal35: 26}, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		with, err := FromGroups(groups, rounds, size, Shot{Focal35: 26}, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		off, offWithout := offBetween(with.Map, truth, groups), offBetween(without.Map, truth, groups)
		t.Logf("K1 %.3f: off by up to %.2f mm, %.2f without", k1, off, offWithout)
		if off > 0.25 || with.Bend > without.Bend/3 || with.Within > without.Within {
			t.Errorf("K1 %.3f: off by up to %.2f mm (%.2f without), K1 unsure by %.4f (%.4f without)", k1, off, offWithout, with.Bend, without.Bend)
		}
		if math.Abs(k1) > 0.02 && off > offWithout/2 {
			t.Errorf("K1 %.3f: off by up to %.2f mm, %.2f without", k1, off, offWithout)
		}
	}
}
