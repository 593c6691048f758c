package paper

import (
	"context"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/straight"
)

// stripOfScan is the paper of paper_test.go from x0 to x1 mm, laid down so many
// pixels lower, as a scan by itself.
func stripOfScan(t *testing.T, x0, x1 float64, down int) Part {
	t.Helper()
	const perMM = 5.0
	whole := scanned(perMM)
	from, to := int(x0*perMM), int(x1*perMM)
	g := image.NewGray(image.Rect(0, 0, to-from, whole.Rect.Dy()))
	for i := range g.Pix {
		g.Pix[i] = 245
	}
	for y := range g.Rect.Dy() - down {
		copy(g.Pix[(y+down)*g.Stride:(y+down+1)*g.Stride], whole.Pix[y*whole.Stride+from:y*whole.Stride+to])
	}
	p := &Photo{Picture: picture.Picture{Gray: g, Color: rgba(g), PerInch: [2]float64{25.4 * perMM, 25.4 * perMM}}}
	s, err := p.Straighten(context.Background(), Request{Reference: Scan, Unit: "cm"})
	if err != nil {
		t.Fatal(err)
	}
	return Part{p, s}
}

// A part is laid where its overlap shows it to lie, to a millimetre, and by
// joining to a tenth; what shares nothing, or only lines that run on, is not
// laid anywhere.
func TestPartsMeetByWhatBothShow(t *testing.T) {
	ctx := context.Background()
	const perMM, down = 5.0, 15
	left, right := stripOfScan(t, 0, 120, 0), stripOfScan(t, 70, 190, down)
	last := 0.0
	marks, ok, err := right.Photo.Meet(ctx, []Part{left}, right.Straight, func(share float64) { last = share })
	if err != nil || !ok || len(marks) != 2 || last <= 0.3 || last > 1 {
		t.Fatalf("met %v: %v, %v, told up to %.2f", ok, marks, err, last)
	}
	for _, m := range marks {
		want := m.Here.Add(geom.Vec{X: 70 * perMM, Y: -down})
		if m.On != 0 || m.There.Dist(want) > perMM {
			t.Errorf("a mark at %v lies at %v, not %v", m.Here, m.There, want)
		}
	}
	j, err := right.Photo.Join(ctx, []Part{left}, right.Straight, marks, "cm")
	if err != nil {
		t.Fatal(err)
	}
	if got := j.Map.MM(geom.Pt(100, 100)); got.Dist(geom.Pt(90, 20-down/perMM)) > 0.1 {
		t.Errorf("joined, the part lies at %v", got)
	}
	if m, ok, err := stripOfScan(t, 100, 190, 0).Photo.Meet(ctx, []Part{stripOfScan(t, 0, 90, 0)}, right.Straight, nil); ok || err != nil {
		t.Errorf("parts that share nothing met at %v, %v", m, err)
	}
	empty := Part{&Photo{Picture: picture.Picture{Gray: image.NewGray(image.Rect(0, 0, 600, 750)), PerInch: [2]float64{127, 127}}}, right.Straight}
	if _, ok, err := empty.Photo.Meet(ctx, []Part{left}, right.Straight, nil); ok || err != nil {
		t.Errorf("a black picture met, %v", err)
	}
	ended, stop := context.WithCancel(ctx)
	stop()
	if _, ok, err := right.Photo.Meet(ended, []Part{left}, right.Straight, nil); ok || err == nil {
		t.Error("it went on though it was cancelled")
	}
}

// Photos are held as it comes, and paper is turned on the glass to reach its
// other side: a part turned by any of these is laid where it belongs.
func TestTurnedPartsMeet(t *testing.T) {
	const perMM = 5.0
	whole := image.NewGray(image.Rect(0, 0, int(190*perMM), int(150*perMM)))
	for i := range whole.Pix {
		whole.Pix[i] = 235
	}
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		a := geom.Pt(15+160*r.Float64(), 15+120*r.Float64())
		angle, long := 2*math.Pi*r.Float64(), 5+8*r.Float64()
		stroke(whole, a, a.Add(geom.Vec{X: long * math.Cos(angle), Y: long * math.Sin(angle)}), 0.2, perMM)
	}
	m := straight.Map{H: [9]float64{1 / perMM, 0, 0, 0, 1 / perMM, 0, 0, 0, 1}}
	// shown is what a photo of some size shows, its pixels taken to the paper's.
	shown := func(wide, high int, to geom.Affine) Part {
		g := image.NewGray(image.Rect(0, 0, wide, high))
		for y := range high {
			for x := range wide {
				at := to.Apply(geom.Pt(float64(x)+0.5, float64(y)+0.5))
				g.Pix[y*g.Stride+x] = 120 // the table
				if px := image.Pt(int(math.Floor(at.X)), int(math.Floor(at.Y))); px.In(whole.Rect) {
					g.Pix[y*g.Stride+x] = whole.GrayAt(px.X, px.Y).Y
				}
			}
		}
		p := &Photo{Picture: picture.Picture{Gray: g, Color: rgba(g)}}
		return Part{p, Straight{Map: m, Bounds: geom.Box{Max: geom.Pt(float64(wide)/perMM, float64(high)/perMM)}}}
	}
	left := shown(600, 750, geom.Identity())
	for _, degrees := range []float64{12, 90, 180, 277} {
		mid := geom.Vec{X: 650, Y: 375} // of the paper, px
		to := geom.Translate(mid).Mul(geom.Rotate(degrees * math.Pi / 180)).Mul(geom.Translate(geom.Vec{X: -300, Y: -300}))
		right := shown(600, 600, to)
		marks, ok, err := right.Photo.Meet(t.Context(), []Part{left}, right.Straight, nil)
		if err != nil || !ok {
			t.Errorf("turned by %v degrees it was not found: %v", degrees, err)
			continue
		}
		for _, k := range marks {
			if want := to.Apply(k.Here); k.There.Dist(want) > perMM {
				t.Errorf("turned by %v degrees a mark lies at %v, not %v", degrees, k.There, want)
			}
		}
	}
}
