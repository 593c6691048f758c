package grading_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// demo is a drafted garment whose true line is known at every place of its
// chart: it is drafted there anew.
type demo struct {
	name, chart string
	draft       func(model.SizeChart, []string) (model.Pattern, error)
	at          func(model.SizeChart, float64) ([]draft.Drafted, error)
	sizes       []string
	// moved are the grade points that are drafted until seams meet, so that
	// they are not linear in the body, with what they may be off, in mm; every
	// other point must be met exactly.
	moved map[string]float64
}

var demos = []demo{
	{
		name: "blouse 38-44", chart: "en13402-women", draft: draft.Blouse, at: draft.BlouseAt,
		sizes: []string{"38", "40", "42", "44"}, moved: blouseMoved,
	},
	{
		name: "blouse 34-40", chart: "en13402-women", draft: draft.Blouse, at: draft.BlouseAt,
		sizes: []string{"34", "36", "38", "40"}, moved: blouseMoved,
	},
	{
		name: "waistcoat 12-16", chart: "us-misses", draft: draft.Waistcoat, at: draft.WaistcoatAt,
		sizes: []string{"12", "14", "16"},
		moved: map[string]float64{
			"Front, shoulder tip": 0.12, "Front, facing mark": 0.06, "Front, side waist": 0.15,
			"Front, side hem": 1.2, "Front, facing mark at the hem": 0.3,
			"Front facing, outer shoulder": 0.06, "Front facing, inner hem": 0.3,
		},
	},
}

var blouseMoved = map[string]float64{
	"Front bodice, shoulder tip": 0.05, "Front bodice, dart peak": 0.6, "Front bodice, lower dart leg": 0.6, "Front bodice, side hem": 0.1,
	"Sleeve, crown": 5, "Sleeve, front hem": 0.1,
	"Cuff, upper left": 0.1, "Cuff, upper right": 0.1, "Cuff, lower left": 0.1, "Cuff, lower right": 0.1,
}

// How near the draft the graded line must be, mm.
const (
	beyondEnds = 0.01 // of an edge, beyond the worse of its two ends
	atPrint    = 1e-9
	exactPoint = 1e-6
)

func (d demo) pattern(t *testing.T) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID(d.chart)
	if !ok {
		t.Fatalf("no chart %s", d.chart)
	}
	p, err := d.draft(c, d.sizes)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// apart is the largest distance in mm between two lines, looked for both ways.
func apart(a, b geom.Path) float64 {
	var most float64
	for _, pair := range [][2]geom.Path{{a, b}, {b, a}} {
		for _, c := range pair[0] {
			for i := range 9 {
				_, _, d := pair[1].Nearest(c.At(float64(i)/8), 1e-7)
				most = math.Max(most, d)
			}
		}
	}
	return most
}

// sameControls is the largest distance in mm of control points of two lines, or
// infinite where they are not as many.
func sameControls(a, b geom.Path) float64 {
	ca, cb := a.Controls(), b.Controls()
	if len(ca) != len(cb) {
		return math.Inf(1)
	}
	var most float64
	for k := range ca {
		most = math.Max(most, ca[k].Dist(cb[k]))
	}
	return most
}

// The truth is the draft itself, drawn anew at each place from three below the
// print to eight above. Where two ends of an edge follow two measures that the
// printed sizes cannot tell apart (on EN 13402-3 bust, waist and hip all grow
// 4 cm from 34 to 44), how they share the edge is a guess. In the demos' sides,
// whose handles each go with the end they belong to, it is the right one.
func TestDemosAgainstTheirDrafts(t *testing.T) {
	for _, d := range demos {
		t.Run(d.name, func(t *testing.T) {
			p := d.pattern(t)
			var g grading.Grader
			first, _ := p.Chart.Place(d.sizes[0])
			last, _ := p.Chart.Place(d.sizes[len(d.sizes)-1])
			var log table
			off := map[string]bool{}
			for place := max(0, first-3); place <= min(last+8, len(p.Chart.Sizes)-1); place++ {
				p.Target.Place = float64(place)
				truth, err := d.at(p.Chart, float64(place))
				if err != nil {
					t.Fatal(err)
				}
				d.compare(t, p, mustGrade(t, &g, p), truth, &log, off)
			}
			for name := range d.moved {
				if !off[name] {
					t.Errorf("%s is met exactly; take it off the list", name)
				}
			}
			t.Logf("worst distance in mm of each edge, by place of the chart:\n%s", log.text())
		})
	}
}

func (d demo) compare(t *testing.T, p model.Pattern, r grading.Result, truth []draft.Drafted, log *table, notExact map[string]bool) {
	printed := slices.Contains(d.sizes, r.Size)
	for i, q := range r.Pieces {
		at := func(k int) float64 { return q.Edges[k].Start().Dist(truth[i].Edges[k].Start()) }
		for j, e := range q.Edges {
			next := (j + 1) % len(q.Edges)
			off := apart(e, truth[i].Edges[j])
			if printed {
				off = sameControls(e, truth[i].Edges[j])
			}
			log.add(q.Name+", "+p.Pieces[i].Edges[j].Name, off)
			may := math.Max(at(j), at(next)) + beyondEnds
			if printed {
				may = atPrint
			}
			if !(off <= may) {
				t.Errorf("size %s: %s of %s is %.4f mm off, may be %.4f", r.Size, p.Pieces[i].Edges[j].Name, q.Name, off, may)
			}
			point, name := exactPoint, q.Name+", "+p.Pieces[i].Points[j].Name
			if v, ok := d.moved[name]; ok {
				point = v
				notExact[name] = notExact[name] || at(j) > exactPoint
			}
			if !(at(j) <= point) {
				t.Errorf("size %s: %s of %s is %.6f mm off, may be %g", r.Size, p.Pieces[i].Points[j].Name, q.Name, at(j), point)
			}
		}
	}
}

// table is one row of figures for each edge, in the order they came first.
type table struct {
	names []string
	rows  map[string][]float64
}

func (l *table) add(name string, v float64) {
	if l.rows == nil {
		l.rows = map[string][]float64{}
	}
	if _, ok := l.rows[name]; !ok {
		l.names = append(l.names, name)
	}
	l.rows[name] = append(l.rows[name], v)
}

func (l *table) text() string {
	var b strings.Builder
	for _, n := range l.names {
		fmt.Fprintf(&b, "%-40s", n)
		for _, v := range l.rows[n] {
			fmt.Fprintf(&b, " %6.3f", v)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Between two printed sizes the drafts are met too: half way and a third.
func TestDemosBetweenPrintedSizes(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		var g grading.Grader
		first, _ := p.Chart.Place(d.sizes[0])
		for _, place := range []float64{float64(first) + 0.5, float64(first) + 1.0/3} {
			p.Target.Place = place
			truth, err := d.at(p.Chart, place)
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range mustGrade(t, &g, p).Pieces {
				for j, e := range q.Edges {
					if off := apart(e, truth[i].Edges[j]); off > 0.06 {
						t.Errorf("%s at place %.2f: %s of %s is %.4f mm off", d.name, place, p.Pieces[i].Edges[j].Name, q.Name, off)
					}
				}
			}
		}
	}
}
