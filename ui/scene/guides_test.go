package scene_test

import (
	"fmt"
	"slices"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
)

// withGuides is the sample blouse with the front in hand and its sizes on the
// way to 48.
func withGuides(t *testing.T) scene.Input {
	t.Helper()
	in := blouse(t, 4)
	for place := 5; place < 8; place++ {
		p := in.Pattern
		p.Target.Place = float64(place)
		at, err := scenetest.Graded(p)
		if err != nil {
			t.Fatal(err)
		}
		in.Guides = append(in.Guides, scene.Guide{Size: fmt.Sprint(32 + 2*place), Edges: at.Result.Pieces[0].Edges})
	}
	in.Select = scene.Ref{Piece: "front"}
	return in
}

// Guides are drawn for the piece in hand only, in a dash no printed size has,
// each with its number on its own line.
func TestGuidesAreToldFromThePrint(t *testing.T) {
	in := withGuides(t)
	plain := in
	plain.Guides = nil
	hand := []string{"front"}
	was, now := scene.Active(plain, hand), scene.Active(in, hand)
	edges := len(in.Pattern.Pieces[0].Edges)
	if n := len(now.Lines) - len(was.Lines); n != 3*edges {
		t.Errorf("%d lines more for 3 guides of %d edges", n, edges)
	}
	numbers := map[string]geom.Point{}
	for _, x := range now.Texts {
		numbers[x.Words] = x.At
	}
	at := in.Pattern.Pieces[0].At
	for _, g := range in.Guides {
		place, ok := numbers[g.Size]
		if !ok {
			t.Errorf("guide %s has no number", g.Size)
			continue
		}
		_, d, err := geom.Join(g.Edges...).NearestS(geom.Point(place.Sub(geom.Point(at))), 0.01)
		if err != nil || d > 0.5 {
			t.Errorf("the number %s lies %.2f mm off its line: %v", g.Size, d, err)
		}
		guide := slices.IndexFunc(now.Lines, func(l scene.Line) bool { return l.Width == 1 && slices.Equal(l.Dash, []float64{7, 3}) })
		if guide < 0 {
			t.Fatal("no guide is drawn thin and dashed")
		}
		for _, l := range was.Lines {
			if slices.Equal(l.Dash, now.Lines[guide].Dash) {
				t.Errorf("a line of %v has the guides' dash", l.Ink)
			}
		}
	}
	if a, b := dump(scene.Static(plain, hand)), dump(scene.Static(in, hand)); a != b {
		t.Error("guides show on a piece that is not in hand")
	}
}

// In a small Table the numbers give way; the lines stay.
func TestGuidesFarAwayHaveNoNumbers(t *testing.T) {
	in := withGuides(t)
	in.Scale = 0.05
	for _, x := range scene.Active(in, []string{"front"}).Texts {
		for _, g := range in.Guides {
			if x.Words == g.Size {
				t.Errorf("%s is written at %g px a mm", g.Size, in.Scale)
			}
		}
	}
}
