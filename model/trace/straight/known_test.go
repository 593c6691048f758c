package straight

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
)

// A lens learnt from one photo bends the same place of the sensor the same way
// in a photo of another size, held another way.
func TestKnownLensServesOtherSizesAndTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := func(name string) picture.Turn { return picture.Turn(rapid.IntRange(0, 7).Draw(t, name)) }
		long, short := rapid.IntRange(600, 4000).Draw(t, "long"), rapid.IntRange(400, 600).Draw(t, "short")
		k := rapid.IntRange(1, 4).Draw(t, "times larger")
		shape := func(u picture.Turn, w, h int) image.Point {
			if u >= 4 {
				w, h = h, w
			}
			return image.Pt(w, h)
		}
		t1, t2 := turn("turn"), turn("other turn")
		size1, size2 := shape(t1, long, short), shape(t2, long*k, short*k)
		l := Lens{K1: 0.05, Scale: 700, Centre: geom.Pt(float64(size1.X)*0.52, float64(size1.Y)*0.47)}
		known := Learn("Fennel F4", 26, l, size1, t1.Stored)
		other := known.For(size2, t2.Stored)
		p := geom.Pt(rapid.Float64Range(0, float64(size1.X)).Draw(t, "x"), rapid.Float64Range(0, float64(size1.Y)).Draw(t, "y"))
		// the place of the second photo on the same spot of the sensor
		s := onSensor(t1.Stored, p, size1)
		back := inverseTurn(t2, geom.Pt(s.X*float64(k), s.Y*float64(k)), size2)
		got := onSensor(t2.Stored, other.bend(back), size2)
		want := onSensor(t1.Stored, l.bend(p), size1)
		if d := got.Dist(geom.Pt(want.X*float64(k), want.Y*float64(k))); d > 1e-6*float64(k*long) {
			t.Fatalf("bent to %v, want %v times %d", got, want, k)
		}
	})
}

// inverseTurn finds the displayed place that Stored takes to s.
func inverseTurn(u picture.Turn, s geom.Point, size image.Point) geom.Point {
	o := onSensor(u.Stored, geom.Pt(0, 0), size)
	x := onSensor(u.Stored, geom.Pt(1, 0), size).Sub(o)
	y := onSensor(u.Stored, geom.Pt(0, 1), size).Sub(o)
	v := s.Sub(o)
	return geom.Pt(v.Dot(x), v.Dot(y))
}

func TestKnownLensServesItsCamera(t *testing.T) {
	k := KnownLens{Camera: "Fennel F4", Focal35: 26}
	for _, c := range []struct {
		camera string
		focal  float64
		want   bool
	}{
		{"Fennel F4", 26, true},
		{"Fennel F4", 52, false}, // zoomed, or the other lens
		{"Fennel F4", 0, false},
		{"Fennel F5", 26, false},
		{"", 26, false},
		{"Fennel F4", math.NaN(), false},
	} {
		if got := k.Serves(c.camera, c.focal); got != c.want {
			t.Errorf("serves %q at %g mm: %v", c.camera, c.focal, got)
		}
	}
	if (KnownLens{}).Serves("", 0) {
		t.Error("a lens of no camera serves a photo that names none")
	}
}
