package spread_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading/nest"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
)

// The shares of the lengthwise lines of each piece add up to a quarter of the
// girth step, and of the crosswise ones to the step of the length.
func TestTheSharesMakeAQuarter(t *testing.T) {
	c := chart(t, "us-misses")
	p := blouse(t, c, "12")
	for _, q := range []model.Piece{p.Pieces[0], p.Pieces[1]} {
		sum := map[model.Measure]float64{}
		all, err := spread.Defaults(q, c)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range all {
			sum[d.Cut.Measure] += d.Cut.Share
			if d.Name == "" || d.Status == "" {
				t.Errorf("%s: a line without name or status", q.Name)
			}
		}
		if math.Abs(sum[model.Bust]-0.25) > 1e-12 || math.Abs(sum[model.BackWaist]-1) > 1e-12 || len(all) != 5 {
			t.Errorf("%s: %d lines, shares %v", q.Name, len(all), sum)
		}
	}
}

// The quarter rule: 2 in of bust are 1/2 in at the side of each quarter, 1 1/2
// in are 3/8 in (T. Horlamus, Threads no. 101, pp. 66-70: overall grade / 4 =
// allocated grade, then shared over the cut lines). The neck gets a quarter of
// that and the shoulder tip half, which is common practice.
func TestTheQuarterRule(t *testing.T) {
	c := chart(t, "us-misses")
	q := withDefaults(t, quarterFront(), c)
	for girth, quarter := range map[float64]float64{1: 0.25, 1.5: 0.375, 2: 0.5} {
		before, got := q.Nest[0].Edges, edges(t, q, grows{model.Bust: girth * inch})
		for j, want := range map[int]float64{0: 0, 1: 1, 2: 1, 3: 0.5, 4: 0.25, 5: 0} {
			d := got[j].Start().Sub(before[j].Start())
			if math.Abs(d.X-want*quarter*inch) > 1e-6 || math.Abs(d.Y) > 1e-9 {
				t.Errorf("%g in: the %s moves by %v in, want %g across", girth, q.Points[j].Name, d.Scale(1/inch), want*quarter)
			}
		}
	}
}

// The quarter worked by hand in package draft (after the way of common
// practice): 1 1/2 in of bust give 3/8 in at the underarm and the waist, and two
// lengths of 1/8 in, above the waist, give 1/8 at the underarm and 1/4 at neck
// and shoulder. Cut and spread counts the length down from the top, so the
// heights are compared from the waist.
func TestTheQuarterWorkedByHand(t *testing.T) {
	_, after := draft.QuarterFront()
	q := withDefaults(t, quarterFront(), chart(t, "us-misses"))
	got := edges(t, q, grows{model.Bust: 1.5 * inch, model.BackWaist: 0.25 * inch})
	drop := got[0].Start().Y - after[0].Y
	for _, j := range []int{0, 1, 2} {
		if d := got[j].Start().Add(geom.Vec{Y: -drop}).Dist(after[j]); d > 1e-6 {
			t.Errorf("the %s lies %.4f mm from where it was worked out by hand", q.Points[j].Name, d)
		}
	}
	for _, j := range []int{3, 4, 5} { // across, neck and shoulder are divided otherwise there
		if d := got[j].Start().Y - drop - after[j].Y; math.Abs(d) > 1e-6 {
			t.Errorf("the %s lies %.4f mm too low", q.Points[j].Name, d)
		}
	}
}

// Four quarters of a blouse grow together by the girth step, at the bust and at
// the waist, for every step of the misses' chart (published, see the chart).
func TestFourQuartersGrowByTheStep(t *testing.T) {
	c := chart(t, "us-misses")
	p := blouse(t, c, "12")
	for to, size := range c.Sizes {
		g := grows{}
		for _, m := range []model.Measure{model.Bust, model.BackWaist} {
			v, _ := c.At(float64(to), m)
			from, _ := c.At(3, m)
			g[m] = v - from
		}
		for _, name := range []string{"underarm", "side waist"} {
			var sum float64
			for _, q := range p.Pieces[:2] {
				q = withDefaults(t, q, c)
				k := q.PointIndex(strings.ReplaceAll(name, " ", "-"))
				sum += 2 * (edges(t, q, g)[k].Start().X - q.Nest[0].Edges[k].Start().X)
			}
			if math.Abs(sum-g[model.Bust]) > 1e-9 {
				t.Errorf("size %s: at the %s the blouse grows %.6f mm, the bust %.6f", size.Name, name, sum, g[model.Bust])
			}
		}
	}
}

// By the other way, a nest graded by its chart, the underarm of the same blouse
// goes as far across, at every size where bust and waist grow alike also its
// waist.
func TestAgainstTheNestGradedByChart(t *testing.T) {
	c := chart(t, "en13402-women")
	several, err := draft.Blouse(c, []string{"36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	one := blouse(t, c, "38")
	for i := range 2 {
		fit, err := nest.New(several.Pieces[i], c)
		if err != nil {
			t.Fatal(err)
		}
		q := withDefaults(t, one.Pieces[i], c)
		for _, size := range []string{"34", "44", "52"} {
			place, _ := c.Place(size)
			graded, _, _ := fit.Edges(model.Target{Place: float64(place)})
			bust, _ := c.At(float64(place), model.Bust)
			got := edges(t, q, grows{model.Bust: bust - 880})
			for _, name := range []string{"underarm", "side-waist"} {
				k := q.PointIndex(name)
				if d := got[k].Start().X - graded[k].Start().X; math.Abs(d) > 1e-6 {
					t.Errorf("%s of %s, size %s: spread lies %.6f mm farther out than the nest", name, q.Name, size, d)
				}
			}
		}
	}
}

// A sleeve grows in width by a quarter of the bust's step, 1/4 in for 1 in, and
// its cap by 1/16 in (common practice); its grain line stays.
func TestTheSleeve(t *testing.T) {
	c := chart(t, "us-misses")
	q := withDefaults(t, blouse(t, c, "12").Pieces[2], c)
	was, got := q.Nest[0].Edges, edges(t, q, grows{model.Bust: inch})
	back, crown, front := q.PointIndex("back-underarm"), q.PointIndex("crown"), q.PointIndex("front-underarm")
	width := func(e []geom.Path) float64 { return e[front].Start().X - e[back].Start().X }
	if d := width(got) - width(was); math.Abs(d-inch/4) > 1e-9 {
		t.Errorf("the sleeve grows %.4f in wide, want 1/4", d/inch)
	}
	height := func(e []geom.Path) float64 { return e[back].Start().Y - e[crown].Start().Y }
	if d := height(got) - height(was); math.Abs(d-inch/16) > 1e-9 {
		t.Errorf("the cap grows %.4f in high, want 1/16", d/inch)
	}
	if got[crown].Start() != was[crown].Start() {
		t.Error("the crown moved")
	}
}

func TestASkirtQuarter(t *testing.T) {
	corners := []geom.Point{{}, {X: 180}, {X: 240, Y: 600}, {Y: 600}}
	q := ring("Skirt front", corners, []string{"waistline", "side seam", "hem", "centre front"}, 3)
	for i, n := range []string{"centre waist", "side waist", "side hem", "centre hem"} {
		q.Points[i].Name = n
	}
	q = withDefaults(t, q, chart(t, "us-misses"))
	got := edges(t, q, grows{model.Hip: 2 * inch})
	for i, x := range []float64{0, 180 + inch/2, 240 + inch/2, 0} {
		if math.Abs(got[i].Start().X-x) > 1e-9 {
			t.Errorf("the %s lies at %.3f, want %.3f", q.Points[i].Name, got[i].Start().X, x)
		}
	}
}

func TestNoDefaultsWhereThePieceDoesNotTell(t *testing.T) {
	c := chart(t, "us-misses")
	p := blouse(t, c, "12")
	unnamed := p.Pieces[1]
	unnamed.Points = append([]model.GradePoint(nil), unnamed.Points...)
	for i := range unnamed.Points {
		unnamed.Points[i].Name = ""
	}
	loose := p.Pieces[1]
	loose.Edges = append([]model.Edge(nil), loose.Edges...)
	for i := range loose.Edges {
		loose.Edges[i].Kind = model.Plain
	}
	bare := c
	bare.Name, bare.Sizes = "bare", []model.ChartSize{{Name: "12"}}
	for name, tc := range map[string]struct {
		q    model.Piece
		c    model.SizeChart
		want string
	}{
		"no names":  {unnamed, c, "name its grade points"},
		"no centre": {loose, c, "fold or at the centre"},
		"no bust":   {p.Pieces[1], bare, "has no bust"},
		"a cuff":    {p.Pieces[5], c, "lay them by hand"},
	} {
		if _, err := spread.Defaults(tc.q, tc.c); err == nil || !strings.Contains(err.Error(), tc.want) || !strings.Contains(err.Error(), tc.q.Name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A chart without the length takes 1/8 in per size at each of two lines.
func TestLengthsBySteps(t *testing.T) {
	c := chart(t, "en13402-women")
	q := withDefaults(t, blouse(t, c, "38").Pieces[1], c)
	k := q.PointIndex("side-waist")
	got := edges(t, q, grows{model.Steps: 3})[k].Start().Y - q.Nest[0].Edges[k].Start().Y
	if math.Abs(got-3*inch/4) > 1e-9 {
		t.Errorf("three sizes lengthen it by %.4f in, want 3/4", got/inch)
	}
}
