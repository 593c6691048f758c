package tile_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

var update = flag.Bool("update", false, "rewrite the goldens")

func layout(t testing.TB, placed []tile.Placed, s tile.Setup) tile.Plan {
	t.Helper()
	plan, err := tile.Layout(placed, s)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func at(p printing.Piece, x, y float64) tile.Placed {
	return tile.Placed{Piece: p, At: geom.Translate(geom.Vec{X: x, Y: y})}
}

// The plan of the doublet on A4 and on A2 in words.
func TestPlanGolden(t *testing.T) {
	for _, name := range []string{"A4", "A2"} {
		s := a4()
		s.Paper, _ = tile.ParsePaper(name)
		placed, err := tile.Arrange(doublet(), s)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, "testdata/doublet-"+strings.ToLower(name)+".txt", inWords(layout(t, placed, s)))
	}
}

func inWords(p tile.Plan) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d rows, %d columns, %d pages\n", p.Rows, p.Cols, p.Pages())
	for r := range p.Rows {
		for c := range p.Cols {
			s, ok := p.At(r, c)
			if !ok {
				s.Name = "--"
			}
			fmt.Fprintf(&b, "%-4s", s.Name)
		}
		b.WriteString("\n")
	}
	for _, q := range p.Pieces {
		o := q.Piece.Outline.Transform(q.At).Bounds()
		fmt.Fprintf(&b, "%s: %.1f %.1f to %.1f %.1f, turned %.0f\n", q.Piece.Name, o.Min.X, o.Min.Y, o.Max.X, o.Max.Y,
			math.Atan2(q.At.B, q.At.A)*180/math.Pi)
	}
	for _, s := range p.Sheets {
		fmt.Fprintf(&b, "%s: window %.1f %.1f to %.1f %.1f, own %.1f %.1f to %.1f %.1f, beside %q, %d buttons, name at %.1f %.1f\n",
			s.Name, s.Window.Min.X, s.Window.Min.Y, s.Window.Max.X, s.Window.Max.Y,
			s.Own.Min.X, s.Own.Min.Y, s.Own.Max.X, s.Own.Max.Y, s.Beside, len(s.Buttons), s.NameAt.X, s.NameAt.Y)
	}
	return b.String()
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got\n%s", file, got)
	}
}

// A frame of sheets with a hole: the inside of the ring needs no paper, the
// inside of a filled piece does.
func TestBlankSheetsAreLeftOut(t *testing.T) {
	g := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	mapOf := func(p tile.Plan) string {
		lines := strings.SplitN(inWords(p), "\n", p.Rows+2)
		return g(strings.Join(lines[1:p.Rows+1], " "))
	}
	s := a4() // windows of 190 x 277, 10 shared
	for _, c := range []struct {
		name   string
		placed []tile.Placed
		want   string
	}{
		{"whole", []tile.Placed{at(oblong("Hose", 188, 275), 1, 1)}, "A1"},
		{"a hair wider", []tile.Placed{at(oblong("Hose", 189.5, 275), 1, 1)}, "A1 A2"},
		{"filled", []tile.Placed{at(oblong("Cloak", 500, 780), 1, 1)}, "A1 A2 A3 B1 B2 B3 C1 C2 C3"},
		{"corner", []tile.Placed{at(oblong("Cap", 50, 50), 1, 1), at(oblong("Cuff", 50, 50), 480, 600)}, "A1 -- -- -- -- -- -- -- C3"},
		{"in a strip", []tile.Placed{at(oblong("Tie", 5, 50), 183, 20)}, "A1"},
		{"in two strips' corner", []tile.Placed{at(oblong("Tab", 5, 5), 183, 270)}, "A1"},
		{"strip beside a sheet in use", []tile.Placed{at(oblong("Tie", 5, 50), 183, 20), at(oblong("Cap", 50, 50), 250, 60)}, "A1"},
		{"up and to the left", []tile.Placed{at(oblong("Hose", 100, 100), -500, -900)}, "A1"},
		{"line only", []tile.Placed{{Piece: printing.Piece{Name: "Tape", Strokes: []printing.Stroke{{
			Path: geom.Polyline(geom.Pt(5, 5), geom.Pt(300, 5), geom.Pt(300, 500)), Width: 0.3,
		}}}, At: geom.Identity()}}, "A1 A2 -- B2"},
	} {
		if got := mapOf(layout(t, c.placed, s)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
	if p := layout(t, nil, s); len(p.Sheets) != 0 || !p.Cover() || p.Pages() != 1 {
		t.Errorf("without pieces: %+v", p)
	}
}

// Wherever pieces lie, every point of their lines is in the window of a
// printed sheet, line width and all; and windows lie on one grid.
func TestAllInkIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := a4()
		s.Overlap = rapid.SampledFrom([]float64{0, 5, 10, 15}).Draw(t, "overlap")
		s.Landscape = rapid.Bool().Draw(t, "landscape")
		var placed []tile.Placed
		for _, p := range rapid.SliceOfN(rapid.IntRange(0, 11), 1, 4).Draw(t, "pieces") {
			m := geom.Translate(geom.Vec{X: rapid.Float64Range(-500, 900).Draw(t, "x"), Y: rapid.Float64Range(-500, 900).Draw(t, "y")})
			placed = append(placed, tile.Placed{Piece: doublet()[p], At: m.Mul(geom.Rotate(rapid.Float64Range(-4, 4).Draw(t, "turn")))})
		}
		plan, err := tile.Layout(placed, s)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range placed {
			o := q.Piece.Outline.Transform(q.At)
			for _, p := range append(o.Flatten(0.3), inside(o)...) {
				if !printed(plan, p) {
					t.Fatalf("%s at %v is on no sheet", q.Piece.Name, p)
				}
			}
		}
		first := plan.Sheets[0]
		for _, sh := range plan.Sheets {
			w, h := s.Size()
			step := geom.Vec{X: w - 2*s.Margin - s.Overlap, Y: h - 2*s.Margin - s.Overlap}
			want := first.Window.Min.Add(geom.Vec{X: step.X * float64(sh.Col-first.Col), Y: step.Y * float64(sh.Row-first.Row)})
			if sh.Window.Min.Dist(want) > 1e-6 {
				t.Fatalf("%s lies at %v, want %v", sh.Name, sh.Window.Min, want)
			}
		}
	})
}

func printed(p tile.Plan, at geom.Point) bool {
	for _, s := range p.Sheets {
		if s.Window.Contains(at) {
			return true
		}
	}
	return false
}

// inside are points of a net inside an outline.
func inside(o geom.Path) []geom.Point {
	var out []geom.Point
	b := o.Bounds()
	for i := 1; i < 8; i++ {
		for j := 1; j < 8; j++ {
			p := geom.Pt(b.Min.X+b.Width()*float64(i)/8, b.Min.Y+b.Height()*float64(j)/8)
			if o.Contains(p, 0.1) {
				out = append(out, p)
			}
		}
	}
	return out
}

func TestSidesOfSheets(t *testing.T) {
	plan := layout(t, []tile.Placed{at(oblong("Cloak", 300, 400), 1, 1)}, a4())
	b2, ok := plan.At(1, 1)
	if !ok || b2.Name != "B2" || b2.Beside != [4]string{"B1", "A2", "", ""} {
		t.Fatalf("%+v", b2)
	}
	if !b2.Trim(tile.Left) || !b2.Trim(tile.Up) || b2.Trim(tile.Right) || b2.Glue(tile.Down) {
		t.Error("B2 is trimmed on its left and above, and nothing is glued to it")
	}
	a1, _ := plan.At(0, 0)
	if !a1.Glue(tile.Right) || !a1.Glue(tile.Down) || a1.Trim(tile.Left) {
		t.Error("A1 takes its neighbours' edges on the right and below")
	}
	// The join lies in the middle of the 10 mm shared: 185 and 272.
	if a1.Own.Max != geom.Pt(185, 272) || b2.Own.Min != geom.Pt(185, 272) {
		t.Errorf("joins at %v and %v", a1.Own.Max, b2.Own.Min)
	}
	if s := a1.Strip(tile.Right); s.Width() != 5 || s.Height() != 277 || !a1.Strip(tile.Up).Empty() {
		t.Errorf("glue strip %v", s)
	}
	page := plan.OnPage(b2)
	if p := page.Apply(b2.Window.Min); p != geom.Pt(10, 10) {
		t.Errorf("the window begins at %v on the page", p)
	}
}

// Names of sheets and words in strips keep clear of lines and buttons where
// there is room.
func TestWordsKeepClear(t *testing.T) {
	s := a4()
	placed, err := tile.Arrange(doublet(), s)
	if err != nil {
		t.Fatal(err)
	}
	plan := layout(t, placed, s)
	tips := 0
	for _, sh := range plan.Sheets {
		name := geom.Box{Min: sh.NameAt.Add(geom.Vec{Y: -7}), Max: sh.NameAt.Add(geom.Vec{X: 13})}
		if !sh.Own.Contains(name.Min) || !sh.Own.Contains(name.Max) {
			t.Errorf("%s: its name runs off the sheet", sh.Name)
		}
		rooms := []geom.Box{name}
		for side, b := range sh.Tips {
			if b.Empty() {
				continue
			}
			tips++
			rooms = append(rooms, b)
			if strip := sh.Strip(tile.Side(side)); !strip.Contains(b.Min) || !strip.Contains(b.Max) {
				t.Errorf("%s: the words of side %d are not in its strip", sh.Name, side)
			}
		}
		for _, room := range rooms {
			for _, q := range placed {
				for _, p := range q.Piece.Outline.Transform(q.At).Flatten(0.01) {
					if room.Contains(p) {
						t.Errorf("%s: words lie on a line of %s", sh.Name, q.Piece.Name)
					}
				}
			}
			for _, b := range sh.Buttons {
				if room.Grow(b.R).Contains(b.At) {
					t.Errorf("%s: words lie on a button", sh.Name)
				}
			}
		}
	}
	if tips < len(plan.Sheets) {
		t.Errorf("only %d strips have words", tips)
	}
}

// A single sheet with room carries the scale check itself, clear of pieces;
// without room it has a page of its own.
func TestScaleCheckGoesWhereThereIsRoom(t *testing.T) {
	s := a4()
	s.Paper, _ = tile.ParsePaper("A2")
	plan := layout(t, []tile.Placed{at(oblong("Hose", 180, 400), 1, 1)}, s)
	if plan.Cover() || plan.Pages() != 1 {
		t.Fatal("there is room on the sheet")
	}
	if !plan.Sheets[0].Window.Grow(1e-6).Contains(plan.Panel.Max) || plan.Panel.Min.X < 181+5 && plan.Panel.Min.Y < 401+5 {
		t.Errorf("the scale check lies at %v", plan.Panel)
	}
	if math.Abs(plan.Panel.Width()-tile.PanelWidth) > 1e-9 || math.Abs(plan.Panel.Height()-tile.PanelHeight) > 1e-9 {
		t.Errorf("the scale check has %g x %g mm", plan.Panel.Width(), plan.Panel.Height())
	}
	plan = layout(t, []tile.Placed{at(oblong("Hose", 380, 500), 1, 1)}, s)
	if !plan.Cover() || plan.Pages() != 2 {
		t.Error("there is no room on the sheet")
	}
}

func TestLayoutRefuses(t *testing.T) {
	broken := oblong("Ruff", 50, 50)
	broken.Strokes[0].Path = geom.Path{{P0: geom.Pt(math.NaN(), 0)}}
	for name, c := range map[string]struct {
		placed tile.Placed
		want   string
	}{
		"stretched": {tile.Placed{Piece: oblong("Ruff", 50, 50), At: geom.ScaleXY(0.995, 0.995)}, "Ruff"},
		"mirrored":  {tile.Placed{Piece: oblong("Ruff", 50, 50), At: geom.ScaleXY(-1, 1)}, "Ruff"},
		"no place":  {tile.Placed{Piece: oblong("Ruff", 50, 50)}, "Ruff"},
		"nowhere":   {at(oblong("Ruff", 50, 50), math.NaN(), 0), "Ruff"},
		"no number": {at(broken, 0, 0), "Ruff"},
		"empty":     {at(printing.Piece{Name: "Ruff"}, 0, 0), "no line"},
		"enormous":  {at(oblong("Ruff", 5e4, 5e4), 0, 0), "2000 sheets"},
	} {
		if _, err := tile.Layout([]tile.Placed{c.placed}, a4()); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := tile.Layout(nil, tile.Setup{}); err == nil {
		t.Error("no paper")
	}
}
