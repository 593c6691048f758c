package draft_test

import (
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// demo is one of the two garments with its own chart and printed sizes.
type demo struct {
	name    string
	chart   string
	sizes   []string
	pattern func(model.SizeChart, []string) (model.Pattern, error)
	at      func(model.SizeChart, float64) ([]draft.Drafted, error)
}

var demos = []demo{
	{"blouse", "en13402-women", []string{"34", "36", "38", "40"}, draft.Blouse, draft.BlouseAt},
	{"waistcoat", "us-misses", []string{"8", "10", "12", "14"}, draft.Waistcoat, draft.WaistcoatAt},
}

func (d demo) draw(t *testing.T) model.Pattern {
	t.Helper()
	p, err := d.pattern(chartOf(t, d.chart), d.sizes)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func chartOf(t *testing.T, id string) model.SizeChart {
	t.Helper()
	c, ok := sizechart.ByID(id)
	if !ok {
		t.Fatalf("no chart %s", id)
	}
	return c
}

func TestValid(t *testing.T) {
	for _, d := range demos {
		p := d.draw(t)
		if err := p.Validate(); err != nil {
			t.Errorf("%s: %v", d.name, err)
		}
		if !strings.Contains(p.Note, "Invented") {
			t.Errorf("%s: the note does not say that it is invented: %q", d.name, p.Note)
		}
		for _, q := range p.Pieces {
			for _, g := range q.Points {
				if g.Across == "" || g.Along == "" || g.Name == "" {
					t.Errorf("%s, %s, %q: name and measures must be set", d.name, q.Name, g.Name)
				}
			}
		}
	}
}

// quadLength is the length of a path by Gauss-Legendre quadrature of another
// library (gonum), 40 places to each quarter of a cubic.
func quadLength(p geom.Path) float64 {
	var sum float64
	for _, c := range p {
		speed := func(t float64) float64 {
			s := 1 - t
			a, b, d := c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2)
			return a.Scale(3 * s * s).Add(b.Scale(6 * s * t)).Add(d.Scale(3 * t * t)).Len()
		}
		for k := range 4 {
			sum += quad.Fixed(speed, float64(k)/4, float64(k+1)/4, 40, nil, 0)
		}
	}
	return sum
}

// stitching is the stitching line of a piece in one size.
func stitching(t *testing.T, q model.Piece, size string) []geom.Path {
	t.Helper()
	o, ok := q.Printed(size)
	if !ok {
		t.Fatalf("%s is not printed in size %s", q.Name, size)
	}
	in := make([]float64, len(q.Edges))
	for i, e := range q.Edges {
		in[i] = -e.Allowance
	}
	out, err := geom.OffsetOutline(o.Edges, in, 1e-4)
	if err != nil {
		t.Fatalf("%s, size %s: %v", q.Name, size, err)
	}
	return out
}

func pieceOf(t *testing.T, p model.Pattern, id string) model.Piece {
	t.Helper()
	i := p.PieceIndex(id)
	if i < 0 {
		t.Fatalf("no piece %s", id)
	}
	return p.Pieces[i]
}

// Seams sewn together have the lengths their links promise, on the stitching
// line, in every printed size, to 0.01 mm.
func TestSeamsMeetOnTheStitchingLine(t *testing.T) {
	for _, d := range demos {
		p := d.draw(t)
		stretch := func(s model.Stretch, size string) (sum float64) {
			q := pieceOf(t, p, s.Piece)
			lines := stitching(t, q, size)
			for _, e := range s.Edges {
				sum += quadLength(lines[q.EdgeIndex(e)])
			}
			return sum
		}
		for _, size := range d.sizes {
			for _, l := range p.Links {
				if l.Kind != model.Sewn {
					continue
				}
				ease := stretch(l.Follow, size)
				for _, s := range l.Leads() {
					ease -= stretch(s, size)
				}
				if ease < l.Ease-0.01 || ease > l.Ease+l.Room+0.01 {
					t.Errorf("%s %s, %s: %.3f mm of ease, want %g to %g", d.name, size, l.ID, ease, l.Ease, l.Ease+l.Room)
				}
			}
		}
	}
}

// The whole cap is front and back armhole with the stated 22 mm to ease in,
// at least 3/8 in of it in each half and 1/4 to 3/4 in or a little more over
// all, as for a light woven blouse (sewing texts as quoted by teachers; the
// range for shirts is common practice).
func TestCapEase(t *testing.T) {
	p := demos[0].draw(t)
	front, back, sleeve := pieceOf(t, p, "front"), pieceOf(t, p, "back"), pieceOf(t, p, "sleeve")
	for _, size := range demos[0].sizes {
		capLine := stitching(t, sleeve, size)
		inFront := quadLength(capLine[sleeve.EdgeIndex("front-cap")]) - quadLength(stitching(t, front, size)[front.EdgeIndex("armhole")])
		inBack := quadLength(capLine[sleeve.EdgeIndex("back-cap")]) - quadLength(stitching(t, back, size)[back.EdgeIndex("armhole")])
		near(t, "size "+size+": cap less armholes", inFront+inBack, 22, 0.01)
		if inFront < 0.375*inch || inBack < 0.375*inch {
			t.Errorf("size %s: %.2f and %.2f mm of ease, want 3/8 in in each half", size, inFront, inBack)
		}
	}
}

// The finished garment is wider than the body by wearing ease: 3 to 4 in at
// the bust (NMSU Extension Guide C-228, table 1), at least 2 in at the hip
// (home-sewing ease charts, from memory).
func TestWearingEase(t *testing.T) {
	for _, d := range demos {
		p := d.draw(t)
		for _, size := range d.sizes {
			place, _ := p.Chart.Place(size)
			for _, c := range []struct {
				point  string
				m      model.Measure
				lo, hi float64
			}{{"underarm", model.Bust, 3, 4}, {"side-hem", model.Hip, 2, 6}} {
				if c.m == model.Hip && d.name == "waistcoat" {
					continue // it ends above the hip
				}
				var girth float64
				for _, id := range []string{"front", "back"} {
					q := pieceOf(t, p, id)
					lines := stitching(t, q, size)
					girth += 2 * lines[q.PointIndex(c.point)].Start().X
					if last := len(lines) - 1; id == "back" {
						girth -= 2 * lines[last].Start().X // the centre back seam
					}
				}
				if ease := (girth - p.Chart.Sizes[place].Body[c.m]) / inch; ease < c.lo || ease > c.hi {
					t.Errorf("%s %s: %.2f in of ease at the %s, want %g to %g", d.name, size, ease, c.m, c.lo, c.hi)
				}
			}
		}
	}
}

// A follower's edges are its leader's, point for point, on the stitching line
// too.
func TestFollowersLieOnTheirLeaders(t *testing.T) {
	for _, d := range demos {
		p := d.draw(t)
		for _, l := range p.Links {
			if l.Kind != model.SameLine {
				continue
			}
			lead, follow := pieceOf(t, p, l.Lead.Piece), pieceOf(t, p, l.Follow.Piece)
			for _, size := range d.sizes {
				a, _ := lead.Printed(size)
				b, _ := follow.Printed(size)
				for i := range l.Lead.Edges {
					from, to := a.Edges[lead.EdgeIndex(l.Lead.Edges[i])], b.Edges[follow.EdgeIndex(l.Follow.Edges[i])]
					if !slices.Equal(from, to) {
						t.Errorf("%s %s, %s: edge %s is not the line of %s", d.name, size, l.ID, l.Follow.Edges[i], l.Lead.Edges[i])
					}
				}
			}
		}
	}
}

// No line, cutting or stitching, crosses itself at any size or half size of
// the chart, and all run clockwise.
func TestOutlinesAreSimple(t *testing.T) {
	for _, d := range demos {
		c, p := chartOf(t, d.chart), d.draw(t)
		for k := range 2*len(c.Sizes) - 1 {
			place := float64(k) / 2
			pieces, err := d.at(c, place)
			if err != nil {
				t.Errorf("%s: %v", d.name, err)
				continue
			}
			for i, drawn := range pieces {
				q := p.Pieces[i]
				q.Nest = []model.Outline{{Size: "one", Edges: drawn.Edges}}
				for what, edges := range map[string][]geom.Path{"cutting": drawn.Edges, "stitching": stitching(t, q, "one")} {
					whole := geom.Join(edges...)
					if x := geom.SelfCrossings(whole, 0.01); len(x) > 0 {
						t.Errorf("%s %s, %s: the %s line crosses itself at %v", d.name, c.NameAt(place), q.Name, what, x[0].At)
					}
					if whole.Area() <= 0 {
						t.Errorf("%s %s, %s: the %s line runs backwards", d.name, c.NameAt(place), q.Name, what)
					}
				}
			}
		}
	}
}

// Drafting one place gives the printed line of the size that lies there.
func TestAtASizeIsThatSize(t *testing.T) {
	for _, d := range demos {
		c, p := chartOf(t, d.chart), d.draw(t)
		for k, size := range d.sizes {
			place, _ := c.Place(size)
			pieces, err := d.at(c, float64(place))
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range p.Pieces {
				if pieces[i].Piece != q.ID {
					t.Errorf("%s: piece %d is %s, want %s", d.name, i, pieces[i].Piece, q.ID)
				}
				for j, e := range q.Nest[k].Edges {
					if !slices.Equal(e, pieces[i].Edges[j]) {
						t.Errorf("%s %s, %s, %s differs", d.name, size, q.Name, q.Edges[j].Name)
					}
				}
			}
		}
	}
}

// Smooth points are smooth and the line keeps square where it should: to the
// fold or centre, and at the shoulder (truing rules of the trade: common
// practice).
func TestCornersAreTrue(t *testing.T) {
	for _, d := range demos {
		for _, q := range d.draw(t).Pieces {
			n := len(q.Edges)
			for _, o := range q.Nest {
				for k, g := range q.Points {
					in, out := o.Edges[(k+n-1)%n].EndDir(), o.Edges[k].StartDir()
					turn := in.Cross(out)
					if g.Smooth && (turn > 1e-6 || turn < -1e-6 || in.Dot(out) < 0) {
						t.Errorf("%s %s, %s: a kink at %s", d.name, o.Size, q.Name, g.Name)
					}
					square := g.Name == "centre back neck" || g.Name == "shoulder tip" && q.Name != "Sleeve"
					if square && q.Edges[k].Kind == model.Plain && (in.Dot(out) > 0.05 || in.Dot(out) < -0.05) {
						t.Errorf("%s %s, %s: %s is not square: cosine %.3f", d.name, o.Size, q.Name, g.Name, in.Dot(out))
					}
				}
			}
		}
	}
}

// A dart's legs are of one length, and with the dart folded down its cap lies
// along the seam below.
func TestDartFolds(t *testing.T) {
	p := demos[0].draw(t)
	q := pieceOf(t, p, "front")
	for i, o := range q.Nest {
		d := q.Darts[0]
		upper, lower := q.PointIndex(d.From), q.PointIndex(d.To)
		apex, a, b := d.Apex[i].At, o.Edges[upper].Start(), o.Edges[lower].Start()
		near(t, "leg", apex.Dist(a), apex.Dist(b), 1e-9)
		peak, leg := o.Edges[upper+1].Start(), b.Sub(apex).Unit()
		off := peak.Sub(apex)
		folded := apex.Add(leg.Scale(2 * off.Dot(leg))).Add(off.Scale(-1)) // mirrored in the leg
		below := o.Edges[lower].StartDir()
		near(t, "folded cap beside the seam", folded.Sub(b).Cross(below), 0, 1e-9)
		if folded.Sub(b).Dot(below) <= 0 {
			t.Errorf("size %s: the folded cap lies above its leg", o.Size)
		}
	}
}

// Mates' notches lie at one distance from the underarm along the seam.
func TestNotchesMeet(t *testing.T) {
	p := demos[0].draw(t)
	sleeve := pieceOf(t, p, "sleeve")
	for i, size := range demos[0].sizes {
		caps := stitching(t, sleeve, size)
		for k, id := range []string{"back", "front"} {
			q := pieceOf(t, p, id)
			arm := q.EdgeIndex("armhole")
			half := sleeve.EdgeIndex(sleeve.Notches[k].Edge)
			// Both measured from the underarm.
			bodice := along(t, q.Nest[i].Edges[arm], stitching(t, q, size)[arm], q.Notches[0].Spots[i].S, true)
			sewn := along(t, sleeve.Nest[i].Edges[half], caps[half], sleeve.Notches[k].Spots[i].S, id == "front")
			near(t, "size "+size+", "+id+" notch from the underarm", sewn, bodice, 0.01)
			if sleeve.Notches[k].Double != (id == "back") || q.Notches[0].Double != (id == "back") {
				t.Errorf("%s: one notch is for the front, two for the back", id)
			}
		}
	}
}

// The blouse is measured where its sides are matched: the hip line lies at the
// side hip, and with the waists laid together front and back reach it at one
// length of the stitched seam, to 0.1 mm.
func TestHipsMeet(t *testing.T) {
	p := demos[0].draw(t)
	for i, size := range demos[0].sizes {
		var lengths []float64
		for _, id := range []string{"front", "back"} {
			q := pieceOf(t, p, id)
			above := q.EdgeIndex("side-above-the-hip")
			lengths = append(lengths, quadLength(stitching(t, q, size)[above]))
			for _, l := range q.Lines {
				if l.Kind == model.HipLine {
					near(t, size+" "+id+": hip line", l.Drawn[i].Path.End().Y, q.Nest[i].Edges[above].End().Y, 1e-9)
				}
			}
		}
		near(t, size+": waist to hip", lengths[0], lengths[1], 0.1)
	}
}

// along is how far from the start, or the end, of the stitched line the place
// s mm along the cutting line beside it lies.
func along(t *testing.T, cut, stitched geom.Path, s float64, fromEnd bool) float64 {
	t.Helper()
	m, err := geom.Measure(cut, 1e-5)
	if err != nil {
		t.Fatal(err)
	}
	at, _, err := stitched.NearestS(m.At(s), 1e-5)
	if err != nil {
		t.Fatal(err)
	}
	if fromEnd {
		return quadLength(stitched) - at
	}
	return at
}

// A body's girth grows by its chart's step, shared over four quarters (T.
// Horlamus, Threads no. 101: the whole grade by four).
func TestGirthGrowsAsTheChart(t *testing.T) {
	for _, d := range demos {
		c, p := chartOf(t, d.chart), d.draw(t)
		girths := map[string][]float64{}
		for place := range c.Sizes {
			pieces, err := d.at(c, float64(place))
			if err != nil {
				t.Fatal(err)
			}
			for _, point := range []string{"underarm", "side-waist", "side-hem"} {
				var sum float64
				for i, q := range p.Pieces {
					if k := q.PointIndex(point); k >= 0 {
						sum += 2 * pieces[i].Edges[k].Start().X
					}
				}
				girths[point] = append(girths[point], sum)
			}
		}
		for _, m := range []struct {
			point string
			m     model.Measure
		}{{"underarm", model.Bust}, {"side-waist", model.Waist}, {"side-hem", model.Hip}} {
			for k := 1; k < len(c.Sizes); k++ {
				got := girths[m.point][k] - girths[m.point][k-1]
				want := c.Sizes[k].Body[m.m] - c.Sizes[k-1].Body[m.m]
				near(t, d.name+" "+c.Sizes[k].Name+" "+m.point, got, want, 1e-6)
			}
		}
	}
}

// Pieces lie apart on the Table.
func TestPiecesLieApart(t *testing.T) {
	for _, d := range demos {
		var boxes []geom.Box
		for _, q := range d.draw(t).Pieces {
			var box geom.Box
			for _, o := range q.Nest {
				box = box.Union(geom.Join(o.Edges...).Move(q.At).Bounds())
			}
			boxes = append(boxes, box.Grow(20))
		}
		for i, a := range boxes {
			for _, b := range boxes[:i] {
				if a.Intersects(b) {
					t.Errorf("%s: two pieces lie on each other: %v and %v", d.name, a, b)
				}
			}
		}
	}
}

func TestMistakesAreSaid(t *testing.T) {
	women, misses := chartOf(t, "en13402-women"), chartOf(t, "astm-d5585")
	for _, c := range []struct {
		chart model.SizeChart
		sizes []string
		want  string
	}{
		{women, nil, "drafting the Lantern blouse: name at least one size"},
		{women, []string{"34", "99"}, "drafting the Lantern blouse: the chart EN 13402-3 women has no size 99"},
		{misses, []string{"8"}, "drafting the Lantern blouse: the chart ASTM D5585 misses has no hip at place 5; choose a chart with bust, waist and hip"},
	} {
		if _, err := draft.Blouse(c.chart, c.sizes); err == nil || err.Error() != c.want {
			t.Errorf("%v: %v, want %q", c.sizes, err, c.want)
		}
	}
	if _, err := draft.BlouseAt(women, 16); err == nil {
		t.Error("a place off the chart was drafted")
	}
}
