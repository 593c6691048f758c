package pdf_test

import (
	"bytes"
	"math"
	"testing"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// The pieces of an invented community theatre's wardrobe, drawn for these
// tests: nests of smooth closed lines in several sizes.

var sizes = []string{"36", "38", "40", "42", "44", "46", "48", "50"}

// ring is a bodice-like closed line of n cubics, wide by high mm, about (0, 0).
func ring(wide, high float64, n int) geom.Path {
	at := func(a float64) geom.Point {
		r := 1 + 0.16*math.Cos(3*a) + 0.07*math.Sin(5*a)
		return geom.Pt(wide/2.4*r*math.Cos(a), high/2.4*r*math.Sin(a))
	}
	slope := func(a float64) geom.Vec {
		const h = 1e-5
		return at(a + h).Sub(at(a - h)).Scale(1 / (2 * h))
	}
	var p geom.Path
	step := 2 * math.Pi / float64(n)
	for i := range n {
		a, b := float64(i)*step, float64(i+1)*step
		if i == n-1 {
			b = 0
		}
		p = append(p, geom.Cubic{
			P0: at(a), P1: at(a).Add(slope(a).Scale(step / 3)),
			P2: at(b).Add(slope(b).Scale(-step / 3)), P3: at(b),
		})
	}
	return p
}

// nest is a piece in the first n sizes, each with a line to cut and one to sew.
func nest(name string, wide, high float64, n int) printing.Piece {
	q := printing.Piece{Name: name, Grain: geom.Vec{Y: 1}}
	for i := range n {
		grow := float64(i-n+1) * 12
		ink := printing.Ink{B: 0.1 * float64(i)}
		cut, sew := ring(wide+grow, high+grow, 60), ring(wide+grow-30, high+grow-30, 60)
		var dash []float64
		if i < n-1 {
			dash = []float64{float64(3 + 2*i), 2}
		}
		q.Strokes = append(q.Strokes,
			printing.Stroke{Path: cut, Width: 0.45, Ink: ink, Dash: dash, Layer: "Size " + sizes[i]},
			printing.Stroke{Path: sew, Width: 0.25, Ink: ink, Dash: []float64{3, 2}, Layer: "Size " + sizes[i]})
		q.Outline = cut
	}
	q.Strokes = append(q.Strokes, printing.Stroke{Path: geom.Polyline(geom.Pt(30, -100), geom.Pt(30, 100)), Width: 0.25})
	q.Labels = []printing.Label{
		{Text: name, Size: 7, Bold: true},
		{Text: "Cut 2", At: geom.Pt(0, 8), Size: 4.5},
	}
	return q
}

func wardrobe(n int) []printing.Piece {
	return []printing.Piece{
		nest("Doublet front", 330, 640, n), nest("Doublet back", 340, 660, n), nest("Sleeve", 400, 620, n),
		nest("Collar", 150, 240, n), nest("Pocket", 130, 150, n),
	}
}

func options() pdf.Options {
	return pdf.Options{
		Title: "Harlequin doublet", Note: "size 48, for the third player",
		Regular: assets.LatoRegular, Bold: assets.LatoBold,
	}
}

func setup(t testing.TB, paper string) tile.Setup {
	t.Helper()
	p, err := tile.ParsePaper(paper)
	if err != nil {
		t.Fatal(err)
	}
	return tile.Setup{Paper: p, Margin: 10, Overlap: 10}
}

func planOf(t testing.TB, pieces []printing.Piece, s tile.Setup) tile.Plan {
	t.Helper()
	placed, err := tile.Arrange(pieces, s)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := tile.Layout(placed, s)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func written(t testing.TB, plan tile.Plan, o pdf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, plan, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
