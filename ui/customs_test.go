package ui

import (
	"testing"

	"quarterstep/model"
)

// What is usual where she is, by the Unicode CLDR (supplementalData: paperSize,
// measurementSystem): the United States print on Letter and measure in inches, Canada
// prints on Letter and measures in centimetres, the rest has A4.
func TestCustomsOfRegions(t *testing.T) {
	a4 := customs{"A4", model.Centimetres}
	for region, want := range map[string]customs{
		"US": {"Letter", model.Inches}, "us": {"Letter", model.Inches}, "CA": {"Letter", model.Centimetres}, "MX": {"Letter", model.Centimetres},
		"DE": a4, "GB": a4, "AU": a4, "": a4, "C": a4, " U": a4,
	} {
		if got := customsOf(region); got != want {
			t.Errorf("%q: %+v", region, got)
		}
	}
}

// A new window and a new pattern begin so; a paper that was chosen before stays.
func TestNewPatternGoesByCustoms(t *testing.T) {
	before := atHome
	t.Cleanup(func() { atHome = before })
	atHome = customsOf("US")
	w := openEmpty(t)
	w.newPattern()
	if u, on := w.doc.Pattern().Unit, w.print.setup.Paper.Name; u != model.Inches || on != "Letter" {
		t.Errorf("a new pattern is in %s, on %s", u, on)
	}
	if on := w.targetPaper().Name; on != "Letter" {
		t.Errorf("targets are on %s", on)
	}
	if got := newPrintStep("A3").setup.Paper.Name; got != "A3" {
		t.Errorf("in place of the paper chosen before there is %s", got)
	}
}
