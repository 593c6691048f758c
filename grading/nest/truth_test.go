package nest

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// women is the girths of EN 13402-3 for women: bust as published, waist and
// hip from memory of the standard; sizes named by the usual European numbers,
// common practice.
func women() model.SizeChart {
	bust := []float64{76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152}
	waist := []float64{60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112, 118, 124, 130, 136}
	hip := []float64{84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132, 137, 142, 147, 152}
	c := model.SizeChart{ID: "women", Name: "EN 13402-3 women", Measures: []model.Measure{model.Bust, model.Waist, model.Hip}}
	for i := range bust {
		c.Sizes = append(c.Sizes, model.ChartSize{
			Name: strconv.Itoa(32 + 2*i),
			Body: map[model.Measure]float64{model.Bust: 10 * bust[i], model.Waist: 10 * waist[i], model.Hip: 10 * hip[i]},
		})
	}
	return c
}

// misses is the US home-sewing misses chart since 1968 (published, seen in a
// stored copy for 6 to 20; 22 and 24 from memory), in mm.
func misses() model.SizeChart {
	in := func(v float64) float64 { return 25.4 * v }
	rows := [][4]float64{
		{30.5, 23, 32.5, 15.5},
		{31.5, 24, 33.5, 15.75},
		{32.5, 25, 34.5, 16},
		{34, 26.5, 36, 16.25},
		{36, 28, 38, 16.5},
		{38, 30, 40, 16.75},
		{40, 32, 42, 17},
		{42, 34, 44, 17.25},
		{44, 37, 46, 17.375},
		{46, 39, 48, 17.5},
	}
	c := model.SizeChart{ID: "misses", Name: "US misses", Measures: []model.Measure{model.Bust, model.Waist, model.Hip, model.BackWaist}}
	for i, r := range rows {
		c.Sizes = append(c.Sizes, model.ChartSize{
			Name: strconv.Itoa(6 + 2*i),
			Body: map[model.Measure]float64{model.Bust: in(r[0]), model.Waist: in(r[1]), model.Hip: in(r[2]), model.BackWaist: in(r[3])},
		})
	}
	return c
}

// backAt drafts an invented bodice back at a place of the chart, so that every
// control point is linear in the measures of its edge's two ends: neck and
// shoulder go by steps, underarm by bust, waist by waist, hem by hip, a quarter
// of each girth; along the grain by back waist length or steps.
func backAt(c model.SizeChart, place float64) []geom.Path {
	m := func(k model.Measure) float64 { v, _ := c.At(place, k); return v }
	down := place
	if c.Has(model.BackWaist) {
		down = (m(model.BackWaist) - 400) / 6.35
	}
	neckC := geom.Pt(0, 23)
	hps := geom.Pt(70+1.7*place, 0)
	tip := geom.Pt(170+2.8*place, 45+0.8*down)
	arm := geom.Pt(m(model.Bust)/4+25, 200+2.4*down)
	waist := geom.Pt(m(model.Waist)/4+35, 400+3.3*down)
	hem := geom.Pt(m(model.Hip)/4+25, 560+5*down)
	hemC := geom.Pt(0, 560+5*down)
	mixed := func(a, b geom.Point, wx, wy, dx, dy float64) geom.Point {
		return geom.Pt(a.X+wx*(b.X-a.X)+dx, a.Y+wy*(b.Y-a.Y)+dy)
	}
	mid := mixed(tip, arm, 0, 0.55, -18, 0)
	curve := func(a, b geom.Point, p, q geom.Point) geom.Path { return geom.Path{{P0: a, P1: p, P2: q, P3: b}} }
	armhole := geom.Path{
		{P0: tip, P1: mixed(tip, arm, 0, 0, -8, 30), P2: mixed(tip, arm, 0, 0.35, -18, 0), P3: mid},
		{P0: mid, P1: mixed(tip, arm, 0, 0.83, -18, 0), P2: mixed(tip, arm, 0.55, 1, -8, 0), P3: arm},
	}
	return []geom.Path{
		curve(neckC, hps, mixed(neckC, hps, 0.62, 0, 0, 0), mixed(neckC, hps, 1, 0.58, -1, 0)),
		geom.Polyline(hps, tip),
		armhole,
		curve(arm, waist, mixed(arm, waist, 1./3, 1./3, -5, 0), mixed(arm, waist, 2./3, 2./3, -6, 0)),
		curve(waist, hem, mixed(waist, hem, 1./3, 1./3, 5, 0), mixed(waist, hem, 2./3, 2./3, 6, 0)),
		geom.Polyline(hem, hemC),
		geom.Polyline(hemC, neckC),
	}
}

// backPiece is backAt printed in the named sizes; names on or off the points.
func backPiece(c model.SizeChart, sizes ...string) model.Piece {
	q := model.Piece{ID: "back", Name: "Back"}
	points := []string{"centre neck", "neck point", "shoulder tip", "underarm", "waist", "side hem", "centre hem"}
	for i, name := range points {
		q.Points = append(q.Points, model.GradePoint{ID: "p" + strconv.Itoa(i+1), Name: name})
		q.Edges = append(q.Edges, model.Edge{ID: "e" + strconv.Itoa(i+1)})
	}
	q.Edges[6].Kind = model.Centre
	for _, s := range sizes {
		place, ok := c.Place(s)
		if !ok {
			panic("no size " + s)
		}
		q.Nest = append(q.Nest, model.Outline{Size: s, Edges: backAt(c, float64(place))})
	}
	return q
}

// farthest is the largest distance, mm, of places on got from the line want.
func farthest(t *testing.T, got, want geom.Path) float64 {
	t.Helper()
	m, err := geom.Measure(got, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	var worst float64
	for i := range 101 {
		_, _, d := want.Nearest(m.At(m.Length()*float64(i)/100), 1e-5)
		worst = math.Max(worst, d)
	}
	return worst
}

// shaky is q traced by hand: every size is drawn anew through places that
// waver by rms mm in waves of 30 to 130 mm, each size its own.
func shaky(t testing.TB, q model.Piece, rms float64, seed uint64) model.Piece {
	rnd := rand.New(rand.NewPCG(seed, 7))
	out := q
	out.Nest = nil
	for _, o := range q.Nest {
		wave := newWaver(rnd, rms)
		drawn := model.Outline{Size: o.Size}
		for _, e := range o.Edges {
			drawn.Edges = append(drawn.Edges, wave.trace(t, e))
		}
		for j := range drawn.Edges {
			next := drawn.Edges[(j+1)%len(drawn.Edges)]
			drawn.Edges[j][len(drawn.Edges[j])-1].P3 = next[0].P0
		}
		out.Nest = append(out.Nest, drawn)
	}
	return out
}

// waver is a sum of sine waves along the outline, in x and y.
type waver struct {
	parts [2][]wavePart
	s     float64
}

type wavePart struct{ amp, length, phase float64 }

func newWaver(rnd *rand.Rand, rms float64) *waver {
	const count = 8
	w := &waver{}
	for a := range w.parts {
		for range count {
			w.parts[a] = append(w.parts[a], wavePart{
				amp:    rms * math.Sqrt(2.0/count),
				length: 30 + 100*rnd.Float64(),
				phase:  2 * math.Pi * rnd.Float64(),
			})
		}
	}
	return w
}

func (w *waver) at(s float64) geom.Vec {
	var v [2]float64
	for a, parts := range w.parts {
		for _, p := range parts {
			v[a] += p.amp * math.Sin(2*math.Pi*s/p.length+p.phase)
		}
	}
	return geom.Vec{X: v[0], Y: v[1]}
}

func (w *waver) trace(t testing.TB, e geom.Path) geom.Path {
	m, err := geom.Measure(e, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	n := max(8, int(m.Length()/4))
	pts := make([]geom.Point, n+1)
	for i := range pts {
		s := m.Length() * float64(i) / float64(n)
		pts[i] = m.At(s).Add(w.at(w.s + s))
	}
	w.s += m.Length()
	return geom.Polyline(pts...)
}
