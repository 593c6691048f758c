package scene_test

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// A line drawn for the wearer's own measurements is not called a size, neither
// under the ruler nor on the piece to print.
func TestOwnMeasuresAreNotCalledASize(t *testing.T) {
	in := blouse(t, 4)
	in.Pattern.Target.Body = map[model.Measure]float64{model.Bust: 1100}
	y := in.Pattern.Pieces[0].At.Y + 400
	var sizes []string
	for _, c := range scene.Crossings(in, geom.Pt(150, y), geom.Pt(400, y), 0.001) {
		sizes = append(sizes, c.Size)
	}
	if got := strings.Join(sizes, " "); got != "34 36 38 40 own" {
		t.Errorf("crossed %s", got)
	}
	in.Names, in.Sheets = true, []scene.Page{{Name: "A1", Box: geom.Box{Max: geom.Pt(200, 290)}}}
	var cut []string
	for _, x := range scene.Static(in, nil).Texts {
		if strings.HasPrefix(x.Words, "Cut ") {
			cut = append(cut, x.Words)
		}
	}
	if !slices.Contains(cut, "Cut 2, own measures") || slices.ContainsFunc(cut, func(s string) bool { return strings.Contains(s, "size") }) {
		t.Errorf("the pieces say %q", cut)
	}
}
