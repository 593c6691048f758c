package paint

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a pattern tells of a place is what is drawn of the pixel there, counted by
// samples that share nothing with it; a gap is told only where there is one.
func TestPatternIsTold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var pattern []float64
		var period float64
		for range rapid.IntRange(1, 3).Draw(rt, "dashes") {
			on, off := rapid.Float64Range(0.5, 40).Draw(rt, "on"), rapid.Float64Range(0.5, 20).Draw(rt, "off")
			pattern, period = append(pattern, on, off), period+on+off
		}
		d := newDashes(pattern)
		drawn := func(s float64) bool {
			s = math.Mod(math.Mod(s, period)+period, period)
			for i, v := range pattern {
				if s < v {
					return i%2 == 0
				}
				s -= v
			}
			return false
		}
		s := rapid.Float64Range(-500, 500).Draw(rt, "place")
		const n = 400
		want, near := 0.0, period
		for i := range n {
			if drawn(s + (float64(i)+0.5)/n - 0.5) {
				want += 1.0 / n
			}
		}
		// A place is told to a 4096th of the pattern, each of whose dashes may begin
		// and end there.
		tol := 0.01 + period/places
		if got := d.drawnAt(s); math.Abs(got-want) > tol {
			rt.Fatalf("%.3f drawn, want %.3f", got, want)
		}
		for x := -period; x <= period; x += 0.01 {
			if drawn(s + x) {
				near = min(near, math.Abs(x))
			}
		}
		if got := d.away(s); math.Abs(got-near) > 0.011 {
			rt.Fatalf("%.3f px from a dash, want %.3f", got, near)
		}
		step := rapid.Float64Range(-1, 1).Draw(rt, "step")
		many := rapid.IntRange(1, 30).Draw(rt, "px")
		if d.gapAt(d.place(s), d.steps(step), many) {
			for i := range many {
				if d.share[(d.place(s)+uint32(i)*d.steps(step))>>(32-placeBits)] != 0 {
					rt.Fatalf("pixel %d of %d lies in no gap", i, many)
				}
			}
		}
	})
}

// A pattern too short to be seen is a line without gaps.
func TestPatternWithoutLength(t *testing.T) {
	for _, pattern := range [][]float64{{0, 0}, {0.2, 0.2}, {math.Inf(1), 1}, {math.NaN(), 1}} {
		if newDashes(pattern) != nil {
			t.Errorf("%v is taken for a pattern", pattern)
		}
	}
}

// However long a line of dashes is, only what is in sight is kept of it, and a
// line that ends far away keeps its place in the pattern.
func TestDashesOfLongLines(t *testing.T) {
	line := []pt{{-1e8, 20}, {1e8, 20}}
	got := chordsOf(nil, line, 2, false, pt{64, 64})
	if len(got) != 1 || got[0].last-got[0].first > 100 {
		t.Fatalf("kept %v", got)
	}
	if again := chordsOf(nil, []pt{{-1e8, -1e6}, {1e8, -1e6}}, 2, false, pt{64, 64}); len(again) != 0 {
		t.Errorf("kept %v of a line out of sight", again)
	}
}
