package scene_test

import (
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// block is a rectangle of 200 x 400 mm printed in one size, cut twice: down its
// middle and across it.
func block() scene.Input {
	q := model.Piece{ID: "block", Name: "Block", Cuts: []model.Cut{
		{ID: "a", From: geom.Pt(100, 0), To: geom.Pt(100, 400), Measure: model.Bust, Share: 0.25},
		{ID: "b", From: geom.Pt(0, 300), To: geom.Pt(200, 300), Measure: model.Steps, Share: 3},
	}}
	corners := []geom.Point{geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 400), geom.Pt(0, 400)}
	o := model.Outline{Size: "38"}
	for k, at := range corners {
		id := string(rune('p' + k))
		q.Points = append(q.Points, model.GradePoint{ID: id})
		q.Edges = append(q.Edges, model.Edge{ID: id})
		o.Edges = append(o.Edges, geom.Polyline(at, corners[(k+1)%4]))
	}
	q.Nest = []model.Outline{o}
	in := scene.Input{Scale: 1, Pattern: model.Pattern{Unit: model.Inches, Pieces: []model.Piece{q}}}
	in.Result.Pieces = []grading.Piece{{ID: "block", Edges: o.Edges, Opens: []float64{25.4 / 4, -25.4 / 8}}}
	in.Select = scene.Ref{Piece: "block", Cut: "b", Control: scene.CutEnd}
	return in
}

// cutHandles are the handles of cut lines, and which of them is selected.
func cutHandles(in scene.Input) (all []scene.Handle, selected scene.Ref) {
	for _, h := range scene.Handles(in) {
		if h.Ref.Cut != "" {
			all = append(all, h)
			if h.State == scene.Selected {
				selected = h.Ref
			}
		}
	}
	return all, selected
}

func cutTexts(in scene.Input) string {
	var out []string
	for _, x := range scene.Active(in, []string{"block"}).Texts {
		if x.Bold && x.Size == 12 {
			out = append(out, x.Words)
		}
	}
	return strings.Join(out, "|")
}

func TestCutLinesAreTakenByTheirEndsAndMiddle(t *testing.T) {
	in := block()
	in.Pattern.Pieces[0].At = geom.Vec{X: 10, Y: 20}
	all, selected := cutHandles(in)
	if selected != in.Select {
		t.Errorf("selected %v", selected)
	}
	want := []geom.Point{geom.Pt(110, 20), geom.Pt(110, 420), geom.Pt(110, 220), geom.Pt(10, 320), geom.Pt(210, 320), geom.Pt(110, 320)}
	if len(all) != len(want) {
		t.Fatalf("%d handles, want %d", len(all), len(want))
	}
	for i, h := range all {
		if h.At.Dist(want[i]) > 1e-9 || h.Ref.Control != scene.CutStart+i%3 {
			t.Errorf("handle %d: %v at %v, want %v", i, h.Ref, h.At, want[i])
		}
	}
}

func TestOnlyTheCutLineInHandSaysWhatItOpens(t *testing.T) {
	in := block()
	if got := cutTexts(in); got != "1|overlaps 1/8 in|2" {
		t.Errorf("they read %q", got)
	}
	in.Select.Cut = "a"
	if got := cutTexts(in); got != "opens 1/4 in|1|2" {
		t.Errorf("they read %q", got)
	}
	in.Result.Pieces[0].Opens = nil
	if got := cutTexts(in); got != "1|2" {
		t.Errorf("where the piece cannot be cut they read %q", got)
	}
}

// Cut lines belong to the piece in hand, on the Table; they count only where the
// print does not say by itself how the piece grows.
func TestWhereCutLinesAreNotDrawn(t *testing.T) {
	for name, change := range map[string]func(*scene.Input){
		"another piece in hand": func(in *scene.Input) { in.Select.Piece = "other" },
		"on pages":              func(in *scene.Input) { in.Sheets = []scene.Page{{Name: "A1"}} },
		"the same in all":       func(in *scene.Input) { in.Pattern.Pieces[0].OneForAll = true },
		"a nest": func(in *scene.Input) {
			q := &in.Pattern.Pieces[0]
			q.Nest = append(q.Nest, model.Outline{Size: "40", Edges: q.Nest[0].Edges})
		},
	} {
		in := block()
		lines := len(scene.Active(in, []string{"block"}).Lines)
		change(&in)
		for _, k := range scene.Active(in, []string{"block"}).Lines {
			if k.Reach != 0 {
				t.Errorf("%s: there are blades", name)
			}
		}
		if all, _ := cutHandles(in); len(all) > 0 || lines == 0 {
			t.Errorf("%s: %d handles", name, len(all))
		}
	}
}
