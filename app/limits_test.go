package app

import (
	"errors"
	"math"
	"strings"
	"testing"

	"quarterstep/grading/check"
	"quarterstep/model"
)

// Limits are typed in their own unit and shown again as they were typed.
func TestLimitsAreTyped(t *testing.T) {
	cm, in := model.Pattern{}, model.Pattern{Unit: model.Inches}
	for _, c := range []struct {
		p          model.Pattern
		name, text string
		want       float64
		figure     string
		unit       string
	}{
		{cm, "seams", "2", 2, "2", "mm"},
		{cm, "seams", "0,5 cm", 5, "5", "mm"},
		{cm, "seams", "1/8 in", 3.175, "3.2", "mm"},
		{in, "seams", "1/8", 3.175, "1/8", "in"},
		{in, "seams", "3/32", 2.38125, "3/32", "in"},
		{cm, "square", "3,5", 3.5, "3.5", "°"},
		{in, "join", "4°", 4, "4", "°"},
		{cm, "kink", "6 degrees", 6, "6", "°"},
		{cm, "far", "2 steps", 2, "2", "steps"},
	} {
		l, ok := check.LimitNamed(c.name)
		if !ok {
			t.Fatal(c.name)
		}
		got, err := ReadLimit(c.p, l, c.text)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s %q reads as %g, %v", c.name, c.text, got, err)
		}
		if figure, unit := LimitFigure(c.p, l, got), LimitUnit(c.p, l); figure != c.figure || unit != c.unit {
			t.Errorf("%s %q is shown as %s %s", c.name, c.text, figure, unit)
		}
	}
	for _, c := range [][2]string{{"seams", "much"}, {"seams", "-1"}, {"seams", "60"}, {"square", "right"}, {"square", "50"}, {"far", "NaN"}} {
		l, _ := check.LimitNamed(c[0])
		if v, err := ReadLimit(cm, l, c[1]); err == nil {
			t.Errorf("%s %q reads as %g", c[0], c[1], v)
		}
	}
}

func TestLimitsAreSetByName(t *testing.T) {
	p, err := SetLimits(model.Pattern{}, []string{"seams=1mm", "dart legs=2 mm", "far=5"})
	if err != nil || p.Limits["seams"] != 1 || p.Limits["dart legs"] != 2 || p.Limits["far"] != 5 {
		t.Errorf("%v, %v", p.Limits, err)
	}
	var none NoLimit
	if _, err = SetLimits(p, []string{"patience=1"}); !errors.As(err, &none) || none.Name != "patience" {
		t.Errorf("%v", err)
	}
	if _, err = SetLimits(p, []string{"seams"}); err == nil || !strings.Contains(err.Error(), `"seams"`) {
		t.Errorf("%v", err)
	}
	text := LimitsText(p)
	for _, l := range check.Limits() {
		if !strings.Contains(text, l.Title) || !strings.Contains(text, l.Source) || !strings.Contains(text, l.Status) {
			t.Errorf("the list leaves out %s:\n%s", l.Name, text)
		}
	}
	if !strings.Contains(text, "1 mm, as usual 1.6 mm") {
		t.Errorf("it does not say what is usual:\n%s", text)
	}
}
