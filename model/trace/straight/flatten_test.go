package straight

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math"
	"testing"

	"quarterstep/model/geom"
)

// wave is a picture whose brightness at each place is known in closed form and
// so smooth that drawing between pixels is exact to a grey level or two.
func wave(w, h int, at func(x, y float64) float64) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			g.SetGray(x, y, color.Gray{Y: uint8(math.Round(at(float64(x)+0.5, float64(y)+0.5)))})
		}
	}
	return g
}

// Seen askew and made flat, every place of the paper has the grey it has.
func TestFlatIsThePaper(t *testing.T) {
	grey := func(p geom.Point) float64 { return 128 + 60*math.Sin(p.X/17) + 50*math.Cos(p.Y/23) }
	m := Map{Lens: Lens{}, H: [9]float64{0.31, 0.02, -12, -0.015, 0.29, 7, 2e-5, -1e-5, 1}}
	g := wave(900, 700, func(x, y float64) float64 { return grey(m.MM(geom.Pt(x, y))) })
	bounds := geom.BoxOf(geom.Pt(30, 40), geom.Pt(180, 160))
	told := 0.0
	flat, err := Flatten(context.Background(), g, m, bounds, 4, func(part float64) { told = max(told, part) })
	if err != nil {
		t.Fatal(err)
	}
	if flat.Rect.Dx() != 600 || flat.Rect.Dy() != 480 || told < 0.9 {
		t.Fatalf("it is %v, told %.2f", flat.Rect, told)
	}
	for y := 0; y < 480; y += 7 {
		for x := 0; x < 600; x += 5 {
			p := geom.Pt(30+(float64(x)+0.5)/4, 40+(float64(y)+0.5)/4)
			if d := math.Abs(float64(flat.GrayAt(x, y).Y) - grey(p)); d > 2 {
				t.Fatalf("at %v it is %d, the paper %.1f", p, flat.GrayAt(x, y).Y, grey(p))
			}
		}
	}
}

func TestFlatOutsideThePictureIsWhite(t *testing.T) {
	m := Map{Lens: Lens{}, H: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
	g := wave(20, 20, func(x, y float64) float64 { return 10 })
	flat, err := Flatten(context.Background(), g, m, geom.BoxOf(geom.Pt(-5, -5), geom.Pt(25, 25)), 1, nil)
	if err != nil || flat.GrayAt(0, 0).Y != 255 || flat.GrayAt(15, 15).Y != 10 {
		t.Errorf("outside %d, inside %d, %v", flat.GrayAt(0, 0).Y, flat.GrayAt(15, 15).Y, err)
	}
	c := image.NewRGBA(g.Rect)
	for i := range c.Pix {
		c.Pix[i] = []uint8{200, 100, 50, 255}[i%4]
	}
	colour, err := FlattenColour(context.Background(), c, m, geom.BoxOf(geom.Pt(0, 0), geom.Pt(20, 20)), 2, nil)
	if want := (color.RGBA{200, 100, 50, 255}); err != nil || colour.RGBAAt(20, 20) != want {
		t.Errorf("the colour is %v, %v", colour.RGBAAt(20, 20), err)
	}
}

func TestFlattenIsRefusedOrEnded(t *testing.T) {
	m := Map{Lens: Lens{}, H: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
	g := wave(20, 20, func(x, y float64) float64 { return 10 })
	if _, err := Flatten(context.Background(), g, m, geom.BoxOf(geom.Pt(0, 0), geom.Pt(20000, 20000)), 5, nil); !errors.Is(err, ErrTooLarge) {
		t.Errorf("far too large: %v", err)
	}
	if _, err := Flatten(context.Background(), g, m, geom.Box{}, 5, nil); err == nil {
		t.Error("nothing was flattened")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Flatten(ctx, g, m, geom.BoxOf(geom.Pt(0, 0), geom.Pt(20, 20)), 5, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("ended: %v", err)
	}
}

func BenchmarkFlatten12MP(b *testing.B) {
	m := Map{Lens: Lens{K1: 0.02, Centre: geom.Pt(1500, 2000), Scale: 2500}, H: [9]float64{0.2, 0.01, -12, -0.01, 0.21, 7, 1e-5, -1e-5, 1}}
	g := wave(3000, 4000, func(x, y float64) float64 { return 100 })
	for b.Loop() {
		if _, err := Flatten(context.Background(), g, m, geom.BoxOf(geom.Pt(0, 0), geom.Pt(500, 667)), 6, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// Beyond the horizon, and where a strong lens shows nothing, the flat picture is
// white: what is in the photo is not shown there once more.
func TestFlatShowsNothingTwice(t *testing.T) {
	g := wave(400, 400, func(x, y float64) float64 { return 90 })
	mid := geom.Pt(200, 200)
	for name, m := range map[string]Map{
		"horizon": {H: [9]float64{1, 0, 0, 0, 1, 0, 0, 0.003, 1}},
		"lens":    {Lens: Lens{K1: -0.3, Centre: mid, Scale: 283}, H: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}},
	} {
		flat, err := Flatten(context.Background(), g, m, geom.BoxOf(geom.Pt(-700, -700), geom.Pt(1100, 1100)), 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		shown := 0
		for y := range flat.Rect.Dy() {
			for x := range flat.Rect.Dx() {
				if flat.GrayAt(x, y).Y == 255 {
					continue
				}
				shown++
				mm := geom.Pt(float64(x)-699.5, float64(y)-699.5)
				if d := m.MM(m.Pixel(mm)).Dist(mm); !(d < 1e-6) {
					t.Fatalf("%s: %v is shown, and is %v of the photo", name, mm, m.Pixel(mm))
				}
			}
		}
		if shown < 50_000 {
			t.Errorf("%s: %d pixels are shown", name, shown)
		}
	}
}

// A fine scan made coarser keeps the grey of what it no longer resolves: lines
// one pixel wide and six apart, five sixths white, stay so and do not come and
// go.
func TestFlatCoarserIsTheMean(t *testing.T) {
	g := wave(1200, 1200, func(x, _ float64) float64 {
		if int(x)%6 == 0 {
			return 0
		}
		return 240
	})
	m := Map{H: [9]float64{0.1, 0, 0, 0, 0.1, 0, 0, 0, 1}}
	flat, err := Flatten(context.Background(), g, m, geom.BoxOf(geom.Pt(5, 5), geom.Pt(105, 105)), 10.0/6, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range flat.Pix {
		if math.Abs(float64(v)-200) > 12 {
			t.Fatalf("pixel %d is %d, the mean 200", i, v)
		}
	}
}
