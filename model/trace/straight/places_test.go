package straight

import (
	"errors"
	"image"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
)

// seenBy is what a camera with the map m sees of groups that lie at moves, each
// place off by noise pixels.
func seenBy(m Map, shape []geom.Point, moves []geom.Affine, noise float64, seed uint64) []Group {
	r := rand.New(rand.NewPCG(seed, 5))
	var out []Group
	for _, t := range moves {
		var g Group
		for _, p := range shape {
			off := geom.Vec{X: noise * r.NormFloat64(), Y: noise * r.NormFloat64()}
			g = append(g, Pair{m.Pixel(t.Apply(p)).Add(off), p})
		}
		out = append(out, g)
	}
	return out
}

// strip is five places one below the other, every other one to the side.
var strip = []geom.Point{{X: -6, Y: -120}, {X: 6, Y: -60}, {X: -6}, {X: 6, Y: 60}, {X: -6, Y: 120}}

// around are strips at the four sides of a piece 300 by 420 mm, not quite
// straight.
func around() []geom.Affine {
	at := func(x, y, turn float64) geom.Affine {
		return geom.Translate(geom.Vec{X: x, Y: y}).Mul(geom.Rotate(turn * math.Pi / 180))
	}
	return []geom.Affine{at(-185, 20, 3), at(190, -30, 178), at(12, -240, 92), at(-25, 245, -87)}
}

const photoWide, photoHigh = 3000, 4000

// A photo with strips at all sides is straightened as exactly as the places are
// found: without noise to five thousandths of a millimetre, whatever the
// camera, with noise in proportion to it, and what is said of the far corners
// and of the lens holds.
func TestGroupsStraightenTheWholePhoto(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		truth := camera26(photoWide, photoHigh, geom.Pt(draw(-30, 30, "x"), draw(-30, 30, "y")), draw(620, 800, "dist"),
			draw(0, 28, "tilt"), draw(0, 360, "toward"), draw(0, 360, "roll"), draw(-0.04, 0.04, "k1"))
		noise := rapid.SampledFrom([]float64{0, 0.03, 0.1, 0.3}).Draw(rt, "noise")
		groups := seenBy(truth, strip, around(), noise, rapid.Uint64().Draw(rt, "seed"))
		got, err := FromGroups(groups, nil, image.Pt(photoWide, photoHigh), Shot{Focal35: 26}, max(noise/5, 1e-3))
		if err != nil {
			rt.Fatal(err)
		}
		within := offBetween(got.Map, truth, groups)
		inner := geom.BoxOf(geom.Pt(0, 0), geom.Pt(photoWide, photoHigh)).Grow(-sides * photoWide)
		inner.Min.Y, inner.Max.Y = sides*photoHigh, (1-sides)*photoHigh
		far := offIn(inner, got.Map, truth, groups)
		if within > 5e-3+6*noise || within > 5e-3+6*got.Within || far > 0.01+6*got.Far {
			rt.Errorf("noise of %.2f px: off by %.4f mm between the strips, %.4f farther out, said %.4f and %.4f", noise, within, far, got.Within, got.Far)
		}
		if d := math.Abs(got.Map.Lens.K1 - truth.Lens.K1); d > 1e-4+6*got.Bend {
			rt.Errorf("K1 off by %.5f, said %.5f", d, got.Bend)
		}
		if got.Misfit.Points != 20 || got.Misfit.RMS > 1e-3+noise {
			rt.Errorf("misfit %+v", got.Misfit)
		}
	})
}

// offBetween is how far m lies from truth in the box of the groups, in mm, the
// papers' frames brought together by the groups' places.
func offBetween(m, truth Map, groups []Group) float64 {
	return offIn(geom.BoxOf(pixelsOf(groups)...), m, truth, groups)
}

func offIn(box geom.Box, m, truth Map, groups []Group) float64 {
	px, worst := pixelsOf(groups), 0.0
	t, _ := geom.RigidFit(inMM(m, px), inMM(truth, px))
	for i := range 81 {
		p := geom.Pt(box.Min.X+box.Width()*float64(i%9)/8, box.Min.Y+box.Height()*float64(i/9)/8)
		worst = max(worst, t.Apply(m.MM(p)).Dist(truth.MM(p)))
	}
	return worst
}

func pixelsOf(groups []Group) []geom.Point {
	var px []geom.Point
	for _, g := range groups {
		for _, p := range g {
			px = append(px, p.Pixel)
		}
	}
	return px
}

// The camera need not say its focal length, nor the strips be all there; what is
// missing shows in how sure it is. A known lens makes it surer.
func TestGroupsWithLessKnown(t *testing.T) {
	truth := camera26(photoWide, photoHigh, geom.Pt(0, 0), 700, 11, 30, 4, 0.02)
	size := image.Pt(photoWide, photoHigh)
	all := around()
	said := map[string]float64{}
	for _, c := range []struct {
		name  string
		moves []geom.Affine
		shot  Shot
		most  float64
	}{
		{"all", all, Shot{Focal35: 26}, 0.25},
		{"no focal length", all, Shot{}, 0.4},
		{"one missing", all[:3], Shot{Focal35: 26}, 0.3},
		{"two beside", all[:2], Shot{Focal35: 26}, 0.6},
		{"two beside, lens known", all[:2], Shot{Focal35: 26, Lens: &truth.Lens}, 0.3},
	} {
		groups := seenBy(truth, strip, c.moves, 0.05, 3)
		got, err := FromGroups(groups, nil, size, c.shot, 0.005)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		said[c.name] = got.Within
		off := offBetween(got.Map, truth, groups)
		t.Logf("%s: off by up to %.3f mm, said %.3f, far %.3f", c.name, off, got.Within, got.Far)
		if off > c.most || off > 4*got.Within || got.Far < got.Within {
			t.Errorf("%s: off by up to %.3f mm, said %.3f", c.name, off, got.Within)
		}
		if known := c.shot.Lens != nil; known != (got.Bend == 0) {
			t.Errorf("%s: the lens is unsure by %g", c.name, got.Bend)
		}
	}
	if !(said["all"] < said["one missing"] && said["one missing"] < said["two beside"] && said["two beside, lens known"] < said["two beside"]) {
		t.Errorf("how sure it is does not go with what is known: %v", said)
	}
}

// Any camera of a phone does, wide or far, though a photo that was sent on says
// nothing of it.
func TestGroupsByAnyCamera(t *testing.T) {
	for _, focal := range []float64{13, 18, 26, 35, 52, 77} {
		for _, tilt := range []float64{0, 8, 20} {
			truth := cameraOf(focal, photoWide, photoHigh, geom.Pt(0, 0), 700*focal/26, tilt, 40, 0, 0.01)
			groups := seenBy(truth, strip, around(), 0.05, 3)
			got, err := FromGroups(groups, nil, image.Pt(photoWide, photoHigh), Shot{}, 0.05)
			if err != nil {
				t.Fatalf("%g mm, tilted by %g: %v", focal, tilt, err)
			}
			if off := offBetween(got.Map, truth, groups); off > 0.25 || off > 3*got.Within {
				t.Errorf("%g mm, tilted by %g: off by up to %.2f mm, said %.2f", focal, tilt, off, got.Within)
			}
		}
	}
}

// Four places of one rectangle do, as a hand measured them: unsure by as much as
// the hand.
func TestGroupsByOneRectangle(t *testing.T) {
	truth := camera26(photoWide, photoHigh, geom.Pt(200, 280), 700, 14, 70, -8, 0)
	shape := []geom.Point{{}, {X: 400}, {X: 400, Y: 560}, {Y: 560}}
	groups := seenBy(truth, shape, []geom.Affine{geom.Identity()}, 0, 1)
	got, err := FromGroups(groups, nil, image.Pt(photoWide, photoHigh), Shot{Focal35: 26}, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	if off := offBetween(got.Map, truth, groups); off > 0.01 {
		t.Errorf("off by up to %.4f mm", off)
	}
	// The hand is off by a millimetre.
	groups[0][1].MM.X++
	got, err = FromGroups(groups, nil, image.Pt(photoWide, photoHigh), Shot{Focal35: 26}, 0.7)
	if err != nil {
		t.Fatal(err)
	}
	if off := offBetween(got.Map, truth, groups); off > 3*got.Within || got.Within < 0.5 || got.Within > 4 {
		t.Errorf("off by up to %.2f mm, said %.2f", off, got.Within)
	}
}

func TestGroupsRefuse(t *testing.T) {
	truth := camera26(photoWide, photoHigh, geom.Pt(0, 0), 700, 5, 0, 0, 0)
	size := image.Pt(photoWide, photoHigh)
	here := []geom.Affine{geom.Identity()}
	line := []geom.Point{{X: -200}, {X: -100}, {}, {X: 100}, {X: 200}}
	for _, c := range []struct {
		name   string
		groups []Group
		want   error
	}{
		{"three places", seenBy(truth, strip[:3], here, 0, 1), nil},
		{"nothing", nil, nil},
		{"single places only", seenBy(truth, strip[:1], append(around(), around()...), 0, 1), errOneLine},
		{"on one line", seenBy(truth, line, here, 0, 1), errOneLine},
		{"all in one place", seenBy(truth, make([]geom.Point, 5), here, 0, 1), errOneLine},
		{"no place", []Group{{{Pixel: geom.Pt(math.NaN(), 0)}, {}, {}, {}}}, nil},
	} {
		_, err := FromGroups(c.groups, nil, size, Shot{}, 0.05)
		if err == nil || !strings.HasPrefix(err.Error(), "straightening: ") || c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// BenchmarkFromGroups is the time for four strips.
func BenchmarkFromGroups(b *testing.B) {
	truth := camera26(photoWide, photoHigh, geom.Pt(0, 0), 700, 11, 30, 4, 0.02)
	groups := seenBy(truth, strip, around(), 0.05, 3)
	for b.Loop() {
		if _, err := FromGroups(groups, nil, image.Pt(photoWide, photoHigh), Shot{}, 0.01); err != nil {
			b.Fatal(err)
		}
	}
}
