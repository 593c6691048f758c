package dart_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A dart with its mouth in a straight side, kept narrower or wider: the leg end
// slides along the side, closed form.
func TestKeptWidthOnAStraightSide(t *testing.T) {
	q, edges := sided(16, upright(), upright(), 2)
	d := read(t, q)
	near(t, "width", d.Width(edges), 32, 1e-9)
	for _, wide := range []float64{20, 31, 33, 50} {
		got, err := d.Keep(edges, wide)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "kept width", d.Width(got), wide, 2e-6)
		a, b := got[d.From].Start(), got[d.To].Start()
		near(t, "leg ends beside the side", math.Abs(a.X-100)+math.Abs(b.X-100), 0, 1e-9)
		for _, j := range []int{1, d.To} {
			if !got[j].IsStraight(1e-9) {
				t.Errorf("the side at edge %d is bent", j+1)
			}
		}
	}
	if got, err := d.Keep(edges, 32); err != nil || &got[0] != &edges[0] {
		t.Errorf("a dart as wide as wanted was touched (%v)", err)
	}
	if _, err := d.Keep(edges, 900); err == nil {
		t.Error("a dart wider than its seam was drawn")
	}
}

func TestKeptWidths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, edges := drawn(t)
		d := read(t, q)
		wide := d.Width(edges) + rapid.Float64Range(-4, 12).Draw(t, "wider")
		got, err := d.Keep(edges, wide)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "kept width", d.Width(got), wide, 2e-6)
		moved := 0
		for j := range got {
			if got[j].Start() != edges[j].Start() {
				moved++
			}
		}
		if moved > 1 {
			t.Errorf("%d grade points moved", moved)
		}
	})
}
