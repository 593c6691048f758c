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

// A part taken in other light, which falls off across it, is brought to that of
// the first: no step of light is left where they meet, and no line moves.
func TestPartsAreBroughtToOneLight(t *testing.T) {
	const perMM, right = 5.0, 350
	whole := scanned(perMM)
	cut := func(x0, x1 int, light func(x int) float64) *Photo {
		g := image.NewGray(image.Rect(0, 0, x1-x0, whole.Rect.Dy()))
		for i := range g.Pix {
			x, y := i%g.Stride, i/g.Stride
			g.Pix[i] = uint8(float64(whole.Pix[y*whole.Stride+x0+x]) * light(x))
		}
		return &Photo{Name: "part.png", Picture: picture.Picture{Gray: g, Color: rgba(g), PerInch: [2]float64{25.4 * perMM, 25.4 * perMM}}}
	}
	a := cut(0, 600, func(int) float64 { return 0.95 })
	b := cut(right, whole.Rect.Dx(), func(x int) float64 { return 0.65 + 0.15*float64(x)/600 })
	ctx := context.Background()
	var all []Part
	for i, p := range []*Photo{a, b} {
		s, err := p.Straighten(ctx, Request{Reference: Scan, Unit: "cm"})
		if err != nil {
			t.Fatal(err)
		}
		s.Map.H[2] += float64(i*right) / perMM
		if err := s.bound(p); err != nil {
			t.Fatal(err)
		}
		all = append(all, Part{p, s})
	}
	flat, err := FlattenParts(ctx, all, nil)
	if err != nil {
		t.Fatal(err)
	}
	grey := func(x0, x1 float64) float64 { // of the paper above the lines
		var sum, n float64
		for x := int((x0 - flat.From.X) * perMM); x < int((x1-flat.From.X)*perMM); x++ {
			for y := range int(5 * perMM) {
				sum, n = sum+float64(flat.Colour.RGBAAt(x, y).G), n+1
			}
		}
		return sum / n
	}
	for x := 75.0; x < 140; x += 4 { // along the rim they meet at 115 to 120 mm
		if step := grey(x, x+4)/grey(x+4, x+8) - 1; math.Abs(step) > 0.02 {
			t.Errorf("at %.0f mm the paper's light steps by %.1f %%", x+4, 100*step)
		}
	}
	for j, e := range paperPiece(0) {
		m, err := geom.Measure(e, 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		for s := 4.0; s < m.Length()-4; s += 2 {
			at, across := m.At(s), m.Tangent(s).Perp()
			if d, was := inkMiddle(flat.Colour, flat.From, perMM, at, across), inkMiddle(rgba(whole), geom.Point{}, perMM, at, across); math.Abs(d-was) > 0.05 {
				t.Fatalf("edge %d is shown %.2f mm beside itself at %v", j+1, d-was, at)
			}
		}
	}
}

// inkMiddle is how far across from a place the middle of the ink lies, mm, as
// middleOff tells it, whatever the light.
func inkMiddle(img *image.RGBA, from geom.Point, perMM float64, at geom.Point, across geom.Vec) float64 {
	var paper, sum, ink float64
	look := func(off float64) float64 {
		p := at.Add(across.Scale(off)).Sub(from)
		return float64(img.RGBAAt(int(p.X*perMM), int(p.Y*perMM)).G)
	}
	for k := -40; k <= 40; k++ {
		paper = max(paper, look(float64(k)/40))
	}
	for k := -40; k <= 40; k++ {
		off := float64(k) / 40
		if dark := 1 - look(off)/paper; dark > 0.1 {
			sum, ink = sum+off*dark, ink+dark
		}
	}
	return sum / ink
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
