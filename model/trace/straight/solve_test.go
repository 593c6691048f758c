package straight

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// solved is a problem that a library solved: places given, and where it takes
// others.
type solved struct {
	scipy bool
	o     Options
	given []Pair
	asked []Pair
}

// solvedBefore reads testdata/solve.csv, which testdata/solve.py writes.
func solvedBefore(t *testing.T) []solved {
	f, err := os.Open("testdata/solve.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []solved
	for _, row := range rows {
		var v [11]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		if n := int(v[0]); n == len(all) {
			l := Lens{Centre: geom.Pt(v[3], v[4]), Scale: v[5]}
			all = append(all, solved{scipy: v[2] == 1, o: Options{Lens: l, FitLens: v[1] == 1}})
		}
		s, p := &all[len(all)-1], Pair{Pixel: geom.Pt(v[7], v[8]), MM: geom.Pt(v[9], v[10])}
		if v[6] == 1 {
			s.given = append(s.given, p)
		} else {
			s.asked = append(s.asked, p)
		}
	}
	return all
}

// Places off by a pixel give the map that OpenCV's findHomography and, with a
// lens or few places, SciPy's least_squares give. OpenCV reckons in part with
// 32-bit numbers: it is held to 0.002 mm, SciPy to 0.0001 mm.
func TestSolveAsOpenCVAndSciPy(t *testing.T) {
	all := solvedBefore(t)
	if len(all) != 12 {
		t.Fatalf("%d problems", len(all))
	}
	for n, s := range all {
		m, off, err := Solve(s.given, s.o)
		if err != nil {
			t.Errorf("problem %d: %v", n, err)
			continue
		}
		if off.Points != len(s.given) || off.RMS < 0.01 || off.RMS > 0.5 || off.Worst < off.RMS {
			t.Errorf("problem %d: misfit %+v of %d places", n, off, len(s.given))
		}
		tol := 0.002
		if s.scipy {
			tol = 0.0001
		}
		for _, p := range s.asked {
			if d := m.MM(p.Pixel).Dist(p.MM); !(d <= tol) {
				t.Errorf("problem %d, SciPy %v: %v taken to %v, the library %v: %.6f mm off", n, s.scipy, p.Pixel, m.MM(p.Pixel), p.MM, d)
			}
		}
	}
}

// drawnMap is any map of a camera that a hand holds, with its picture's size.
func drawnMap(t *rapid.T) (Map, int, int) {
	w, h := rapid.IntRange(600, 6000).Draw(t, "w"), rapid.IntRange(600, 6000).Draw(t, "h")
	f := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
	mid := geom.Pt(f("x", -500, 500), f("y", -500, 500))
	return camera26(w, h, mid, f("dist", 300, 1500), f("tilt", 0, 35), f("toward", 0, 360), f("roll", 0, 360), f("k1", -0.06, 0.06)), w, h
}

func placeIn(t *rapid.T, w, h int) geom.Point {
	return geom.Pt(rapid.Float64Range(0, float64(w)).Draw(t, "px"), rapid.Float64Range(0, float64(h)).Draw(t, "py"))
}

// Any place of any photo comes back to within 1e-6 pixels.
func TestPixelUndoesMM(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, w, h := drawnMap(t)
		p := placeIn(t, w, h)
		if d := m.Pixel(m.MM(p)).Dist(p); !(d <= 1e-6) {
			t.Fatalf("%v comes back to %v", p, m.Pixel(m.MM(p)))
		}
	})
}

// Places without error give the map they come from, lens and all, anywhere in
// the photo, to a thousandth of a millimetre.
func TestSolveFindsTheMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, w, h := drawnMap(t)
		fit := rapid.Bool().Draw(t, "find the lens")
		var pairs []Pair
		for i := range 4 {
			for j := range 4 {
				p := geom.Pt(float64(w)*(0.05+0.3*float64(i)), float64(h)*(0.05+0.3*float64(j)))
				pairs = append(pairs, Pair{p, m.MM(p)})
			}
		}
		o := Options{Lens: m.Lens, FitLens: fit}
		if fit {
			o.Lens.K1 = 0
		}
		got, off, err := Solve(pairs, o)
		if err != nil || off.Worst > 1e-4 {
			t.Fatalf("%+v, %v", off, err)
		}
		p := placeIn(t, w, h)
		if d := got.MM(p).Dist(m.MM(p)); !(d <= 1e-3) {
			t.Fatalf("%v is taken %.6f mm off", p, d)
		}
	})
}

// Turning the photo on the table, or counting from another place, changes
// nothing but the frame.
func TestSolveDoesNotCareWhereThePaperBegins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, w, h := drawnMap(t)
		turn := geom.Translate(geom.Vec{X: rapid.Float64Range(-2000, 2000).Draw(t, "dx"), Y: 300}).Mul(geom.Rotate(rapid.Float64Range(-4, 4).Draw(t, "turn")))
		var a, b []Pair
		for i := range 9 {
			p := geom.Pt(float64(w)*(0.1+0.4*float64(i%3)), float64(h)*(0.1+0.4*float64(i/3)))
			q := m.MM(p).Add(geom.Vec{X: rapid.Float64Range(-0.5, 0.5).Draw(t, "off"), Y: 0.2})
			a, b = append(a, Pair{p, q}), append(b, Pair{p, turn.Apply(q)})
		}
		one, off1, err1 := Solve(a, Options{Lens: m.Lens})
		two, off2, err2 := Solve(b, Options{Lens: m.Lens})
		if err1 != nil || err2 != nil || math.Abs(off1.RMS-off2.RMS) > 1e-6 {
			t.Fatalf("%+v, %v; %+v, %v", off1, err1, off2, err2)
		}
		p := placeIn(t, w, h)
		if d := turn.Apply(one.MM(p)).Dist(two.MM(p)); !(d <= 1e-3) {
			t.Fatalf("%v: %.6f mm apart", p, d)
		}
	})
}

func TestSolveRefuses(t *testing.T) {
	at := func(x, y float64) Pair { return Pair{geom.Pt(5*x+40, 5*y+30), geom.Pt(x, y)} }
	square := []Pair{at(0, 0), at(100, 0), at(100, 100), at(0, 100)}
	mid := Lens{Centre: geom.Pt(300, 300), Scale: 400}
	for _, c := range []struct {
		name  string
		pairs []Pair
		o     Options
		say   string
	}{
		{"three", square[:3], Options{}, "at least 4"},
		{"none", nil, Options{}, "at least 4"},
		{"one line", []Pair{at(0, 0), at(30, 30), at(60, 60), at(90, 90)}, Options{}, "one line"},
		{"nearly one line", []Pair{at(0, 0), at(100, 0.2), at(200, 0), at(300, 0.3), at(350, 0.1)}, Options{}, "one line"},
		{"three of four on one line", []Pair{at(0, 0), at(50, 0), at(100, 0), at(50, 80)}, Options{}, "one line"},
		{"three of four nearly on one line", []Pair{at(0, 0), at(50, 0.4), at(100, 0), at(50, 80)}, Options{}, "one line"},
		{"one place twice", []Pair{at(0, 0), at(0, 0), at(100, 0), at(50, 80)}, Options{}, "one line"},
		{"all one", []Pair{at(1, 1), at(1, 1), at(1, 1), at(1, 1)}, Options{}, "one line"},
		{"crossed", []Pair{square[0], {square[1].Pixel, square[2].MM}, {square[2].Pixel, square[1].MM}, square[3]}, Options{}, "order"},
		{"no number", append([]Pair{{geom.Pt(math.NaN(), 1), geom.Pt(1, 1)}}, square...), Options{}, "place 1"},
		{"too few for the lens", square, Options{Lens: mid, FitLens: true}, "at least 8"},
		{"lens without middle", append(square, square...), Options{FitLens: true}, "middle of the lens"},
		{"only four places, each twice, for the lens", append(square, square...), Options{Lens: mid, FitLens: true}, "lens"},
	} {
		if m, _, err := Solve(c.pairs, c.o); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: %v, %v", c.name, m, err)
		}
	}
	if _, _, err := Solve(square, Options{}); err != nil {
		t.Errorf("a square: %v", err)
	}
}

// Four places always agree: that is not said to be good.
func TestFourPlacesAreNotSaidToAgree(t *testing.T) {
	at := func(x, y, off float64) Pair { return Pair{geom.Pt(5*x+40+off, 5*y+30), geom.Pt(x, y)} }
	four := []Pair{at(0, 0, 0), at(400, 0, 9), at(400, 500, 0), at(0, 500, 0)}
	_, off, err := Solve(four, Options{})
	if say := off.Say(measure.Centimetres); err != nil || strings.Contains(say, "good") || !strings.Contains(say, "measure") {
		t.Errorf("%q, %v", say, err)
	}
	_, off, err = Solve(append(four, at(200, 250, 0)), Options{})
	if say := off.Say(measure.Centimetres); err != nil || !strings.Contains(say, "mm") {
		t.Errorf("%q, %v", say, err)
	}
}
