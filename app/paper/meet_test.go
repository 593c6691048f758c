package paper

import (
	"context"
	"image"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
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
	if err != nil || !ok || len(marks) != 2 || last <= 0.5 || last > 1 {
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
