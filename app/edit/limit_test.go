package edit

import (
	"math"
	"testing"

	"quarterstep/grading/check"
)

// Every limit can be set within its range, is then what the checks go by, and
// goes back to what is usual, leaving nothing in the pattern.
func TestLimitsAreSetAndGoBack(t *testing.T) {
	p := blouse(t)
	for _, l := range check.Limits() {
		for _, v := range []float64{0, l.Default / 2, l.Most} {
			out := made(t, p, SetLimit(l.Name, v))
			if got := check.LimitOf(out, l.Name); got != v {
				t.Errorf("%s set to %g is %g", l.Name, v, got)
			}
			if p.Limits != nil {
				t.Fatal("the pattern given was changed")
			}
			if err := out.Validate(); err != nil {
				t.Error(err)
			}
			back := made(t, out, ResetLimit(l.Name))
			if got := check.LimitOf(back, l.Name); got != l.Default || back.Limits != nil {
				t.Errorf("%s went back to %g, leaving %v", l.Name, got, back.Limits)
			}
		}
		for _, v := range []float64{-0.1, l.Most + 0.1, math.NaN(), math.Inf(1)} {
			if _, err := SetLimit(l.Name, v)(p); err == nil {
				t.Errorf("%s can be set to %g", l.Name, v)
			}
		}
	}
	if _, err := SetLimit("patience", 1)(p); err == nil {
		t.Error("a limit no check has can be set")
	}
	two := made(t, made(t, p, SetLimit("seams", 1)), SetLimit("kink", 7))
	if got := made(t, two, ResetLimit("seams")).Limits; len(got) != 1 || got["kink"] != 7 {
		t.Errorf("one of two reset leaves %v", got)
	}
}
