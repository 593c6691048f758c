package exchange

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// gradedOf cuts every ring of a sheet into edges of one cubic.
func gradedOf(s Sheet) []Graded {
	at := map[string]int{}
	var out []Graded
	for _, p := range s.Pieces {
		for _, o := range p.Outlines {
			i, ok := at[o.Size]
			if !ok {
				i = len(out)
				at[o.Size] = i
				out = append(out, Graded{Size: o.Size})
			}
			g := GradedPiece{Name: p.Name}
			for _, c := range o.Ring {
				g.Edges = append(g.Edges, NamedEdge{"edge", geom.Path{c}})
			}
			out[i].Pieces = append(out[i].Pieces, g)
		}
	}
	return out
}

func TestSVGReadsBack(t *testing.T) {
	for _, file := range []string{"blouse-eu-36-42.svg", "blouse-traced-eu-36-42.svg"} {
		before := readNest(t, file, euChart())
		var b bytes.Buffer
		if err := WriteSVG(&b, gradedOf(before)...); err != nil {
			t.Fatal(err)
		}
		after, err := ReadSVG(&b, euChart())
		if err != nil {
			t.Fatal(err)
		}
		if len(after.Pieces) != len(before.Pieces) || len(after.Warnings) > 0 {
			t.Fatalf("%s: %d pieces come back, warnings %q", file, len(after.Pieces), after.Warnings)
		}
		for i, p := range after.Pieces {
			for j, o := range p.Outlines {
				was := before.Pieces[i].Outlines[j]
				if p.Name != before.Pieces[i].Name || o.Size != was.Size {
					t.Errorf("%s comes back as %s, size %s as %s", before.Pieces[i].Name, p.Name, was.Size, o.Size)
				}
				samePath(t, was.Ring, o.Ring, 1e-4)
			}
		}
	}
}

func samePath(t interface{ Fatalf(string, ...any) }, a, b geom.Path, tol float64) {
	x, y := a.Controls(), b.Controls()
	if len(x) != len(y) {
		t.Fatalf("%d control points come back as %d", len(x), len(y))
	}
	for k := range x {
		if d := x[k].Dist(y[k]); !(d <= tol) {
			t.Fatalf("control point %d comes back %g mm off: %v as %v", k, d, x[k], y[k])
		}
	}
}

// TestAnyRingReadsBack holds the round trip for rings and names of any kind.
func TestAnyRingReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-5000, 5000)
		pt := func(name string) geom.Point { return geom.Pt(mm.Draw(t, name+"x"), mm.Draw(t, name+"y")) }
		ring := geom.Path{}
		start := pt("start")
		at := start
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			c := geom.Cubic{P0: at, P1: pt("h"), P2: pt("k"), P3: pt("p")}
			ring, at = append(ring, c), c.P3
		}
		ring = append(ring, geom.Line(at, start))
		if math.Abs(ring.Area()) < 10 || at.Dist(start) < 1 {
			return
		}
		for _, c := range ring { // the reader leaves out a curve of no size
			if box := geom.BoxOf(c.P0, c.P1, c.P2, c.P3); max(box.Width(), box.Height()) < 0.01 {
				return
			}
		}
		name := rapid.StringMatching(`[A-Za-z<&>"'äß][A-Za-z <&>"']{0,12}[a-z<&>]`).Draw(t, "name")
		var b bytes.Buffer
		if err := WriteSVG(&b, Graded{Size: "40", Pieces: []GradedPiece{{Name: name, Edges: []NamedEdge{{"all", ring}}}}}); err != nil {
			t.Fatal(err)
		}
		s, err := ReadSVG(&b, euChart())
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Pieces[0].Name; got != strings.Join(strings.Fields(name), " ") {
			t.Fatalf("%q comes back as %q", name, got)
		}
		got := s.Pieces[0].Outlines[0].Ring
		page := pageFor(ring.Bounds()).Min
		samePath(t, ring, got.Move(geom.Vec(page)), 1e-4)
	})
}

func TestWrittenLines(t *testing.T) {
	square := geom.Polyline(geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(40, 40), geom.Pt(0, 40), geom.Pt(0, 0))
	grain := geom.Polyline(geom.Pt(10, 5), geom.Pt(10, 35))
	var b bytes.Buffer
	err := WriteSVG(&b, Graded{Size: "48"}, Graded{Size: "38", Pieces: []GradedPiece{{Name: "Back", Edges: []NamedEdge{{"", square}}, Lines: []GradedLine{{"grain", grain}}}}})
	if err != nil {
		t.Fatal(err)
	}
	s, err := ReadSVG(&b, euChart())
	if err != nil {
		t.Fatal(err)
	}
	if l := s.Pieces[0].Lines; len(l) != 1 || l[0].Name != "Back grain" || l[0].Size != "38" {
		t.Errorf("lines come back as %+v", l)
	}
	if err := WriteSVG(&b, Graded{Size: "38", Pieces: []GradedPiece{{Name: "Back"}}}); err == nil || !strings.Contains(err.Error(), "Back, size 38") {
		t.Errorf("a piece without a line: %v", err)
	}
}

func TestJSON(t *testing.T) {
	third := geom.Pt(1.0/3, -1e-9)
	g := Graded{Size: "48", Pieces: []GradedPiece{{Name: "Back <bodice>", Edges: []NamedEdge{
		{"side seam", geom.Path{{P0: third, P1: geom.Pt(1, 2), P2: geom.Pt(3, 4), P3: geom.Pt(5.25, 6)}}},
		{"hem", geom.Path{{P0: geom.Pt(5.25, 6), P1: geom.Pt(5, 5), P2: geom.Pt(4, 4), P3: third}}},
	}}}}
	var b bytes.Buffer
	if err := WriteJSON(&b, g); err != nil {
		t.Fatal(err)
	}
	const want = `{"unit":"mm","size":"48","pieces":[{"name":"Back <bodice>","edges":[` +
		`{"name":"side seam","cubics":[[0.333333,0,1,2,3,4,5.25,6]]},` +
		`{"name":"hem","cubics":[[5.25,6,5,5,4,4,0.333333,0]]}]}]}` + "\n"
	if b.String() != want {
		t.Errorf("wrote %s\nwant  %s", b.String(), want)
	}
	if !json.Valid(b.Bytes()) {
		t.Error("not valid JSON")
	}
	g.Pieces[0].Edges[1].Path = nil
	if err := WriteJSON(&b, g); err == nil || !strings.Contains(err.Error(), "hem of Back <bodice>, size 48") {
		t.Errorf("an edge without a line: %v", err)
	}
}

func TestCSV(t *testing.T) {
	for _, c := range []struct {
		unit model.Unit
		want string
	}{
		// 42.85714 mm are 4.285714 cm and, of 25.4 mm each, 1.687289 in.
		{"", "Back, upper|underarm|40|48|42.857|0.000|bust|back waist length|4.2857|0.0000"},
		{model.Inches, "Back, upper|underarm|40|48|42.857|0.000|bust|back waist length|1.6873|0.0000"},
	} {
		var b bytes.Buffer
		err := WriteCSV(&b, []Increment{{"Back, upper", "underarm", "40", "48", 42.85714, -0.00001, "bust", "back waist length"}}, c.unit)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) != 2 || strings.Join(rows[1], "|") != c.want {
			t.Errorf("rows %q, want %q", rows, c.want)
		}
	}
}

// What is not known is empty, not nought; a name is no formula.
func TestMeasuresAsATable(t *testing.T) {
	var b bytes.Buffer
	err := WriteMeasures(&b, []Finished{
		{Place: "bust", Size: "48", From: "graded", Body: Known(1100), Own: true, Garment: Known(1182.5), Ease: Known(82.5)},
		{Place: "=1+1", Size: "48", From: "graded", Garment: Known(0)},
	}, model.Centimetres)
	if err != nil {
		t.Fatal(err)
	}
	const want = "place,size,from,body cm,body by,garment cm,ease cm\n" +
		"bust,48,graded,110.0000,wearer,118.2500,8.2500\n" +
		"'=1+1,48,graded,,,0.0000,\n"
	if b.String() != want {
		t.Errorf("wrote\n%s\nwant\n%s", b.String(), want)
	}
}

// Words stand in the drawing, turned, and do not come back as lines; words
// without an ordinary place are refused.
func TestWordsInADrawing(t *testing.T) {
	square := geom.Polyline(geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(40, 40), geom.Pt(0, 40), geom.Pt(0, 0))
	piece := GradedPiece{Name: "Back", Edges: []NamedEdge{{"", square}}, Words: []GradedWords{{Text: "Cut <2> 🧵\x00", At: geom.Pt(20, 10), Size: 4.5, Turn: math.Pi / 2}}}
	var b bytes.Buffer
	if err := WriteSVG(&b, Graded{Size: "38", Pieces: []GradedPiece{piece}}); err != nil {
		t.Fatal(err)
	}
	const want = `<text transform="translate(20 10) rotate(90)" font-family="Lato, sans-serif" font-size="4.5" text-anchor="middle" fill="blue">Cut &lt;2&gt; 🧵` + "\uFFFD</text>"
	if !strings.Contains(b.String(), want) {
		t.Errorf("no %s in\n%s", want, b.String())
	}
	s, err := ReadSVG(&b, euChart())
	if err != nil || len(s.Pieces) != 1 || len(s.Pieces[0].Lines) != 0 || len(s.Warnings) != 0 {
		t.Errorf("it comes back as %+v, %v", s, err)
	}
	for _, bad := range []GradedWords{{Text: "x", Size: math.NaN()}, {Text: "x", Size: 4, At: geom.Pt(math.Inf(1), 0)}, {Text: "x", Size: 4, Turn: math.NaN()}} {
		piece.Words = []GradedWords{bad}
		b.Reset()
		if err := WriteSVG(&b, Graded{Size: "38", Pieces: []GradedPiece{piece}}); err == nil || b.Len() > 0 {
			t.Errorf("%+v: %v, %d bytes", bad, err, b.Len())
		}
	}
}
