package exchange

import "quarterstep/model"

// euChart names the sizes of the blouse; the girths are those of EN 13402-3,
// the numbers common practice. Reading a drawing uses the names only.
func euChart() model.SizeChart {
	return model.SizeChart{Name: "EN women", Sizes: []model.ChartSize{
		{Name: "34", Alt: "80"},
		{Name: "36", Alt: "84"},
		{Name: "38", Alt: "88"},
		{Name: "40", Alt: "92"},
		{Name: "42", Alt: "96"},
	}}
}

func usChart() model.SizeChart {
	return model.SizeChart{Name: "US misses", Sizes: []model.ChartSize{
		{Name: "10"}, {Name: "12"}, {Name: "14"}, {Name: "16"}, {Name: "18"},
	}}
}
