package handsheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/handsheet"
	"quarterstep/printing/tile"
)

func options(t testing.TB, paper string, unit measure.Unit) handsheet.Options {
	t.Helper()
	p, err := tile.ParsePaper(paper)
	if err != nil {
		t.Fatal(err)
	}
	return handsheet.Options{Paper: p, Unit: unit, Regular: assets.LatoRegular, Bold: assets.LatoBold}
}

// ring is an invented piece with n points on an oval, each printed in gaps and
// drawn in stages.
func ring(n, gaps, stages int) handsheet.Sheet {
	at := func(k int, r float64) geom.Point {
		a := 2 * math.Pi * float64(k) / float64(n)
		return geom.Pt(200+r*math.Cos(a), 300+1.5*r*math.Sin(a))
	}
	s := handsheet.Sheet{
		Pattern: "Lantern cloak (invented)", Piece: "Cloak", Cut: "Cut 2", From: "40", To: "size 48", Method: "by chart", Date: "1 March 2026",
		Notes: []string{"A note of its own."},
	}
	for i := range gaps {
		s.Gaps = append(s.Gaps, fmt.Sprintf("%d–%d", 40-2*(gaps-i), 42-2*(gaps-i)))
	}
	for i := range stages {
		s.Stages = append(s.Stages, fmt.Sprint(48-4*(stages-1-i)))
	}
	for k := range n {
		s.Printed = append(s.Printed, geom.Path{geom.Line(at(k, 100), at(k+1, 100))})
		s.Wanted = append(s.Wanted, geom.Path{geom.Line(at(k, 130), at(k+1, 130))})
		p := handsheet.Point{Name: fmt.Sprintf("corner %d", k+1), At: at(k, 130), Right: at(k, 1).X > 200}
		for i := range gaps {
			p.Out.Gaps = append(p.Out.Gaps, 5+float64(i))
			p.Down.Gaps = append(p.Down.Gaps, -2.5)
		}
		for i := range stages {
			p.Out.Stages = append(p.Out.Stages, 7.25*float64(i+1)+float64(k))
			p.Down.Stages = append(p.Down.Stages, -5*float64(i+1))
		}
		s.Points = append(s.Points, p)
		how := "Rule a straight line"
		if k%3 == 1 {
			how = "Trace the size 40 curve"
		}
		s.Edges = append(s.Edges, handsheet.Edge{Name: fmt.Sprintf("side %d", k+1), How: how})
	}
	return s
}

func written(t testing.TB, sheets []handsheet.Sheet, o handsheet.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := handsheet.Write(&b, sheets, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The two test squares are 5 cm and 2 in each way, 1 in = 25.4 mm, on the first
// page of each piece, whole on the paper. Papers: ISO 216 and ANSI/ASME Y14.1.
func TestSquaresAreTrue(t *testing.T) {
	for _, c := range []struct {
		paper      string
		wide, high float64
	}{{"A4", 210, 297}, {"Letter", 215.9, 279.4}} {
		pages := readPDF(t, written(t, []handsheet.Sheet{ring(6, 3, 2), ring(5, 2, 1)}, options(t, c.paper, measure.Inches)))
		if len(pages) != 2 {
			t.Fatalf("%s: %d pages, want 2", c.paper, len(pages))
		}
		for i, p := range pages {
			if math.Abs(p.wide-c.wide) > 0.01 || math.Abs(p.high-c.high) > 0.01 {
				t.Errorf("%s: page %d is %.3f x %.3f mm", c.paper, i+1, p.wide, p.high)
			}
			if len(p.boxes) != 2 {
				t.Fatalf("%s: page %d has %d squares", c.paper, i+1, len(p.boxes))
			}
			for k, side := range []float64{50, 50.8} {
				b := p.boxes[k]
				if math.Abs(b.Width()-side) > 0.001 || math.Abs(b.Height()-side) > 0.001 {
					t.Errorf("%s: page %d: a square of %.4f x %.4f mm, want %v", c.paper, i+1, b.Width(), b.Height(), side)
				}
				if b.Min.X < 6 || b.Min.Y < 6 || b.Max.X > c.wide-6 || b.Max.Y > c.high-6 {
					t.Errorf("%s: page %d: a square at %v, off what printers print", c.paper, i+1, b)
				}
			}
		}
	}
}

// Every point is in the table, and every amount; totals are rounded once: 7.25
// and 14.5 of the first point, not 7.5 doubled.
func TestEveryPointIsListed(t *testing.T) {
	for _, n := range []int{2, 7, 11, 16, 40} {
		s := ring(n, 3, 2)
		s.Points = append(s.Points, handsheet.Point{
			Name: "point of the dart", At: geom.Pt(200, 300),
			Out:  handsheet.Moves{Gaps: []float64{1, 2, math.NaN()}, Stages: []float64{3, 99}},
			Down: handsheet.Moves{Gaps: []float64{1, 2, math.NaN()}, Stages: []float64{3, 88}},
		})
		pages := readPDF(t, written(t, []handsheet.Sheet{s}, options(t, "A4", measure.Centimetres)))
		all := ""
		for _, p := range pages {
			all += p.text()
		}
		for k, p := range s.Points {
			if c := strings.Count(all, "\n"+p.Name+"\n"); c != 1 {
				t.Errorf("%d points: point %d is in the table %d times", n, k+1, c)
			}
			want := measure.Format(p.Out.Total(), measure.HalfMM)
			if !strings.Contains(all, "\n"+want+"\n") {
				t.Errorf("%d points: %s has no total %s", n, p.Name, want)
			}
		}
		for _, want := range []string{"7.5", "14.5", "99", "88", "–", "34–36", "38–40", "44", "48", "1 March 2026"} {
			if !strings.Contains(all, "\n"+want+"\n") {
				t.Errorf("%d points: no %q", n, want)
			}
		}
		for k := range s.Edges {
			want := fmt.Sprintf("%d to %d, side %d", k+1, (k+1)%n+1, k+1)
			if strings.Count(all, want+"\n") != 1 {
				t.Errorf("%d points: the edge %q is listed %d times", n, want, strings.Count(all, want+"\n"))
			}
		}
	}
}

// A table that is long runs on, with the drawing repeated: its numbers are on
// every page.
func TestLongTablesRunOn(t *testing.T) {
	for _, c := range []struct {
		paper  string
		points int
		pages  int
	}{{"A4", 5, 1}, {"Letter", 5, 1}, {"A4", 16, 2}, {"Letter", 13, 2}, {"A4", 40, 3}} {
		pages := readPDF(t, written(t, []handsheet.Sheet{ring(c.points, 3, 2)}, options(t, c.paper, measure.Inches)))
		if len(pages) != c.pages {
			t.Errorf("%s, %d points: %d pages, want %d", c.paper, c.points, len(pages), c.pages)
		}
		for i, p := range pages {
			if i > 0 && !strings.Contains(p.text(), fmt.Sprintf("page %d of this piece\n", i+1)) {
				t.Errorf("%s: page %d does not say so", c.paper, i+1)
			}
			if !strings.Contains(p.text(), "Drawn at 1 : ") || !strings.Contains(p.text(), fmt.Sprintf("\n%d\n", c.points)) {
				t.Errorf("%s, %d points: page %d has no drawing", c.paper, c.points, i+1)
			}
		}
	}
}

// However long the names and however many the sizes, no words leave the paper
// and none lie on others. A ruler's width of 6 mm at the sides stays free: most
// printers do not reach there (common practice).
func TestWordsStayOnThePaper(t *testing.T) {
	const free = 6
	long := "The very long name of an invented theatre's travelling coat with a hood and a train"
	s := ring(9, 14, 5)
	s.Pattern, s.Piece, s.For, s.To = long, long, long, long
	s.Notes = append(s.Notes, long+". "+long+".")
	for k := range s.Points {
		s.Points[k].Name = long
		s.Edges[k].Name = long
	}
	for _, paper := range []string{"A4", "Letter"} {
		o := options(t, paper, measure.Inches)
		pages := readPDF(t, written(t, []handsheet.Sheet{s}, o))
		for i, p := range pages {
			for k, w := range p.words {
				if b := w.box; b.Min.X < free || b.Min.Y < free || b.Max.X > p.wide-free || b.Max.Y > p.high-free {
					t.Errorf("%s, page %d: %q at %v", paper, i+1, w.text, b)
				}
				for _, v := range p.words[:k] {
					if v.box.Grow(-0.1).Intersects(w.box.Grow(-0.1)) {
						t.Errorf("%s, page %d: %q lies on %q", paper, i+1, w.text, v.text)
					}
				}
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	sheets := []handsheet.Sheet{ring(6, 3, 2), ring(20, 4, 1)}
	first := written(t, sheets, options(t, "A4", measure.Inches))
	for range 5 {
		if !bytes.Equal(first, written(t, sheets, options(t, "A4", measure.Inches))) {
			t.Fatal("the same sheets gave other bytes")
		}
	}
	sheets[0].Date = "2 March 2026"
	if bytes.Equal(first, written(t, sheets, options(t, "A4", measure.Inches))) {
		t.Error("another date gave the same bytes")
	}
}

type full struct{}

var errFull = errors.New("no room on the disk")

func (full) Write([]byte) (int, error) { return 0, errFull }

// What cannot be drawn is refused with the piece, the paper or the font named.
func TestRefusals(t *testing.T) {
	good := options(t, "A4", measure.Inches)
	noFont, small := good, good
	noFont.Bold = nil
	small.Paper = tile.Paper{Name: "A5", Width: 148, Height: 210}
	bad := func(change func(*handsheet.Sheet)) []handsheet.Sheet {
		s := ring(4, 2, 1)
		change(&s)
		return []handsheet.Sheet{s}
	}
	for _, c := range []struct {
		say    string
		sheets []handsheet.Sheet
		o      handsheet.Options
		want   string
	}{
		{"nothing", nil, good, "no piece"},
		{"no font", bad(func(*handsheet.Sheet) {}), noFont, "bold font"},
		{"small paper", bad(func(*handsheet.Sheet) {}), small, "paper A5 is too small"},
		{"too few edges", bad(func(s *handsheet.Sheet) { s.Edges = s.Edges[1:] }), good, "Cloak"},
		{"no stage", bad(func(s *handsheet.Sheet) { s.Stages = nil }), good, "Cloak"},
		{"a gap missing", bad(func(s *handsheet.Sheet) { s.Points[1].Out.Gaps = nil }), good, "Cloak"},
		{"a point nowhere", bad(func(s *handsheet.Sheet) { s.Points[1].At.X = math.Inf(1) }), good, "Cloak"},
		{"a line nowhere", bad(func(s *handsheet.Sheet) { s.Printed[0][0].P1.X = math.NaN() }), good, "Cloak"},
	} {
		var b bytes.Buffer
		err := handsheet.Write(&b, c.sheets, c.o)
		if err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", c.say, err, b.Len())
		}
	}
	if err := handsheet.Write(full{}, []handsheet.Sheet{ring(4, 2, 1)}, good); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}
