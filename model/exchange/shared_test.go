package exchange

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// told is a sheet in words: every piece with its sizes and lines.
func told(s Sheet) string {
	var out []string
	for _, p := range s.Pieces {
		say := p.Name + ":"
		for _, o := range p.Outlines {
			say += " " + sizeLabel(o.Sizes())
		}
		if p.OneForAll {
			say += " for all"
		}
		for _, l := range p.Lines {
			say += fmt.Sprintf("; %s %s", l.Kind, sizeLabel(l.Sizes()))
		}
		out = append(out, say)
	}
	return strings.Join(out, "\n")
}

// The drawing was read by a person: Back in three lines for four sizes, Cuff in
// two sizes, Tie, Pocket and loop once for all.
func TestLinesThatServeSeveralSizes(t *testing.T) {
	f, err := os.Open(filepath.Join("testdata", "shared", "nest.svg"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := ReadSVG(f, euChart())
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		"Back: 36 38/40 42; waist 36; waist 38/40; notch 38/40; waist 42; grain 36/38/40/42; dart all sizes; inner all sizes; inner all sizes",
		"Cuff: 36 42",
		"Tie: 36/38/40/42 for all",
		"Pocket: 36/38/40/42 for all; grain all sizes",
		"loop: 36/38/40/42 for all",
	}, "\n")
	if got := told(s); got != want {
		t.Errorf("read as\n%s\nwant\n%s", got, want)
	}
	warned := strings.Join(s.Warnings, "|")
	if warned != "3 lines belong to no piece and were left out.|The layer “44-60” is no size of the chart and was left out." {
		t.Errorf("warnings %q", s.Warnings)
	}
}

func square(x, size float64) geom.Path {
	return geom.Polyline(geom.Pt(x, 10), geom.Pt(x+size, 10), geom.Pt(x+size, 10+size), geom.Pt(x, 10+size), geom.Pt(x, 10))
}

func TestSharedLinesReadBack(t *testing.T) {
	piece := func(name string, x, size float64) GradedPiece {
		return GradedPiece{
			Name: name, Edges: []NamedEdge{{"edge", square(x, size)}},
			Lines: []GradedLine{{"grain", geom.Polyline(geom.Pt(x+5, 15), geom.Pt(x+5, 5+size))}},
		}
	}
	for _, c := range []struct {
		chart  model.SizeChart
		layers []Graded
		want   string
	}{
		{euChart(), []Graded{
			{Size: "36", Pieces: []GradedPiece{piece("Front", 10, 30)}},
			{Size: "38", Also: []string{"40"}, Pieces: []GradedPiece{piece("Front", 10, 35)}},
			{Size: "42", Pieces: []GradedPiece{piece("Front", 10, 40)}},
			{Pieces: []GradedPiece{piece("Pocket", 100, 20)}},
		}, "Front: 36 38/40 42; grain 36; grain 38/40; grain 42\nPocket: 36/38/40/42 for all; grain all sizes"},
		{letterChart(), []Graded{
			{Size: "S", Also: []string{"M"}, Pieces: []GradedPiece{piece("Front", 10, 30)}},
			{Size: "L", Also: []string{"XL", "2-3X"}, Pieces: []GradedPiece{piece("Front", 10, 35)}},
		}, "Front: S/M L/XL/2-3X; grain S/M; grain L/XL/2-3X"},
	} {
		var b bytes.Buffer
		if err := WriteSVG(&b, c.layers...); err != nil {
			t.Fatal(err)
		}
		s, err := ReadSVG(bytes.NewReader(b.Bytes()), c.chart)
		if err != nil {
			t.Fatal(err)
		}
		if got := told(s); got != c.want || len(s.Warnings) > 0 {
			t.Errorf("reads back as\n%s\nwant\n%s\nwarnings %q", got, c.want, s.Warnings)
		}
		samePath(t, c.layers[1].Pieces[0].Edges[0].Path, s.Pieces[0].Outlines[1].Ring, 1e-4)
	}
}

// sheetOf is a sheet of layers by label, each with closed squares by name.
func sheetOf(layers ...[2]string) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" viewBox="0 0 100 100">`)
	for i, l := range layers {
		x := 5
		if l[1] != "Front" {
			x = 60
		}
		ring := fmt.Sprintf(`<rect x="%d" y="5" width="20" height="%d"><title>%s</title></rect>`, x, 20+i, l[1])
		if l[0] == "" {
			b.WriteString(ring)
		} else {
			fmt.Fprintf(&b, `<g><title>%s</title>%s</g>`, l[0], ring)
		}
	}
	return b.String() + `</svg>`
}

func TestOneSizePrinted(t *testing.T) {
	const loose = ""
	for _, c := range []struct {
		svg, size, want string
	}{
		// Named in the drawing: what has no label is of that size too.
		{sheetOf([2]string{"38", "Front"}, [2]string{loose, "Pocket"}), "", "Front: 38\nPocket: 38"},
		{sheetOf([2]string{"38/40", "Front"}, [2]string{"one size", "Pocket"}), "", "Front: 38/40\nPocket: 38/40"},
		// Named by the sewist.
		{sheetOf([2]string{loose, "Front"}, [2]string{"One size", "Pocket"}), "40", "Front: 40\nPocket: 40"},
		{sheetOf([2]string{"lines", "Front"}), "92", "Front: 40"},
		// The drawing's own label stands against what was chosen.
		{sheetOf([2]string{"38", "Front"}), "40", "Front: 38"},
		// Sizes named after the piece.
		{sheetOf([2]string{loose, "Front, size 36"}, [2]string{loose, "Front, sizes 38-40"}, [2]string{"36", "Tie (all sizes)"}), "", "Front: 36 38/40\nTie: 36/38/40 for all"},
		// Several sizes elsewhere: the same for all.
		{sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"}, [2]string{loose, "Pocket"}), "", "Front: 36 38\nPocket: 36/38 for all"},
		{sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"}, [2]string{"38", "Pocket"}), "", "Front: 36 38\nPocket: 38"},
		{sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"}, [2]string{"36-42", "Tie"}), "", "Front: 36 38\nTie: 36/38/40/42 for all"},
		{sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"}, [2]string{"36/38", "Tie"}, [2]string{"40-42", "Godet"}), "", "Front: 36 38\nTie: 36/38 for all\nGodet: 40/42"},
		{sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"}, [2]string{loose, "Tie"}, [2]string{"42", "Godet"}), "", "Front: 36 38\nTie: 36/38 for all\nGodet: 42"},
	} {
		s, err := ReadSVG(strings.NewReader(c.svg), euChart())
		if c.size != "" {
			s, err = ReadOneSize(strings.NewReader(c.svg), euChart(), c.size)
		}
		if err != nil {
			t.Fatal(err)
		}
		if got := told(s); got != c.want {
			t.Errorf("%s\nread as %q\nwant    %q", c.svg, got, c.want)
		}
	}
	if _, err := ReadOneSize(strings.NewReader(sheetOf([2]string{loose, "Front"})), euChart(), "39"); err == nil || !strings.Contains(err.Error(), "has no size 39") {
		t.Errorf("a size off the chart: %v", err)
	}
}

// What labels contradict is refused by one sentence that says where.
func TestLabelsThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		svg  string
		want []string
	}{
		{sheetOf([2]string{"38/40", "Front"}, [2]string{"40", "Front"}), []string{"Size 40", "“Front”"}},
		{sheetOf([2]string{"38/42", "Front"}, [2]string{"40", "Front"}), []string{"“Front”", "38/42", "size 40"}},
		{sheetOf([2]string{"38", "Front"}, [2]string{"all sizes", "Tie"}, [2]string{"all sizes", "Tie"}), []string{"Two pieces for all sizes", "“Tie”"}},
		{sheetOf([2]string{"38/39", "Front"}), []string{"No group", "38/39"}},
	} {
		s, err := ReadSVG(strings.NewReader(c.svg), euChart())
		if err == nil || len(s.Pieces) > 0 {
			t.Fatalf("%s is read", c.svg)
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%q does not say %q", err, w)
			}
		}
	}
}

// The order of the layers does not count.
func TestSharedLinesInAnyOrder(t *testing.T) {
	layers := [][2]string{{"42", "Front"}, {"38-40", "Front"}, {"34", "Front"}, {"36", "Front"}}
	for range layers {
		layers = slices.Concat(layers[1:], layers[:1])
		s, err := ReadSVG(strings.NewReader(sheetOf(layers...)), euChart())
		if err != nil || told(s) != "Front: 34 36 38/40 42" {
			t.Errorf("%v: %q, %v", layers, told(s), err)
		}
	}
}

// What is drawn beside the pieces does not become a piece: nameless or of a name
// that several have, tiny, round others, or said to be something else.
func TestWhatIsBesideThePieces(t *testing.T) {
	nest := sheetOf([2]string{"36", "Front"}, [2]string{"38", "Front"})
	for _, c := range []struct {
		drawn string
		piece bool
	}{
		{`<rect id="pocket" x="60" y="5" width="20" height="20"/>`, true},
		{`<rect id="rect12" x="60" y="5" width="20" height="20"/>`, false},
		{`<rect id="pocket" x="60" y="5" width="19" height="20"/>`, false},
		{`<rect id="test-square" x="60" y="5" width="25" height="25"/>`, false},
		{`<rect id="surround" x="1" y="1" width="98" height="98"/>`, false},
		{`<g><title>Sign</title><rect x="60" y="5" width="25" height="25"/></g>`, false},
		{`<rect x="60" y="5" width="25" height="25"><title>Star</title></rect><rect x="60" y="50" width="25" height="25"><title>Star</title></rect>`, false},
		{`<rect id="pocket" x="8" y="8" width="2" height="2"/>`, false},
	} {
		s, err := ReadSVG(strings.NewReader(strings.Replace(nest, "</svg>", c.drawn+"</svg>", 1)), euChart())
		if err != nil {
			t.Fatalf("%s: %v", c.drawn, err)
		}
		if got := len(s.Pieces) > 1; got != c.piece {
			t.Errorf("%s is a piece: %v\n%s", c.drawn, got, told(s))
		}
	}
}
