package straight

import (
	"context"
	"encoding/csv"
	"image"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"quarterstep/model/geom"
)

// TestPoseAsOpenCV holds the pose and its lens to cv2.projectPoints
// (testdata/opencv.csv, written by opencv.py).
func TestPoseAsOpenCV(t *testing.T) {
	f, err := os.Open("testdata/opencv.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 50 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	for _, row := range rows {
		var v []float64
		for _, s := range row {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			v = append(v, x)
		}
		p := pose{turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, focal: v[6], eye: geom.Pt(v[7], v[8])}
		p = p.turned(v[0], v[1], v[2])
		p.move = [3]float64{v[3], v[4], v[5]}
		p.lens = Lens{K1: v[9], Centre: p.eye, Scale: p.focal}
		m := p.full()
		mm, px := geom.Pt(v[10], v[11]), geom.Pt(v[12], v[13])
		if d := m.Pixel(mm).Dist(px); d > 1e-6 {
			t.Errorf("%v lies at %v, OpenCV %v", mm, m.Pixel(mm), px)
		}
		if d := m.MM(px).Dist(mm); d > 1e-6 {
			t.Errorf("%v shows %v, OpenCV %v", px, m.MM(px), mm)
		}
	}
}

// A page in the photo's corner straightens all of it, without anything known
// of the camera: bent lens, tilt, any lie, clicks in any order. What is said of
// the far corners holds, and half the photos are right to half a millimetre up
// to there.
func TestSheetStraightensTheWholePhoto(t *testing.T) {
	const w, h = 1000, 1300
	var offs []float64
	for i, c := range []struct {
		paper              Paper
		sideways           bool
		tilt, toward, roll float64
		k1                 float64
	}{
		{A4, false, 3, 40, 2, 0.012},
		{A4, true, 12, 200, -6, -0.015},
		{A4, false, 9, 300, 178, 0.02},
		{Letter, false, 14, 120, 5, -0.01},
		{Letter, true, 6, 10, -88, 0},
	} {
		pw, ph := c.paper.Width, c.paper.Height
		if c.sideways {
			pw, ph = ph, pw
		}
		truth := camera26(w, h, geom.Pt(pw/2-80, ph/2+100), 600, c.tilt, c.toward, c.roll, c.k1)
		g := photograph(pageOn(pw, ph), truth, w, h, uint64(i))
		r := rand.New(rand.NewPCG(uint64(i), 2))
		var clicks [4]geom.Point
		for k, j := range r.Perm(4) {
			clicks[k] = click(r, truth.Pixel([4]geom.Point{{}, {X: pw}, {X: pw, Y: ph}, {Y: ph}}[j]))
		}
		s, err := FromSheet(context.Background(), g, clicks, c.paper, Shot{})
		if err != nil {
			t.Errorf("photo %d: %v", i, err)
			continue
		}
		off := farthestOff(s.Map, truth, w, h)
		t.Logf("photo %d: off by up to %.2f mm, %.2f said, K1 %.4f of %.4f", i, off, s.Far, s.Map.Lens.K1, c.k1)
		offs = append(offs, off)
		if off > 3*s.Far || s.Misfit.RMS > 0.1 || s.Misfit.Points < 200 {
			t.Errorf("photo %d: off by up to %.2f mm, said to be %.2f", i, off, s.Far)
		}
		known, err := FromSheet(context.Background(), g, clicks, c.paper, Shot{Focal35: 26, Lens: &truth.Lens})
		if err != nil || farthestOff(known.Map, truth, w, h) > 0.7 {
			t.Errorf("photo %d with a known lens: off by up to %.2f mm: %v", i, farthestOff(known.Map, truth, w, h), err)
		}
	}
	if m := quantile(offs, 0.5); m > 0.5 {
		t.Errorf("off by up to %.2f mm in the middle photo, want 0.5", m)
	}
}

// A card as bright as the table is seen by its colour, and is called rough.
func TestCardIsRough(t *testing.T) {
	const w, h = 700, 600
	truth := camera26(w, h, geom.Pt(20, 60), 260, 5, 70, 3, 0)
	card := func(p geom.Point) bool {
		x, y := math.Abs(p.X-Card.Height/2), math.Abs(p.Y-Card.Width/2)
		dx, dy := max(x-(Card.Height/2-3.18), 0), max(y-(Card.Width/2-3.18), 0)
		return math.Hypot(dx, dy) <= 3.18
	}
	plane := func(on, off float64, seed uint64) *image.Gray {
		return photograph(func(p geom.Point) float64 {
			if card(p) {
				return on
			}
			return off
		}, truth, w, h, seed)
	}
	c := image.NewRGBA(image.Rect(0, 0, w, h))
	for k, g := range []*image.Gray{plane(40, 110, 1), plane(70, 75, 2), plane(140, 50, 3)} {
		for i, v := range g.Pix {
			c.Pix[4*i+k] = v
		}
	}
	r := rand.New(rand.NewPCG(3, 4))
	var clicks [4]geom.Point
	for k, p := range []geom.Point{{}, {X: Card.Height}, {X: Card.Height, Y: Card.Width}, {Y: Card.Width}} {
		clicks[k] = click(r, truth.Pixel(p))
	}
	s, err := FromSheet(context.Background(), plane(85, 85, 4), clicks, Card, Shot{Color: c})
	if err != nil {
		t.Fatal(err)
	}
	if !s.Rough || !strings.Contains(s.Say(""), "rough check only") {
		t.Errorf("a card is said to be %q", s.Say(""))
	}
	if off := farthestOff(s.Map, truth, w, h); off > 3*s.Far || off > 3 {
		t.Errorf("off by up to %.2f mm, %.2f said", off, s.Far)
	}
}

func TestSheetRefuses(t *testing.T) {
	const w, h = 600, 600
	g := image.NewGray(image.Rect(0, 0, w, h))
	for i := range g.Pix {
		g.Pix[i] = 120
	}
	square := [4]geom.Point{{X: 100, Y: 100}, {X: 400, Y: 100}, {X: 400, Y: 400}, {X: 100, Y: 400}}
	page := [4]geom.Point{{X: 100, Y: 100}, {X: 310, Y: 100}, {X: 310, Y: 397}, {X: 100, Y: 397}}
	for _, c := range []struct {
		name   string
		clicks [4]geom.Point
		want   string
	}{
		{"nothing there", page, "edge cannot be made out"},
		{"a square", square, "do not have the shape"},
		{"one corner twice", [4]geom.Point{page[0], page[0], page[2], page[3]}, "click each corner once"},
		{"beside the photo", [4]geom.Point{page[0], page[1], page[2], {X: -5, Y: 300}}, "outside the photo"},
		{"no place", [4]geom.Point{page[0], page[1], page[2], {X: math.NaN()}}, "outside the photo"},
	} {
		_, err := FromSheet(context.Background(), g, c.clicks, A4, Shot{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := FromSheet(ctx, g, page, A4, Shot{}); err == nil {
		t.Error("went on after it was called off")
	}
}
