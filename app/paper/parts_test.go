package paper

import (
	"context"
	"image"
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
)

// A paper scanned in two parts that overlap, the second laid down 3 mm lower:
// joined by two clicked corners, a tenth of a millimetre off, the one flat
// picture shows the whole line where it was drawn.
func TestTwoPartsBecomeOne(t *testing.T) {
	const perMM = 5.0
	whole := scanned(perMM)
	cut := func(x0, x1, down int) *Photo {
		g := image.NewGray(image.Rect(0, 0, x1-x0, whole.Rect.Dy()))
		for i := range g.Pix {
			g.Pix[i] = 245
		}
		for y := range g.Rect.Dy() - down {
			copy(g.Pix[(y+down)*g.Stride:(y+down+1)*g.Stride], whole.Pix[y*whole.Stride+x0:y*whole.Stride+x1])
		}
		return &Photo{Name: "part.png", Picture: picture.Picture{Gray: g, Color: rgba(g), PerInch: [2]float64{25.4 * perMM, 25.4 * perMM}}}
	}
	const left, right, down = 0, 350, 15 // px: the second begins at 70 mm
	a, b := cut(left, 600, 0), cut(right, whole.Rect.Dx(), down)
	ctx := context.Background()
	first, err := a.Straighten(ctx, Request{Reference: Scan, Unit: "cm"})
	if err != nil {
		t.Fatal(err)
	}
	second, err := b.Straighten(ctx, Request{Reference: Scan, Unit: "cm"})
	if err != nil {
		t.Fatal(err)
	}
	at := func(mm geom.Point, off float64) Mark {
		there := geom.Pt(mm.X*perMM+off, mm.Y*perMM)
		return Mark{There: there, Here: geom.Pt(mm.X*perMM-right-off, mm.Y*perMM+down)}
	}
	lower := paperPiece(0)[2]
	joined, err := b.Join(ctx, []Part{{a, first}}, second, []Mark{at(geom.Pt(90, 33.6), 0.25), at(geom.Pt(100, lower.Start().Y), -0.25)}, "cm")
	if err != nil {
		t.Fatal(err)
	}
	flat, err := FlattenParts(ctx, []Part{{a, first}, {b, joined}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if w, _ := flat.Size(); math.Abs(w-190) > 1 {
		t.Errorf("together they are %.1f mm wide, not 190", w)
	}
	for j, e := range paperPiece(0) {
		m, err := geom.Measure(e, 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		for s := 4.0; s < m.Length()-4; s += 2 {
			if d := middleOff(flat, m.At(s), m.Tangent(s).Perp()); math.Abs(d) > 0.15 {
				t.Fatalf("edge %d is shown %.2f mm off where it was drawn, at %v", j+1, d, m.At(s))
			}
		}
	}
	if _, err := FlattenParts(ctx, nil, nil); err == nil {
		t.Error("no picture was made flat")
	}
}

// middleOff is how far across from a place the middle of the ink lies, mm: the
// mean of what is darker than the paper, within a millimetre.
func middleOff(f Flat, at geom.Point, across geom.Vec) float64 {
	var sum, ink float64
	for k := -40; k <= 40; k++ {
		off := float64(k) / 40
		p := at.Add(across.Scale(off)).Add(geom.Pt(0, 0).Sub(f.From))
		x, y := int(p.X*f.PerMM), int(p.Y*f.PerMM)
		dark := 245 - float64(f.Colour.RGBAAt(x, y).G)
		if dark > 10 {
			sum, ink = sum+off*dark, ink+dark
		}
	}
	return sum / ink
}
