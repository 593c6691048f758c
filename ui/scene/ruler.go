package scene

import (
	"math"
	"strconv"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Tick is one mark of a ruler.
type Tick struct {
	At    float64 // mm from the ruler's zero
	Rank  int     // 0 for the shortest mark, 2 for one with a figure
	Label string  // the figure, without a sign; empty for most
}

// rule is how a ruler is divided at some zoom, each a whole number of the
// smallest division.
type rule struct{ small, middle, label int }

// division is the smallest division of a ruler, with how rulers and grids count
// it, closest zoom first.
type division struct {
	mm    float64
	count int     // divisions to one of the unit the figures count
	room  float64 // px from figure to figure at least: a pattern reaches past 100 cm, not past 100 in
	rules []rule
	grids [][2]int // fine and bold lines of the Table's grid
}

// Inches are counted in sixteenths, centimetres in millimetres.
var (
	inches = division{
		mm: 25.4 / 16, count: 16, room: 22,
		rules: []rule{
			{1, 8, 16}, {2, 8, 16}, {4, 8, 16}, {8, 16, 16}, {8, 16, 32}, {16, 48, 96}, {32, 96, 192}, {96, 192, 576}, {192, 576, 2304},
		},
		grids: [][2]int{{2, 16}, {4, 16}, {8, 16}, {16, 96}, {48, 192}, {96, 576}, {192, 576}, {576, 2304}},
	}
	centimetres = division{
		mm: 1, count: 10, room: 30,
		rules: []rule{
			{1, 5, 10}, {2, 10, 10}, {5, 10, 20}, {5, 10, 50}, {10, 50, 50}, {10, 50, 100}, {20, 100, 200}, {50, 100, 500}, {100, 500, 1000}, {500, 1000, 5000},
		},
		grids: [][2]int{{1, 10}, {2, 10}, {5, 50}, {10, 50}, {20, 100}, {50, 500}, {100, 500}, {500, 1000}},
	}
)

func divided(unit model.Unit) division {
	if unit == model.Inches {
		return inches
	}
	return centimetres
}

// Ticks are the marks of a ruler from from to to mm at scale px a mm: the
// smallest at least 3 px apart, figures as far as they need.
func Ticks(unit model.Unit, scale, from, to float64) []Tick {
	d := divided(unit)
	r := d.rules[len(d.rules)-1]
	for _, c := range d.rules {
		if float64(c.small)*d.mm*scale >= 3 && float64(c.label)*d.mm*scale >= d.room {
			r = c
			break
		}
	}
	var out []Tick
	step := float64(r.small) * d.mm
	if !(scale > 0) || !((to-from)/step < 1e5) {
		return nil
	}
	for k := int(math.Ceil(from / step)); float64(k)*step <= to; k++ {
		n := k * r.small
		t := Tick{At: float64(n) * d.mm}
		if n%r.middle == 0 {
			t.Rank = 1
		}
		if n%r.label == 0 {
			t.Rank, t.Label = 2, strconv.Itoa(abs(n)/d.count)
		}
		out = append(out, t)
	}
	return out
}

func abs(n int) int { return max(n, -n) }

// Grid are the lines of the Table's grid within box, counted from zero, at
// scale px a mm: fine lines at least 14 px apart under bold ones.
func Grid(unit model.Unit, scale float64, zero geom.Point, box geom.Box) Layer {
	d := divided(unit)
	g := d.grids[len(d.grids)-1]
	for _, c := range d.grids {
		if float64(c[0])*d.mm*scale >= 14 {
			g = c
			break
		}
	}
	var fine, bold []Line
	add := func(n int, a, b geom.Point) {
		l := Line{Path: geom.Polyline(a, b), Width: 1, Ink: InkGrid, Alpha: 1}
		if n%g[1] == 0 {
			l.Ink = InkGridMajor
			bold = append(bold, l)
			return
		}
		fine = append(fine, l)
	}
	step := float64(g[0]) * d.mm
	if !(scale > 0) || !((box.Width()+box.Height())/step < 1e4) {
		return Layer{}
	}
	for k := int(math.Ceil((box.Min.X - zero.X) / step)); zero.X+float64(k)*step <= box.Max.X; k++ {
		x := zero.X + float64(k)*step
		add(k*g[0], geom.Pt(x, box.Min.Y), geom.Pt(x, box.Max.Y))
	}
	for k := int(math.Ceil((box.Min.Y - zero.Y) / step)); zero.Y+float64(k)*step <= box.Max.Y; k++ {
		y := zero.Y + float64(k)*step
		add(k*g[0], geom.Pt(box.Min.X, y), geom.Pt(box.Max.X, y))
	}
	return Layer{Lines: append(fine, bold...)}
}
