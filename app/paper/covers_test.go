package paper

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

// The four cards of a photo from straight above, 5 px to the mm, one turned:
// what each hides is its square and little more.
func TestCardsHideWhatTheyLieOn(t *testing.T) {
	const perMM = 5.0
	m := straight.Map{H: [9]float64{1 / perMM, 0, 0, 0, 1 / perMM, 0, 0, 0, 1}}
	lay := geom.Translate(geom.Vec{X: 200, Y: 150}).Mul(geom.Rotate(0.5))
	p := part{set: target.Corners}
	for k := range target.PerPart {
		s, _ := target.SpotOf(target.Corners.Code(0, k))
		at := lay.Apply(s.On)
		p.group = append(p.group, straight.Pair{Pixel: geom.Pt(at.X*perMM, at.Y*perMM), MM: s.On})
	}
	c := coversOf(m, []part{p})
	for _, k := range []struct {
		on   geom.Point // mm from the card's middle
		want bool
	}{
		{geom.Pt(0, 0), true},
		{geom.Pt(37, 37), true},
		{geom.Pt(-37, 37), true},
		{geom.Pt(45, 0), false},
		{geom.Pt(0, -45), false},
	} {
		at := lay.Apply(k.on)
		if got := straight.Covered(c, geom.Pt(at.X*perMM, at.Y*perMM)); got != k.want {
			t.Errorf("%v from the card's middle is hidden: %v", k.on, got)
		}
	}
}

// Two photos of the same paper, each with something lying on another place of
// it: the flat picture shows the paper everywhere but where both hide it.
func TestFlatPictureShowsWhatLiesFree(t *testing.T) {
	const wide, high = 200, 150
	m := straight.Map{H: [9]float64{0.2, 0, 0, 0, 0.2, 0, 0, 0, 1}}
	box := func(x0, y0, x1, y1 float64) straight.Cover {
		return straight.Cover{geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1)}
	}
	part := func(mark color.RGBA, covers ...straight.Cover) Part {
		c, g := image.NewRGBA(image.Rect(0, 0, wide, high)), image.NewGray(image.Rect(0, 0, wide, high))
		for y := range high {
			for x := range wide {
				c.SetRGBA(x, y, color.RGBA{200, 200, 200, 255})
				if straight.Covered(covers, geom.Pt(float64(x)+0.5, float64(y)+0.5)) {
					c.SetRGBA(x, y, mark)
				}
			}
		}
		return Part{&Photo{Picture: picture.Picture{Gray: g, Color: c}}, Straight{Map: m, Covers: covers, Bounds: geom.Box{Max: geom.Pt(wide*0.2, high*0.2)}}}
	}
	a := part(color.RGBA{255, 0, 0, 255}, box(20, 20, 80, 60), box(120, 20, 180, 60))
	b := part(color.RGBA{0, 0, 255, 255}, box(20, 90, 80, 130), box(120, 20, 180, 60))
	flat, err := FlattenParts(t.Context(), []Part{a, b}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct {
		x, y int // px of the photos
		free bool
	}{{50, 40, true}, {50, 110, true}, {150, 40, false}, {100, 75, true}} {
		c := flat.Colour.RGBAAt(int(math.Round(float64(k.x)*0.2*flat.PerMM)), int(math.Round(float64(k.y)*0.2*flat.PerMM)))
		if free := c.R == c.G && c.G == c.B; free != k.free {
			t.Errorf("at %d, %d it shows %v", k.x, k.y, c)
		}
	}
}

func TestFarFromTargetsIsSaid(t *testing.T) {
	for _, k := range []struct {
		layout Layout
		f      straight.Placed
		want   string
	}{
		{Strips, straight.Placed{Within: 0.3, Far: 1.4}, "may be off by 1.4 mm"},
		{Corners, straight.Placed{Within: 0.3, Far: 0.4}, ""},
		{Strips, straight.Placed{Within: 1.0, Far: 1.4}, ""},
		{Sheet, straight.Placed{Within: 0.3, Far: 1.4}, ""},
	} {
		got := Sighting{Layout: k.layout}.sayFar(k.f)
		if (got == "") != (k.want == "") || !strings.Contains(got, k.want) {
			t.Errorf("%s, %.1f and %.1f mm: said %q", k.layout, k.f.Within, k.f.Far, got)
		}
	}
}
