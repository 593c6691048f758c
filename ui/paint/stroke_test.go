package paint_test

import (
	"image"
	"image/color"
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"
	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

const side = 64 // px of the test pictures

// plain is a palette whose words are black and whose Table is white, so that a
// picture reads as cover.
func plain() palette.Palette {
	p := palette.Light
	p.Ink, p.Table = color.NRGBA{0, 0, 0, 255}, color.NRGBA{255, 255, 255, 255}
	return p
}

var plainPainter = sync.OnceValue(func() *paint.Painter {
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		panic(err)
	}
	return paint.New(fonts, plain())
})

// picture paints a layer on white.
func picture(layer scene.Layer) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	paint.Clear(img, color.NRGBA{255, 255, 255, 255})
	plainPainter().Paint(img, paint.Screen{View: view.View{Scale: 1}, Factor: 1}, layer)
	return img
}

// cover paints a layer in black on white and returns how dark each pixel is,
// 0 to 1.
func cover(t testing.TB, layer scene.Layer) []float64 {
	t.Helper()
	img := picture(layer)
	out := make([]float64, side*side)
	for i := range out {
		if img.Pix[4*i] != img.Pix[4*i+1] || img.Pix[4*i+3] != 255 {
			t.Fatalf("pixel %d is not a grey: %v", i, img.Pix[4*i:4*i+4])
		}
		out[i] = 1 - float64(img.Pix[4*i])/255
	}
	return out
}

// exact is the cover of the places for which inside holds, by 10 x 10 samples a
// pixel: plain counting, sharing nothing with the painter.
func exact(inside func(geom.Point) bool) []float64 {
	const n = 10
	out := make([]float64, side*side)
	for i := range out {
		x, y := float64(i%side), float64(i/side)
		for s := range n * n {
			if inside(geom.Pt(x+(float64(s%n)+0.5)/n, y+(float64(s/n)+0.5)/n)) {
				out[i] += 1.0 / (n * n)
			}
		}
	}
	return out
}

func rms(a, b []float64) float64 {
	var sum float64
	for i := range a {
		sum += (a[i] - b[i]) * (a[i] - b[i])
	}
	return math.Sqrt(sum / float64(len(a)))
}

// nearPolyline reports whether p lies within r of the polyline.
func nearPolyline(p geom.Point, pts []geom.Point, r float64) bool {
	for i := 1; i < len(pts); i++ {
		if far := pts[i].Dist(pts[i-1]) + r; p.Dist(pts[i]) > far {
			continue
		}
		ab, ap := pts[i].Sub(pts[i-1]), p.Sub(pts[i-1])
		t := min(max(ap.Dot(ab)/ab.Dot(ab), 0), 1)
		if ap.Sub(ab.Scale(t)).Len() <= r {
			return true
		}
	}
	return false
}

var curve = geom.Path{{P0: geom.Pt(6, 8), P1: geom.Pt(70, 4), P2: geom.Pt(-10, 60), P3: geom.Pt(56, 54)}}

// A round line of any width is as dark as the area it covers: within 2 % of full
// darkness over the picture, and its total ink within 2 %.
func TestLineCoversItsArea(t *testing.T) {
	pts := curve.Flatten(0.03)
	for _, width := range []float64{0.6, 1.5, 2.6, 11} {
		got := cover(t, scene.Layer{Lines: []scene.Line{{Path: curve, Width: width, Round: true, Alpha: 1}}})
		want := exact(func(p geom.Point) bool { return nearPolyline(p, pts, width/2) })
		if d := rms(got, want); d > 0.02 {
			t.Errorf("width %g: %.4f away from the exact cover", width, d)
		}
		var a, b float64
		for i := range got {
			a, b = a+got[i], b+want[i]
		}
		if math.Abs(a-b) > 0.02*b {
			t.Errorf("width %g: ink %.1f px², want %.1f", width, a, b)
		}
	}
}

// Corners are filled, and no pixel is painted twice: a half-transparent zigzag
// is nowhere darker than half.
func TestCornersAreFilledOnce(t *testing.T) {
	zigzag := geom.Polyline(geom.Pt(8, 50), geom.Pt(24, 12), geom.Pt(32, 50), geom.Pt(40, 12), geom.Pt(56, 50), geom.Pt(8, 30))
	pts := zigzag.Flatten(0.01)
	got := cover(t, scene.Layer{Lines: []scene.Line{{Path: zigzag, Width: 7, Round: true, Alpha: 0.5}}})
	want := exact(func(p geom.Point) bool { return nearPolyline(p, pts, 3.5) })
	for i := range got {
		if got[i] > 0.505 {
			t.Fatalf("pixel %d,%d is %.3f dark", i%side, i/side, got[i])
		}
		if want[i] == 1 && got[i] < 0.48 {
			t.Fatalf("pixel %d,%d inside the line is only %.3f dark", i%side, i/side, got[i])
		}
	}
}

// Cut ends stop where the line ends: a level line from 10 to 30, 6 px wide,
// covers 120 px² whatever part of a pixel it begins in.
func TestCutEndsStopAtTheEnd(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x := rapid.Float64Range(5, 12).Draw(rt, "x")
		y := rapid.Float64Range(20, 40).Draw(rt, "y")
		line := geom.Polyline(geom.Pt(x, y), geom.Pt(x+20, y))
		var ink float64
		for _, v := range cover(t, scene.Layer{Lines: []scene.Line{{Path: line, Width: 6, Alpha: 1}}}) {
			ink += v
		}
		if math.Abs(ink-120) > 1.5 {
			rt.Fatalf("ink %.2f px², want 120", ink)
		}
	})
}

// Dashes come in the right lengths and places: along a level line each pixel is
// as dark as the pattern says.
func TestDashesFollowThePattern(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(4, 20), geom.Pt(60, 20)), Width: 4, Dash: []float64{9, 3, 1.5, 3}, Alpha: 1}
	got := cover(t, scene.Layer{Lines: []scene.Line{line}})
	drawn := func(p geom.Point) bool {
		at := math.Mod(p.X-4, 16.5)
		on := at < 9 || at >= 12 && at < 13.5
		return p.X >= 4 && p.X < 60 && on && p.Y >= 18 && p.Y < 22
	}
	if d := rms(got, exact(drawn)); d > 0.005 {
		t.Errorf("%.4f away from the exact dashes", d)
	}
}

// A dash that goes round a corner is still one dash: the ink is the drawn share
// of the whole line.
func TestDashesGoRoundCurves(t *testing.T) {
	length, err := curve.Length(1e-6)
	if err != nil {
		t.Fatal(err)
	}
	var ink float64
	for _, v := range cover(t, scene.Layer{Lines: []scene.Line{{Path: curve, Width: 2, Dash: []float64{5, 3}, Alpha: 1}}}) {
		ink += v
	}
	drawn := math.Floor(length/8)*5 + min(math.Mod(length, 8), 5)
	if math.Abs(ink-2*drawn) > 0.03*2*drawn {
		t.Errorf("ink %.1f px², want %.1f", ink, 2*drawn)
	}
}

// A shifted line lies aside by as much, to the right as it is walked: walking
// to the right on the paper, that is downwards.
func TestShiftedLineLiesAside(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(10, 30), geom.Pt(50, 30)), Width: 4, Shift: 11, Alpha: 1}
	got := cover(t, scene.Layer{Lines: []scene.Line{line}})
	want := exact(func(p geom.Point) bool { return p.X >= 10 && p.X < 50 && p.Y >= 39 && p.Y < 43 })
	if d := rms(got, want); d > 1e-3 {
		t.Errorf("%.4f away", d)
	}
}

func TestTickReachesAsFarAsItSays(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(20, 10), geom.Pt(20, 10.5)), Width: 4, Reach: 9, Alpha: 1}
	got := cover(t, scene.Layer{Lines: []scene.Line{line}})
	want := exact(func(p geom.Point) bool { return p.X >= 18 && p.X < 22 && p.Y >= 10 && p.Y < 19 })
	if d := rms(got, want); d > 1e-3 {
		t.Errorf("%.4f away", d)
	}
}

// A thin level or upright line is drawn on whole pixels, not smeared over two.
func TestThinStraightLinesAreCrisp(t *testing.T) {
	for _, y := range []float64{20, 20.2, 20.5, 20.9} {
		got := cover(t, scene.Layer{Lines: []scene.Line{{Path: geom.Polyline(geom.Pt(5, y), geom.Pt(60, y)), Width: 1, Alpha: 1}}})
		if dark := got[20*side+30]; dark < 0.99 {
			t.Errorf("at height %g the row is only %.2f dark", y, dark)
		}
	}
}

// Fills cover their exact area: a wide curve, and a ring that winds twice.
func TestFillCoversItsArea(t *testing.T) {
	blob := geom.Join(geom.Path{
		{P0: geom.Pt(5.3, 30), P1: geom.Pt(5, -10), P2: geom.Pt(60, 0), P3: geom.Pt(58.6, 33)},
		{P0: geom.Pt(58.6, 33), P1: geom.Pt(50, 70), P2: geom.Pt(10, 60), P3: geom.Pt(5.3, 30)},
	})
	star := geom.Polyline(geom.Pt(32, 4), geom.Pt(49, 58), geom.Pt(4, 25), geom.Pt(60, 25), geom.Pt(15, 58), geom.Pt(32, 4))
	for name, path := range map[string]geom.Path{"blob": blob, "star": star} {
		pts := path.Flatten(0.02)
		got := cover(t, scene.Layer{Fills: []scene.Fill{{Outline: path, Alpha: 1}}})
		if d := rms(got, exact(func(p geom.Point) bool { return winding(p, pts) != 0 })); d > 0.015 {
			t.Errorf("%s: %.4f away from the exact cover", name, d)
		}
	}
}

func winding(p geom.Point, pts []geom.Point) int {
	n := 0
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if (a.Y > p.Y) == (b.Y > p.Y) || a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) <= p.X {
			continue
		}
		if b.Y > a.Y {
			n++
		} else {
			n--
		}
	}
	return n
}

// Whatever lies outside the picture costs nothing and breaks nothing: lines and
// fills far beyond it, points without length, and huge zooms.
func TestWhatLiesOutsideIsLeftOut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		far := func(label string) geom.Point {
			return geom.Pt(rapid.Float64Range(-1e5, 1e5).Draw(rt, label+" x"), rapid.Float64Range(-1e5, 1e5).Draw(rt, label+" y"))
		}
		path := geom.Path{{P0: far("a"), P1: far("b"), P2: far("c"), P3: far("d")}}
		path = geom.Join(path, geom.Polyline(path.End(), path.End()), geom.Polyline(path.End(), path.Start()))
		picture(scene.Layer{
			Fills:   []scene.Fill{{Outline: path, Alpha: 1}},
			Lines:   []scene.Line{{Path: path, Width: 2, Alpha: 1}, {Path: path[:1], Width: 9, Dash: []float64{300, 200}, Shift: 5, Round: true, Alpha: 0.5, Arrow: true}},
			Handles: []scene.Handle{{At: path.Start()}},
		})
	})
}

// The same scene gives the same picture when it is drawn in one go and when it
// is drawn upon an empty, see-through sheet laid over the ground.
func TestSheetsLayOverOneAnother(t *testing.T) {
	c := palette.Light
	layer := scene.Layer{
		Fills: []scene.Fill{{Outline: geom.Polyline(geom.Pt(8, 8), geom.Pt(50, 10), geom.Pt(30, 55), geom.Pt(8, 8)), Ink: scene.InkAccent, Alpha: 0.3}},
		Lines: []scene.Line{{Path: curve, Width: 3, Ink: scene.NestInk(1, 3), Alpha: 0.8}},
	}
	p := newPainter(t, c)
	screen := paint.Screen{View: view.View{Scale: 1}, Factor: 1}
	direct, sheet := image.NewRGBA(image.Rect(0, 0, side, side)), image.NewRGBA(image.Rect(0, 0, side, side))
	paint.Clear(direct, c.Table)
	p.Paint(direct, screen, layer)
	p.Paint(sheet, screen, layer)
	for i := 0; i < len(direct.Pix); i += 4 {
		ground := [4]uint8{c.Table.R, c.Table.G, c.Table.B, 255}
		for k := range 4 {
			over := float64(sheet.Pix[i+k]) + float64(ground[k])*(1-float64(sheet.Pix[i+3])/255)
			if math.Abs(over-float64(direct.Pix[i+k])) > 3 {
				t.Fatalf("pixel %d part %d: %.1f laid over, %d drawn at once", i/4, k, over, direct.Pix[i+k])
			}
		}
	}
}

// A screen of twice the pixels shows the same picture: averaged down, it is the
// picture of the plain screen.
func TestFineScreensShowTheSame(t *testing.T) {
	layer := scene.Layer{Lines: []scene.Line{{Path: curve, Width: 2.6, Round: true, Alpha: 1}}, Handles: []scene.Handle{{At: geom.Pt(30, 30)}}}
	p := newPainter(t, plain())
	at := func(factor int) []float64 {
		img := image.NewRGBA(image.Rect(0, 0, side*factor, side*factor))
		paint.Clear(img, color.NRGBA{255, 255, 255, 255})
		p.Paint(img, paint.Screen{View: view.View{Scale: 1}, Factor: float64(factor)}, layer)
		out := make([]float64, side*side)
		for y := range side * factor {
			for x := range side * factor {
				out[y/factor*side+x/factor] += (1 - float64(img.Pix[y*img.Stride+4*x])/255) / float64(factor*factor)
			}
		}
		return out
	}
	if d := rms(at(1), at(2)); d > 0.02 {
		t.Errorf("%.4f apart", d)
	}
}
