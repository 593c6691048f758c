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
