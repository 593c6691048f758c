package straight

import (
	"context"
	"image"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// A target sheet printed at 97 % is noticed by one measured distance, and put
// right.
func TestMeasureNoticesAWrongPrint(t *testing.T) {
	const w, h = 900, 1200
	truth := camera26(w, h, geom.Pt(100, 150), 600, 8, 30, 4, 0.01)
	printed := moved(truth, geom.ScaleXY(1/0.97, 1/0.97)) // the sheet says 100 mm where 97 are
	a, b := geom.Pt(20, 40), geom.Pt(190, 260)
	length := math.Hypot(170, 220) // by Pythagoras
	k := Known{truth.Pixel(a), truth.Pixel(b), length}
	d, err := Measure(printed, []Known{k})
	if err != nil || math.Abs(d.Off-(0.97-1)) > 1e-9 {
		t.Fatalf("off by %v: %v", d.Off, err)
	}
	if got := d.Say(measure.Inches); !strings.Contains(got, "3.0 % too large") {
		t.Errorf("said: %q", got)
	}
	if got := d.SayPrinted(measure.Inches); !strings.Contains(got, "3.0 % too large") || !strings.Contains(got, "printed at about 97 %: print them again at 100 %") {
		t.Errorf("of a print said: %q", got)
	}
	if off := farthestOff(d.Map, truth, w, h); off > 1e-6 {
		t.Errorf("put right, off by up to %g mm", off)
	}
	if d, _ = Measure(truth, []Known{k}); !strings.Contains(d.Say(measure.Inches), "to scale") {
		t.Errorf("of a right print it says %q", d.Say(measure.Inches))
	}
	wrong := k
	wrong.MM += 9
	if d, _ = Measure(truth, []Known{k, wrong}); !strings.Contains(d.Say(measure.Inches), "measure them again") {
		t.Errorf("of two that differ it says %q", d.Say(measure.Inches))
	}
	for _, bad := range [][]Known{nil, {{}}, {{k.From, k.To, 0}}, {{k.From, k.To, math.NaN()}}} {
		if _, err := Measure(truth, bad); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
}

// A test square of 50 mm whose ends are clicked half a millimetre beside
// themselves does not spoil a good map; one printed at 97 % is noticed.
func TestMeasureByAShortDistance(t *testing.T) {
	truth := camera26(900, 1200, geom.Pt(100, 150), 600, 8, 30, 4, 0.01)
	side := func(off float64) Known {
		return Known{truth.Pixel(geom.Pt(40, 60)), truth.Pixel(geom.Pt(90-off, 60)), 50}
	}
	d, err := Measure(truth, []Known{side(0.5)})
	if err != nil || d.Map != truth || !strings.Contains(d.Say(measure.Inches), "agrees") {
		t.Errorf("half a millimetre: %q, %v", d.Say(measure.Inches), err)
	}
	if d, _ = Measure(truth, []Known{side(1.5)}); math.Abs(d.Off-0.031) > 0.001 {
		t.Errorf("97 %%: off by %.4f", d.Off)
	}
}

// A card (ISO/IEC 7810: 85.60 by 53.98 mm) tells a scan that is two percent off,
// to a fifth of a percent.
func TestCardChecksAScan(t *testing.T) {
	const k = 25.4 / 200
	truth := moved(Map{H: [9]float64{k, 0, 0, 0, k, 0, 0, 0, 1}}, geom.Rotate(0.03))
	at := geom.Pt(20, 25)
	g := photograph(func(p geom.Point) float64 {
		x, y := math.Abs(p.X-at.X-Card.Height/2), math.Abs(p.Y-at.Y-Card.Width/2)
		dx, dy := max(x-(Card.Height/2-3.18), 0), max(y-(Card.Width/2-3.18), 0)
		if math.Hypot(dx, dy) <= 3.18 {
			return 60
		}
		return 235
	}, truth, 950, 750, 1)
	r := rand.New(rand.NewPCG(5, 5))
	var clicks [4]geom.Point
	for i, v := range []geom.Vec{{}, {X: Card.Height}, {X: Card.Height, Y: Card.Width}, {Y: Card.Width}} {
		clicks[i] = click(r, truth.Pixel(at.Add(v)))
	}
	for _, c := range []struct{ x, y, want float64 }{{1, 1, 0}, {1.02, 1.02, 1/1.02 - 1}, {0.98, 0.98, 1/0.98 - 1}} {
		d, err := CheckCard(context.Background(), g, nil, moved(truth, geom.ScaleXY(c.x, c.y)), clicks)
		if err != nil || math.Abs(d.Off-c.want) > 0.002 {
			t.Errorf("map off by %g and %g: told %.4f, want %.4f: %v", c.x, c.y, d.Off, c.want, err)
		}
	}
	if _, err := CheckCard(context.Background(), image.NewGray(g.Rect), nil, truth, clicks); err == nil || !strings.Contains(err.Error(), "cannot be made out") {
		t.Errorf("a card that is not there: %v", err)
	}
}
