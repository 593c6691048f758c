package straight

import (
	"context"
	"image"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"quarterstep/model/geom"
)

// matWith is a mat of cells with lines of 0.6 mm, dashed ones between, and a
// sheet of paper on its middle.
func matWith(cell, lines, ground float64, sheet geom.Box) scene {
	return func(p geom.Point) float64 {
		if sheet.Contains(p) {
			return 215
		}
		dx := math.Abs(p.X - cell*math.Round(p.X/cell))
		dy := math.Abs(p.Y - cell*math.Round(p.Y/cell))
		hx := math.Abs(math.Mod(math.Abs(p.X), cell) - cell/2)
		hy := math.Abs(math.Mod(math.Abs(p.Y), cell) - cell/2)
		dash := math.Mod(math.Abs(p.X+p.Y), 3) < 1.5
		if min(dx, dy) < 0.3 || dash && min(hx, hy) < 0.125 {
			return lines
		}
		return ground
	}
}

// One clicked square is enough: the grid around a sheet is found, its lens with
// it, and every crossing to a tenth of a pixel, on light lines and on dark.
func TestMatIsFoundFromOneSquare(t *testing.T) {
	const w, h = 1100, 1300
	for i, c := range []struct {
		cell, lines, ground float64
		tilt, roll, k1      float64
	}{
		{25.4, 190, 90, 8, 4, 0.015},
		{25.4, 60, 200, 14, -70, -0.02},
		{20, 190, 80, 5, 175, 0.01},
	} {
		mid := geom.Pt(150, 180)
		truth := camera26(w, h, mid, 420, c.tilt, 60, c.roll, c.k1)
		sheet := geom.Box{Min: mid, Max: mid}.Grow(85)
		g := photograph(matWith(c.cell, c.lines, c.ground, sheet), truth, w, h, uint64(i))
		r := rand.New(rand.NewPCG(uint64(i), 9))
		corner := geom.Pt(c.cell*math.Floor((mid.X-120)/c.cell), c.cell*math.Floor(mid.Y/c.cell))
		var clicks [4]geom.Point
		for k, d := range []geom.Vec{{}, {X: c.cell}, {X: c.cell, Y: c.cell}, {Y: c.cell}} {
			clicks[k] = click(r, truth.Pixel(corner.Add(d)))
		}
		m, err := FromMat(context.Background(), g, Grid{Corners: clicks, Cell: c.cell}, Shot{})
		if err != nil {
			t.Errorf("mat %d: %v", i, err)
			continue
		}
		worst := 0.0
		for _, p := range m.Crossed {
			at := truth.MM(p.Pixel)
			on := geom.Pt(c.cell*math.Round(at.X/c.cell), c.cell*math.Round(at.Y/c.cell))
			worst = max(worst, truth.Pixel(on).Dist(p.Pixel))
			if sheet.Contains(at) {
				t.Errorf("mat %d: a crossing is found at %v, under the sheet", i, at)
			}
		}
		off := farthestOff(m.Map, truth, w, h)
		t.Logf("mat %d: %d crossings, off by up to %.3f px; photo off by up to %.3f mm; K1 %.4f of %.4f", i, len(m.Crossed), worst, off, m.Map.Lens.K1, c.k1)
		if len(m.Crossed) < 60 || worst > 0.15 || off > 0.2 {
			t.Errorf("mat %d: %d crossings, off by up to %.3f px; photo off by up to %.3f mm", i, len(m.Crossed), worst, off)
		}
		if got := m.Misfit.Points; got != len(m.Crossed) || m.Misfit.Worst > 0.2 {
			t.Errorf("mat %d: misfit %+v of %d crossings", i, m.Misfit, len(m.Crossed))
		}
	}
}

func TestMatRefuses(t *testing.T) {
	const w, h = 500, 500
	truth := camera26(w, h, geom.Pt(0, 0), 400, 3, 0, 0, 0)
	g := photograph(func(geom.Point) float64 { return 90 }, truth, w, h, 1)
	clicks := [4]geom.Point{{X: 200, Y: 200}, {X: 240, Y: 200}, {X: 240, Y: 240}, {X: 200, Y: 240}}
	for _, c := range []struct {
		name string
		grid Grid
		want string
	}{
		{"no lines", Grid{Corners: clicks, Cell: 25.4}, "no lines cross where you clicked"},
		{"no size", Grid{Corners: clicks}, "say how large its squares are"},
	} {
		if _, err := FromMat(context.Background(), g, c.grid, Shot{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	if _, err := FromMat(context.Background(), image.NewGray(image.Rect(0, 0, 40, 40)), Grid{Corners: clicks, Cell: 10}, Shot{}); err == nil {
		t.Error("clicks beside the photo are taken")
	}
}

// A rectangle of counted squares does as well as one square, and a wrong count
// is not taken.
func TestMatFromCountedSquares(t *testing.T) {
	const w, h, cell = 900, 900, 25.4
	truth := camera26(w, h, geom.Pt(100, 100), 330, 7, 200, 5, 0.01)
	g := photograph(matWith(cell, 190, 90, geom.Box{Min: geom.Pt(80, 80), Max: geom.Pt(120, 120)}), truth, w, h, 3)
	var clicks [4]geom.Point
	for k, p := range []geom.Point{{X: 2, Y: 2}, {X: 5, Y: 2}, {X: 5, Y: 6}, {X: 2, Y: 6}} {
		clicks[k] = truth.Pixel(geom.Pt(p.X*cell, p.Y*cell)).Add(geom.Vec{X: 2, Y: -2})
	}
	m, err := FromMat(context.Background(), g, Grid{Corners: clicks, Across: 3, Down: 4, Cell: cell}, Shot{})
	if err != nil {
		t.Fatal(err)
	}
	if off := farthestOff(m.Map, truth, w, h); off > 0.1 {
		t.Errorf("off by up to %.3f mm", off)
	}
	m, err = FromMat(context.Background(), g, Grid{Corners: clicks, Across: 5, Down: 7, Cell: cell}, Shot{})
	if err == nil && m.Misfit.Worst < 1 {
		t.Errorf("five by seven squares counted where there are three by four: %+v", m.Misfit)
	}
}
