package scene_test

import (
	"math"
	"slices"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// lengthBlock is the block, no longer cut, with a lengthen line at 150 drawn
// short of its sides, and by mm put in there, in the Length step.
func lengthBlock(by float64) scene.Input {
	in := block()
	in.Pattern.Unit = model.Centimetres
	q := &in.Pattern.Pieces[0]
	q.Cuts = nil
	line := geom.Polyline(geom.Pt(20, 150), geom.Pt(170, 150))
	q.Lines = []model.Line{{ID: "line", Kind: model.Lengthen, Drawn: []model.SizedPath{{Path: line}}}}
	r := &in.Result.Pieces[0]
	r.Lines = []grading.Line{{ID: "line", Kind: model.Lengthen, Path: line}}
	if by != 0 {
		r.Put = []grading.Put{{Length: "a", By: by, Line: "line"}}
	}
	in.Select = scene.Ref{Piece: "block", Line: "line", Control: scene.LengthHandle}
	in.Lengthen = &scene.Lengthen{Hand: []model.PieceLine{{Piece: "block", Line: "line"}}}
	return in
}

// The paper put in lies between two lines from side to side, the handle on the
// lower one, so that it goes as far as it is dragged; folded out, or with
// nothing put in, the lines are the 4 mm apart they always are.
func TestALengthenLineShowsWhatIsPutIn(t *testing.T) {
	for _, c := range []struct {
		by, handle float64
		words      string
		fills      int
	}{{30, 165, "30 mm longer", 2}, {-12, 152, "12 mm folded out", 1}, {0, 152, "Lengthen or shorten here", 1}} {
		in := lengthBlock(c.by)
		l := scene.Active(in, []string{"block"})
		hs := scene.Handles(in)
		if len(hs) != 1 || hs[0].At.Dist(geom.Pt(100, c.handle)) > 1e-9 || hs[0].State != scene.Selected || hs[0].Ref != in.Select {
			t.Errorf("by %g: handles %+v", c.by, hs)
		}
		if len(l.Fills) != c.fills {
			t.Errorf("by %g: %d fills", c.by, len(l.Fills))
		}
		var across int
		for _, k := range l.Lines {
			if k.Width == 2.2 && math.Abs(k.Path.Start().X) < 0.1 && math.Abs(k.Path.End().X-200) < 0.1 {
				across++
			}
		}
		if across != 2 {
			t.Errorf("by %g: %d lines in hand from side to side", c.by, across)
		}
		if !slices.ContainsFunc(l.Texts, func(x scene.Text) bool { return x.Words == c.words && x.Bold }) {
			t.Errorf("by %g: no %q", c.by, c.words)
		}
	}
}

// Lines that go with the one in hand are told apart; in other steps, and on the
// pages to print, they have no handles.
func TestHandlesOfLengthenLines(t *testing.T) {
	in := lengthBlock(10)
	in.Select = scene.Ref{Piece: "block"}
	if hs := scene.Handles(in); len(hs) != 1 || hs[0].State != scene.Linked {
		t.Errorf("with another in hand %+v", hs)
	}
	in.Lengthen.Hand = nil
	if hs := scene.Handles(in); len(hs) != 1 || hs[0].State != scene.Idle {
		t.Errorf("with none in hand %+v", hs)
	}
	in.Lengthen = nil
	if hs := scene.Handles(in); len(hs) != 4 || slices.ContainsFunc(hs, func(h scene.Handle) bool { return h.Ref.Line != "" }) {
		t.Errorf("in another step %+v", hs)
	}
}
