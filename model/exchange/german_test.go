package exchange

import (
	"slices"
	"testing"

	"quarterstep/model"
)

// Layers, titles and lines as German patterns name them.
func TestGermanLabels(t *testing.T) {
	chart := model.SizeChart{Sizes: []model.ChartSize{{Name: "36"}, {Name: "38"}, {Name: "40"}, {Name: "42"}}}
	for label, want := range map[string][]string{
		"Größe 38":         {"38"},
		"GRÖSSE 38":        {"38"},
		"Groesse_38":       {"38"},
		"Größen 36–40":     {"36", "38", "40"},
		"Größen 36 bis 40": {"36", "38", "40"},
		"Gr. 38 und 40":    {"38", "40"},
		"alle Größen":      nil,
	} {
		if got := sizesNamed(label, chart); !slices.Equal(got, want) {
			t.Errorf("%s: sizes %q, want %q", label, got, want)
		}
	}
	for _, label := range []string{"alle Größen", "Alle Groessen", "jede Größe", "eine Größe", "all sizes"} {
		if !saysAllSizes(label) {
			t.Errorf("%s is not for all sizes", label)
		}
	}
	named := func(label string) []string { return sizesNamed(label, chart) }
	for title, want := range map[string]string{"Rückenteil, Größe 36": "Rückenteil", "Manschette (Gr. 38/40)": "Manschette", "Tasche, alle Größen": "Tasche"} {
		if name, sizes, all := sizesAfter(title, named); name != want || len(sizes) == 0 && !all {
			t.Errorf("%s is %q in sizes %q, all %v; want %q", title, name, sizes, all, want)
		}
	}
	for name, want := range map[string]model.LineKind{
		"Fadenlauf": model.Grain, "Hier verlängern oder kürzen": model.Lengthen, "Knips Seitennaht": Notch, "Passzeichen": Notch,
		"Taillenabnäher": model.DartLine, "Stoffbruch": model.FoldLine, "Brustlinie": model.BustLine, "Taille": model.WaistLine, "Hüftlinie": model.HipLine,
	} {
		if got, ok := kindOf(name); !ok || got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if !isBesides("Kontrollquadrat") || !isBesides("Rahmen") || isBesides("Vorderteil") {
		t.Error("what is drawn beside the pieces is not told by its German name")
	}
}
