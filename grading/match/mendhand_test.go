package match

import (
	"reflect"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func TestSplitAndMergedEdgesKeepTheirCorrections(t *testing.T) {
	h := model.Hand{
		Curves:  []model.EdgeCurve{{Edge: "e1", Kind: model.NearestCurve}, {Edge: "e2", Kind: model.StraightCurve}},
		Moves:   []model.PointMove{{Point: "p1", By: geom.Vec{X: 1}}},
		Shapes:  []model.EdgeShape{{Edge: "e2", By: []geom.Vec{{X: 1}}}},
		Shifts:  []model.EdgeShift{{Edge: "e1", Out: 3}, {Edge: "e1", Out: 4, Stage: "44"}, {Edge: "e2", Out: 5}},
		Through: []string{"p1"},
	}
	two := splitHand(h, "e1", "e9")
	want := h
	want.Curves = append(want.Curves[:2:2], model.EdgeCurve{Edge: "e9", Kind: model.NearestCurve})
	want.Shifts = append(want.Shifts[:3:3], model.EdgeShift{Edge: "e9", Out: 3}, model.EdgeShift{Edge: "e9", Out: 4, Stage: "44"})
	if !reflect.DeepEqual(two, want) {
		t.Errorf("cut in two: %+v, want %+v", two, want)
	}
	if got := mergeHand(two, "p9", "e1", "e9"); !reflect.DeepEqual(got, h) {
		t.Errorf("joined again: %+v, want %+v", got, h)
	}
	// What held for one of two edges only is dropped, as is what is of the point.
	got := mergeHand(h, "p1", "e1", "e2")
	if !got.IsZero() {
		t.Errorf("two edges with other corrections became %+v", got)
	}
	if bent := splitHand(h, "e2", "e9"); len(bent.Shapes) != 0 || len(h.Shapes) != 1 {
		t.Errorf("bends of a cut edge: %+v", bent.Shapes)
	}
}
