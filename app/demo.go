package app

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/sizechart"
)

// DemoBlouse is the invented blouse of a community theatre, printed in four
// metric sizes and wanted in 48.
func DemoBlouse() (model.Pattern, error) {
	return demo("en13402-women", draft.Blouse, []string{"34", "36", "38", "40"}, "48")
}

// DemoWaistcoat is the waistcoat of the same wardrobe, printed in four inch
// sizes and wanted in 20.
func DemoWaistcoat() (model.Pattern, error) {
	return demo("us-misses", draft.Waistcoat, []string{"8", "10", "12", "14"}, "20")
}

func demo(chart string, make func(model.SizeChart, []string) (model.Pattern, error), sizes []string, want string) (model.Pattern, error) {
	c, ok := sizechart.ByID(chart)
	if !ok {
		return model.Pattern{}, words.Errorf("the demo's size chart %s is not built in", chart)
	}
	p, err := make(c, sizes)
	if err != nil {
		return model.Pattern{}, words.Errorf("drafting the demo: %w", err)
	}
	return Retarget(p, want, model.ByChart)
}
