package straight

import (
	"math/rand/v2"
	"testing"

	"quarterstep/model/geom"
)

// A cover hides what lies on its side of all four of its edges, which for
// corners that go round a convex shape is what it contains.
func TestCoverHidesWhatItContains(t *testing.T) {
	c := Cover{geom.Pt(10, 0), geom.Pt(110, 20), geom.Pt(90, 120), geom.Pt(0, 100)}
	r := rand.New(rand.NewPCG(1, 2))
	hidden := 0
	for range 5000 {
		px := geom.Pt(r.Float64()*140-15, r.Float64()*140-10)
		want := true
		for i, a := range c {
			b := c[(i+1)%len(c)]
			want = want && b.Sub(a).Cross(px.Sub(a)) > 0
		}
		if got := c.Over(px); got != want {
			t.Fatalf("at %v: hidden %v, want %v", px, got, want)
		}
		if want != Covered([]Cover{nil, c}, px) {
			t.Fatalf("at %v another answer among several", px)
		}
		if want {
			hidden++
		}
	}
	if hidden < 1000 || Covered(nil, geom.Pt(50, 50)) {
		t.Errorf("%d of 5000 places were hidden", hidden)
	}
}
