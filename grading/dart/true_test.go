package dart_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A seam square to both legs is straight across the closed dart. Folded down it
// mirrors in the lower leg, and meets the middle of the dart at leg over cosine
// of half the dart's angle: closed form.
func TestTipOfAStraightSeam(t *testing.T) {
	for _, h := range []float64{5, 16, 35} {
		for _, n := range []int{1, 2} {
			above, below := onLeg(h)
			q, edges := sided(h, above, below, n)
			d := read(t, q)
			got, err := d.True(edges)
			if err != nil {
				t.Fatal(err)
			}
			leg := math.Hypot(100, h)
			tip := geom.Pt(leg/(100/leg), 0)
			first := got[2]
			if n == 1 {
				first = got[2][:1]
			}
			near(t, "distance from the tip", first.End().Dist(tip), 0, 1e-6)
			if len(got[2]) != 3-n || !got[2][:1].IsStraight(1e-6) {
				t.Errorf("the cap of %d edges is %v", n, got[2])
			}
			seams := []geom.Path{got[1], got[d.To]}
			if apart(seams, []geom.Path{edges[1], edges[d.To]}) != 0 {
				t.Error("a seam straight across the closed dart was changed")
			}
		}
	}
}

// A seam drawn straight down past a dart turns by the dart's own angle when it
// is closed: closed form.
func TestKinkOfAnUntruedDart(t *testing.T) {
	for _, h := range []float64{5, 16, 35} {
		q, edges := sided(h, upright(), upright(), 2)
		kink, step := read(t, q).Kink(edges)
		near(t, "kink", kink, 2*math.Atan(h/100)*180/math.Pi, 1e-9)
		near(t, "step", step, 0, 1e-12)
	}
}

// trued trues the seam across d; false where it turns by more than 45 degrees at the
// closed dart, which must be refused as a corner, and nothing else may be.
func trued(t *rapid.T, d dart.Dart, edges []geom.Path) ([]geom.Path, bool) {
	t.Helper()
	kink, _ := d.Kink(edges)
	got, err := d.True(edges)
	corner := err != nil && strings.Contains(err.Error(), "makes a corner")
	switch {
	case corner && kink > 44.999: // the legs are made equal first, which turns it a little
		return nil, false
	case err != nil:
		t.Fatal(err)
	case kink > 45.001:
		t.Fatalf("a corner of %.3f degrees is drawn smooth", kink)
	}
	return got, true
}

func TestTruedDarts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, edges := drawn(t)
		d := read(t, q)
		got, ok := trued(t, d, edges)
		if !ok {
			return
		}
		kink, step := d.Kink(got)
		if kink > 0.1 || math.Abs(step) > 1e-6 {
			t.Errorf("trued, the seam turns %.4f degrees and steps %.2g mm", kink, step)
		}
		a0, b0 := edges[d.From].Start(), edges[d.To].Start()
		near(t, "leg", got[d.From].Start().Dist(d.Apex), (a0.Dist(d.Apex)+b0.Dist(d.Apex))/2, 1e-9)
		for j := range got {
			if near := j == d.From-1 || j >= d.From && j <= d.To; !near && apart(got[j:j+1], edges[j:j+1]) != 0 {
				t.Errorf("edge %d was changed", j+1)
			}
			if gap := got[j].End().Dist(got[(j+1)%len(got)].Start()); gap > 1e-9 {
				t.Errorf("edge %d ends %g mm from the next", j+1, gap)
			}
		}
		if again, err := d.True(got); err != nil || apart(again[:d.From], got[:d.From]) > 1e-6 || apart(again[d.To:], got[d.To:]) > 1e-6 {
			t.Errorf("truing again moved the seam (%v)", err)
		}
	})
}

// The folded cap lies on the seam it is folded onto: none of it shows beyond.
func TestFoldedCapLiesOnTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, edges := drawn(t)
		d := read(t, q)
		got, ok := trued(t, d, edges)
		if !ok {
			return
		}
		c, err := d.Close(got)
		if err != nil {
			t.Fatal(err)
		}
		for j := d.From; j < d.To; j++ {
			for _, k := range c.Edges[j] {
				for _, u := range []float64{0.1, 0.5, 0.9} {
					if _, _, off := c.After.Nearest(k.At(u), 1e-9); off > 1e-4 {
						t.Errorf("the folded cap lies %.5f mm from the seam", off)
					}
				}
			}
		}
	})
}

// Legs are judged on the stitching line: where the seam is square to both legs
// it lies one allowance nearer to the apex on each, closed form; with the second
// seam slanted the crossing is that of two straight lines.
func TestLegsOnTheStitchingLine(t *testing.T) {
	const h, seam = 16.0, 15.0
	above, below := onLeg(h)
	q, edges := sided(h, above, below, 2)
	for j := range q.Edges {
		q.Edges[j].Allowance = seam
	}
	d := read(t, q)
	off, err := d.LegsDiffer(edges)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "difference of the legs", off, 0, 1e-3)

	q, edges = sided(h, above, upright(), 2)
	for j := range q.Edges {
		q.Edges[j].Allowance = seam
	}
	if off, err = read(t, q).LegsDiffer(edges); err != nil {
		t.Fatal(err)
	}
	// The first leg is one allowance shorter than on the cut, the second reaches
	// x = 100 - 15.
	leg := math.Hypot(100, h)
	near(t, "difference of the legs", off, (leg-seam)-leg*(100-seam)/100, 2e-3)
}

func TestDartsThatCannotBeTrued(t *testing.T) {
	above, below := onLeg(16)
	for _, c := range []struct {
		say   string
		fault func(q *model.Piece)
	}{
		{"allowances of 10.0 and 15.0 mm", func(q *model.Piece) { q.Edges[1].Allowance, q.Edges[4].Allowance = 10, 15 }},
		{"ends at a fold", func(q *model.Piece) { q.Edges[1].Kind = model.Fold }},
		{"legs shorter", func(q *model.Piece) { q.Darts[0].Apex[0].At = geom.Pt(99.9, -16) }},
		{"no width", func(q *model.Piece) { q.Darts[0].Apex[0].At = geom.Pt(-9e6, 0) }},
		{"the cap of the bust dart has 3 edges", func(q *model.Piece) { q.Darts[0].To = q.Points[5].ID }},
	} {
		q, edges := sided(16, above, below, 2)
		c.fault(&q)
		if _, err := read(t, q).True(edges); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("want %q, got %v", c.say, err)
		}
	}
	q, edges := sided(16, geom.Vec{X: 1, Y: 1}, geom.Vec{X: -1, Y: 1}, 2)
	if _, err := read(t, q).True(edges); err == nil || !strings.Contains(err.Error(), "makes a corner") {
		t.Errorf("a corner was smoothed: %v", err)
	}
}
