package paint_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// A long line of dashes seen in the middle has its dashes where the pattern says,
// 10 km from its start.
func TestDashesFarFromTheStart(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(4-1.65e7, 20), geom.Pt(4+1.65e7, 20)), Width: 4, Dash: []float64{9, 3, 1.5, 3}, Alpha: 1}
	got := cover(t, scene.Layer{Lines: []scene.Line{line}})
	want := exact(func(p geom.Point) bool {
		at := math.Mod(p.X-4+165, 16.5)
		return (at < 9 || at >= 12 && at < 13.5) && p.Y >= 18 && p.Y < 22
	})
	if d := rms(got, want); d > 0.01 {
		t.Errorf("%.4f away from the exact dashes", d)
	}
}

// Lines of every bend, from straight on to doubled back, cover the places near
// them, no more and no less, solid and, with round ends, dashed.
func TestBendsCoverTheirArea(t *testing.T) {
	for _, width := range []float64{1.5, 3, 8} {
		for turn := 0.0; turn <= 180; turn += 7.5 {
			s, c := math.Sincos(turn * math.Pi / 180)
			mid := geom.Pt(32.3, 31.6)
			pts := []geom.Point{mid.Add(geom.Vec{X: -22, Y: -3}), mid, mid.Add(geom.Vec{X: 22*c + 3*s, Y: 22*s - 3*c})}
			got := cover(t, scene.Layer{Lines: []scene.Line{{Path: geom.Polyline(pts...), Width: width, Round: true, Alpha: 1}}})
			if d := rms(got, exact(func(p geom.Point) bool { return nearPolyline(p, pts, width/2) })); d > 0.01 {
				t.Errorf("width %g, %g degrees: %.4f away from the exact cover", width, turn, d)
			}
		}
	}
}

// Round dashes reach half a width beyond each end.
func TestRoundDashes(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(6, 20), geom.Pt(56, 37)), Width: 4, Dash: []float64{5, 8}, Round: true, Alpha: 1}
	dir := geom.Vec{X: 50, Y: 17}
	long := dir.Len()
	got := cover(t, scene.Layer{Lines: []scene.Line{line}})
	want := exact(func(p geom.Point) bool {
		for at := 0.0; at < long; at += 13 {
			a, b := line.Path.Start().Add(dir.Scale(at/long)), line.Path.Start().Add(dir.Scale(min(at+5, long)/long))
			if nearPolyline(p, []geom.Point{a, b}, 2) {
				return true
			}
		}
		return false
	})
	if d := rms(got, want); d > 0.01 {
		t.Errorf("%.4f away from the exact dashes", d)
	}
}

// Straight lines of dashes in every direction have the ink of their dashes: none
// is lost or doubled where rows and pixels meet. Cover by distance is off by up to
// a twentieth where a thin line runs along the diagonals of the pixels.
func TestDashesHaveTheirInk(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		width := rapid.Float64Range(2, 9).Draw(rt, "width")
		on, off := rapid.Float64Range(2, 9).Draw(rt, "on"), rapid.Float64Range(2, 9).Draw(rt, "off")
		s, c := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(rt, "angle"))
		a := geom.Pt(32-25*c, 32-25*s)
		line := geom.Polyline(a, geom.Pt(32, 32), geom.Pt(32+25*c, 32+25*s))
		var ink float64
		for _, v := range cover(t, scene.Layer{Lines: []scene.Line{{Path: line, Width: width, Dash: []float64{on, off}, Alpha: 1}}}) {
			ink += v
		}
		drawn := math.Floor(50/(on+off))*on + min(math.Mod(50, on+off), on)
		if math.Abs(ink-width*drawn) > 0.05*width*drawn+1.5 {
			rt.Fatalf("ink %.1f px², want %.1f", ink, width*drawn)
		}
	})
}
