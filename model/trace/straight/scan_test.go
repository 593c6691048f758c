package straight

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// A scanner's stretch is taken out by known distances, whatever it is: the
// lengths are exact, so the map must be, or within what a click may be off.
func TestScanIsPutRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dpi := rapid.SampledFrom([]float64{150, 200, 300, 600}).Draw(t, "dpi")
		u := rapid.Float64Range(0.99, 1.01).Draw(t, "across")
		v := rapid.Float64Range(0.99, 1.01).Draw(t, "down")
		lean := rapid.Float64Range(-0.4, 0.4).Draw(t, "lean")
		length := rapid.Float64Range(50, 200).Draw(t, "length")
		mm := func(p geom.Point) geom.Point { return geom.Pt(p.X*u*25.4/dpi, p.Y*v*25.4/dpi) }
		px := func(p geom.Point) geom.Point { return geom.Pt(p.X/(u*25.4/dpi), p.Y/(v*25.4/dpi)) }
		from := geom.Pt(300, 400)
		a := geom.Vec{X: math.Cos(lean), Y: math.Sin(lean)}.Scale(length)
		known := []Known{
			{from, px(mm(from).Add(a)), length},
			{from, px(mm(from).Add(a.Perp())), length},
		}
		s, err := FromScan([2]float64{dpi, dpi}, known)
		if err != nil {
			t.Fatal(err)
		}
		if s.Checked != [2]bool{true, true} {
			t.Fatalf("checked %v", s.Checked)
		}
		for i, want := range []float64{u - 1, v - 1} {
			off := s.Off[i]
			sure := 2 * clicked / (length / 25.4 * dpi * 0.9)
			if math.Abs(off-want) > 1e-9 && (off != 0 || math.Abs(want) > sure) {
				t.Fatalf("axis %d off by %v, want %v, clicks are sure to %v", i, off, want, sure)
			}
		}
		if s.Off[0] != 0 && s.Off[1] != 0 {
			if p := geom.Pt(1234, 2345); s.Map.MM(p).Dist(mm(p)) > 1e-6 || s.Misfit.Worst > 1e-6 {
				t.Fatalf("%v for %v, misfit %+v", s.Map.MM(p), mm(p), s.Misfit)
			}
		}
	})
}

// What a single distance speaks for, and what is said of it. The scans have
// 200 pixels to the inch: 1575 pixels are 200.025 mm.
func TestScanByOneDistance(t *testing.T) {
	file := [2]float64{200, 200}
	at := geom.Pt(100, 100)
	across, down := geom.Pt(1675, 100), geom.Pt(100, 1675)
	slant := geom.Pt(100+1000, 100+1000) // 179.605 mm
	for _, c := range []struct {
		name    string
		perInch [2]float64
		known   []Known
		off     [2]float64
		say     string
	}{
		{"none", file, nil, [2]float64{0, 0}, "Mark a distance you know to check it."},
		{"across", file, []Known{{at, across, 200.625}}, [2]float64{0.003, 0}, "0.3 % off: put right. Only across is checked"},
		{"down", file, []Known{{at, down, 199.425}}, [2]float64{0, -0.003}, "0.3 % off: put right. Only down is checked"},
		{"within a click", file, []Known{{at, across, 200.225}}, [2]float64{0, 0}, "The scan is to scale. Only across is checked"},
		{"slant", file, []Known{{at, slant, 179.605 * 1.004}}, [2]float64{0.004, 0.004}, "0.4 % off"},
		{"wrong altogether", [2]float64{72, 72}, []Known{{at, across, 200.025}}, [2]float64{72.0/200 - 1, 72.0/200 - 1}, "own scale was 64 % off"},
		{"file says nothing", [2]float64{}, []Known{{at, across, 200.025}}, [2]float64{0, 0}, "own scale"},
		{"they contradict", file, []Known{{at, across, 200.025}, {at, down, 200.025}, {at, across, 206}}, [2]float64{}, "Off by up to"},
	} {
		s, err := FromScan(c.perInch, c.known)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if c.name != "they contradict" && (math.Abs(s.Off[0]-c.off[0]) > 2e-5 || math.Abs(s.Off[1]-c.off[1]) > 2e-5) {
			t.Errorf("%s: off by %v, want %v", c.name, s.Off, c.off)
		}
		if c.perInch == ([2]float64{}) {
			if d := s.Map.MM(across).Dist(s.Map.MM(at)); math.Abs(d-200.025) > 1e-9 {
				t.Errorf("%s: %g mm", c.name, d)
			}
			continue
		}
		if got := s.Say(measure.Centimetres); !strings.Contains(got, c.say) {
			t.Errorf("%s: %q, want %q", c.name, got, c.say)
		}
	}
}

func TestScanRefuses(t *testing.T) {
	for _, c := range []struct {
		perInch [2]float64
		known   []Known
		want    string
	}{
		{[2]float64{}, nil, "mark a distance you know"},
		{[2]float64{200, 200}, []Known{{geom.Pt(0, 0), geom.Pt(3, 4), 50}}, "too short"},
		{[2]float64{200, 200}, []Known{{geom.Pt(0, 0), geom.Pt(300, 4), 0}}, "true length"},
		{[2]float64{200, 200}, []Known{{geom.Pt(0, 0), geom.Pt(300, 4), math.NaN()}}, "true length"},
	} {
		if _, err := FromScan(c.perInch, c.known); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v, want %q", c.known, err, c.want)
		}
	}
}
