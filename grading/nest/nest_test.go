package nest

import (
	"math"
	"slices"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func read(t *testing.T, q model.Piece, c model.SizeChart) *Fit {
	t.Helper()
	fit, err := New(q, c)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// A nest that follows its chart exactly, six steps past its last printed size:
// 0.05 mm on edges whose ends follow one measure, 0.5 mm on the others; at the
// printed sizes no error at all. The charts are the outside check here: their
// steps are unequal beyond the print.
func TestSixStepsOut(t *testing.T) {
	oneMeasure := map[int]bool{0: true, 1: true, 5: true, 6: true}
	for _, tc := range []struct {
		chart   model.SizeChart
		printed []string
		to      []string
	}{
		{women(), []string{"36", "38", "40", "42"}, []string{"44", "46", "48", "50", "52", "54", "32", "34"}},
		{women(), []string{"44", "46", "48"}, []string{"32", "60"}},
		{women(), []string{"36", "42"}, []string{"54"}},
		{misses(), []string{"8", "10", "12"}, []string{"6", "24"}},
		{misses(), []string{"14", "16", "18"}, []string{"6", "24"}},
	} {
		fit := read(t, backPiece(tc.chart, tc.printed...), tc.chart)
		for _, s := range tc.to {
			place, _ := tc.chart.Place(s)
			got, exact, _ := fit.Edges(model.Target{Place: float64(place)})
			if exact {
				t.Errorf("size %s called printed", s)
			}
			for j, want := range backAt(tc.chart, float64(place)) {
				limit := 0.5
				if oneMeasure[j] {
					limit = 0.05
				}
				if d := farthest(t, got[j], want); d > limit {
					t.Errorf("%s %v to %s, edge %d: %.3f mm from the true line, want %.2f", tc.chart.ID, tc.printed, s, j+1, d, limit)
				}
			}
		}
		for i, s := range tc.printed {
			place, _ := tc.chart.Place(s)
			got, exact, _ := fit.Edges(model.Target{Place: float64(place)})
			want := fit.piece.Nest[i].Edges
			if !exact || &got[0] != &want[0] {
				t.Errorf("size %s is not the printed line", s)
			}
		}
	}
}

// By steps the bust goes on by the mean printed gap: from 36-42 to 54 that is
// six steps of 4 cm, a quarter each, where EN 13402-3 grows 4 4 6 6 6 6 cm.
func TestByStepsRepeatsTheGap(t *testing.T) {
	c := women()
	fit := read(t, backPiece(c, "36", "38", "40", "42"), c)
	place, _ := c.Place("54")
	const underarm = 3
	m := fit.Movements(underarm, model.Target{Place: float64(place)})[0]
	if math.Abs(m.BySteps-60) > 1e-9 {
		t.Errorf("by steps the underarm moves %.4f mm, want 60", m.BySteps)
	}
	if math.Abs(m.ByChart-80) > 1e-9 {
		t.Errorf("by chart the underarm moves %.4f mm, want 80", m.ByChart)
	}
	if m.Follows != model.Bust || m.Residual > 1e-9 {
		t.Errorf("underarm follows %s with residual %g", m.Follows, m.Residual)
	}
}

func TestStraightStaysStraight(t *testing.T) {
	c := women()
	fit := read(t, shaky(t, backPiece(c, "36", "38", "40", "42"), 0.3, 3), c)
	for _, place := range []float64{0, 10, 2.5, 15} {
		edges, _, _ := fit.Edges(model.Target{Place: place})
		for _, j := range []int{1, 5, 6} {
			if !edges[j].IsStraight(1e-9) {
				t.Errorf("edge %d bends at place %g", j+1, place)
			}
		}
		if x := edges[6].Start().X - edges[6].End().X; math.Abs(x) > 1.5 {
			t.Errorf("the centre leans %.2f mm at place %g", x, place)
		}
	}
}

// A hand-traced nest, six steps out. Each corner goes by least squares of its
// four traced places, so with 0.3 mm of wobble it is itself some 1 mm off six
// steps out; what must not happen is that the places between wave more than
// the corners do.
func TestTracedNest(t *testing.T) {
	c := women()
	clean := backPiece(c, "36", "38", "40", "42")
	place, _ := c.Place("54")
	truth := backAt(c, float64(place))
	var between, corners []float64
	for seed := range uint64(20) {
		fit := read(t, shaky(t, clean, 0.3, seed), c)
		got, _, _ := fit.Edges(model.Target{Place: float64(place)})
		for j := range got {
			corners = append(corners, got[j].Start().Dist(truth[j].Start()))
			between = append(between, farthest(t, got[j], truth[j]))
		}
	}
	t.Logf("95th percentile: corners %.2f mm, farthest place of an edge %.2f mm", percentile(corners, 95), percentile(between, 95))
	if percentile(between, 95) > 1.4*percentile(corners, 95) {
		t.Errorf("edges are %.2f mm off where their corners are only %.2f mm off", percentile(between, 95), percentile(corners, 95))
	}
}

func percentile(v []float64, p int) float64 {
	sorted := slices.Sorted(slices.Values(v))
	return sorted[min(len(sorted)-1, len(sorted)*p/100)]
}

func TestBetweenPrintedSizes(t *testing.T) {
	c := women()
	for _, q := range []model.Piece{backPiece(c, "36", "40"), shaky(t, backPiece(c, "36", "40"), 0.3, 5)} {
		fit := read(t, q, c)
		got, _, _ := fit.Edges(model.Target{Place: 3}) // size 38
		a, b := fit.piece.Nest[0].Edges, fit.piece.Nest[1].Edges
		for j := range got {
			for _, pair := range [][3]geom.Point{
				{a[j].Start(), got[j].Start(), b[j].Start()}, {a[j].End(), got[j].End(), b[j].End()},
			} {
				if d := pair[0].Lerp(pair[2], 0.5).Dist(pair[1]); d > 1e-9 {
					t.Errorf("edge %d: an end lies %g mm off the middle", j+1, d)
				}
			}
		}
	}
}

func TestOneSizeStays(t *testing.T) {
	c := women()
	fit := read(t, backPiece(c, "40"), c)
	got, _, _ := fit.Edges(model.Target{Place: 10})
	if !fit.Frozen() || &got[0] != &fit.piece.Nest[0].Edges[0] {
		t.Error("a piece printed in one size must stay as printed")
	}
}
