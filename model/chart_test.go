package model_test

import (
	"math"
	"testing"

	"quarterstep/model"
)

func TestPlaceOnTheChart(t *testing.T) {
	c := sound().Chart
	c.Sizes[2].Alt = "38" // another size's name never means this one
	for name, want := range map[string]int{"38": 0, " 40 ": 1, "CODE 40": 1, "42": 2} {
		if got, ok := c.Place(name); !ok || got != want {
			t.Errorf("%q is at %d, %v, want %d", name, got, ok, want)
		}
	}
	for _, name := range []string{"", "44", "code 42"} {
		if got, ok := c.Place(name); ok {
			t.Errorf("%q was found at %d", name, got)
		}
	}
}

// Between two sizes a measure runs straight: bust 880, 920, 960 mm.
func TestMeasureAtAPlace(t *testing.T) {
	c := sound().Chart
	c.Sizes[0].Body["waist"] = 700 // in one size only
	for _, tc := range []struct {
		place float64
		m     model.Measure
		want  float64
		ok    bool
	}{
		{0, model.Bust, 880, true},
		{0.25, model.Bust, 890, true},
		{2, model.Bust, 960, true},
		{1.5, model.Steps, 1.5, true},
		{0, "waist", 700, true},
		{0.5, "waist", 0, false},
		{1, "waist", 0, false},
		{-0.1, model.Bust, 0, false},
		{2.1, model.Steps, 0, false},
		{math.NaN(), model.Bust, 0, false},
	} {
		got, ok := c.At(tc.place, tc.m)
		if ok != tc.ok || ok && got != tc.want {
			t.Errorf("%s at %v: %v, %v, want %v, %v", tc.m, tc.place, got, ok, tc.want, tc.ok)
		}
	}
	if !c.Has(model.Bust) || !c.Has(model.Steps) || c.Has("waist") || (model.SizeChart{}).Has(model.Bust) {
		t.Error("the chart has other measures than it should")
	}
}

func TestNamesOfPlaces(t *testing.T) {
	c := sound().Chart
	for place, want := range map[float64]string{0: "38", 0.5: "38 1/2", 1: "40", 1.3: "40 + 0.3", 2: "42", 2 - 1e-10: "42", -1: "", 3: ""} {
		if got := c.NameAt(place); got != want {
			t.Errorf("%v is called %q, want %q", place, got, want)
		}
	}
}

// Beyond its ends the chart goes on by its first and last step.
func TestBeyondTheChart(t *testing.T) {
	c := sound().Chart
	c.Sizes[2].Body[model.Bust] = 980 // steps of 40 and 60 mm
	for place, want := range map[float64]float64{-1: 840, 0.5: 900, 2: 980, 3.5: 1070} {
		if got, ok := c.Beyond(place, model.Bust); !ok || got != want {
			t.Errorf("at %v bust is %v, %v, want %v", place, got, ok, want)
		}
		if got, ok := c.PlaceOf(model.Bust, want); !ok || math.Abs(got-place) > 1e-12 {
			t.Errorf("a bust of %v is at %v, %v, want %v", want, got, ok, place)
		}
	}
	if _, ok := c.Beyond(5, "waist"); ok {
		t.Error("a measure the chart lacks goes beyond it")
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		if _, ok := c.PlaceOf(model.Bust, v); ok {
			t.Errorf("a bust of %v has a place", v)
		}
	}
	if _, ok := c.PlaceOf(model.Steps, 1); ok {
		t.Error("steps are no body measure")
	}
}

// A wearer's own measure takes the chart's place, each by itself.
func TestTheWearersOwnMeasures(t *testing.T) {
	c := sound().Chart
	want := model.Target{Place: 1, Body: map[model.Measure]float64{model.Bust: 950, "upper arm": 300}}
	if got := want.PlaceFor(c, model.Bust); got != 1.75 {
		t.Errorf("a bust of 950 is at %v", got)
	}
	if got := want.PlaceFor(c, "upper arm"); got != 1 {
		t.Errorf("a measure the chart lacks is at %v", got)
	}
	if v, ok := want.Value(c, model.Bust); !ok || v != 950 {
		t.Errorf("bust is %v, %v", v, ok)
	}
	if v, ok := (model.Target{Place: 1}).Value(c, model.Bust); !ok || v != 920 {
		t.Errorf("the chart's bust is %v, %v", v, ok)
	}
	if a, b := want.NameOn(c), (model.Target{Place: 1.5}).NameOn(c); a != model.OwnMeasures() || b != "40 1/2" {
		t.Errorf("the targets are called %q and %q", a, b)
	}
	if _, ok := want.Value(c, "knee"); ok {
		t.Error("a measure nobody has is known")
	}
}
