package paint_test

import (
	"fmt"
	"image"
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// apart is by how much black on white two pictures differ, in px².
func apart(a, b *image.RGBA) float64 {
	n := 0.0
	for i := 0; i < len(a.Pix); i += 4 {
		n += math.Abs(float64(a.Pix[i])-float64(b.Pix[i])) / 255
	}
	return n
}

// shot paints what lies round a place of the Table, in one tone.
func shot(t *testing.T, colours palette.Palette, at geom.Point, layers ...scene.Layer) *image.RGBA {
	t.Helper()
	const side = 180
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	paint.Clear(img, colours.Table)
	v := view.View{Scale: 1, Origin: at.Add(geom.Vec{X: -side / 2, Y: -side / 2})}
	newPainter(t, colours).Paint(img, paint.Screen{View: v, Factor: 1}, layers...)
	return img
}

// tellApart holds that no two states look the same but for their colours: they differ
// by a figure of 4 by 5 px, or by as much in dashes or weight.
func tellApart(t *testing.T, states map[string]*image.RGBA) {
	t.Helper()
	const least = 20
	for a, p := range states {
		for b, q := range states {
			if n := apart(p, q); a < b && n < least {
				t.Errorf("without colours %q and %q differ by %.0f px², want %d", a, b, n, least)
			}
		}
	}
}

// tableStates is the side seam of the sample's front in each state that it can have
// on the Table.
func tableStates(t *testing.T, colours palette.Palette) map[string]*image.RGBA {
	t.Helper()
	out := map[string]*image.RGBA{}
	const edge = "side seam"
	state := func(name string, change func(in *scene.Input)) {
		in, err := scenetest.Blouse(4)
		if err != nil {
			t.Fatal(err)
		}
		k := in.Pattern.Pieces[0].EdgeIndex(edge)
		line := in.Edges(0)[k]
		m, err := geom.Measure(line, 0.01)
		if err != nil {
			t.Fatal(err)
		}
		change(&in)
		hand := []string{in.Select.Piece}
		out[name] = shot(t, colours, m.At(m.Length()/2), scene.Static(in, hand), scene.Active(in, hand))
	}
	fault := func(number int) func(in *scene.Input) {
		return func(in *scene.Input) {
			line := in.Result.Pieces[0].Edges[in.Pattern.Pieces[0].EdgeIndex(edge)]
			in.Look = []scene.Fault{{Ref: scene.Ref{Piece: "front", Edge: edge}, At: line[0].At(0.5), Number: number}}
		}
	}
	state("the new line", func(*scene.Input) {})
	state("in hand", func(in *scene.Input) { in.Select = scene.Ref{Piece: "front", Edge: edge} })
	state("follows a line", func(in *scene.Input) {
		in.Pattern.Links = append(in.Pattern.Links, model.Link{
			ID: "l2", Kind: model.SameLine, Lead: model.Stretch{Piece: "facing", Edges: []string{"neckline"}},
			Follow: model.Stretch{Piece: "front", Edges: []string{edge}},
		})
	})
	state("of the seam in hand", func(in *scene.Input) {
		in.Runs = []scene.Run{{Piece: "front", Edges: []string{edge}, Name: "Side", Length: "496 mm"}}
	})
	state("beside the seam in hand", func(in *scene.Input) {
		in.Runs = []scene.Run{{Piece: "facing", Edges: []string{"neckline"}}}
	})
	state("to look at", fault(0))
	state("to look at, first of the list", fault(1))
	state("the other way of growing", func(in *scene.Input) {
		in.Select.Piece = "front"
		var aside []geom.Path
		for _, e := range in.Result.Pieces[0].Edges {
			aside = append(aside, e.Move(geom.Vec{X: -9}))
		}
		in.Ghost = map[string][]geom.Path{"front": aside}
	})
	state("the stitching line", func(in *scene.Input) { in.Seam = true })
	state("the new line alone", func(in *scene.Input) { in.Nest = false })
	state("not graded yet", func(in *scene.Input) { in.Result = grading.Result{} })
	return out
}

// What an edge is on the Table is told by form, dash or sign, not by its hue.
func TestTableStatesWithoutColour(t *testing.T) {
	tellApart(t, tableStates(t, palette.OneTone()))
}

// Of 2 to 8 printed sizes no two are drawn alike but for their greens. Each line has
// its number as well.
func TestSizesWithoutColour(t *testing.T) {
	line := geom.Polyline(geom.Pt(10, 90), geom.Pt(170, 90))
	for n := 2; n <= 8; n++ {
		states := map[string]*image.RGBA{}
		for i := range n {
			width, dash := scene.NestDash(i, n)
			l := scene.Layer{Lines: []scene.Line{{Path: line, Width: width, Dash: dash, Ink: scene.NestInk(i, n), Alpha: 1}}}
			states[fmt.Sprintf("size %d of %d", i+1, n)] = shot(t, palette.OneTone(), geom.Pt(90, 90), l)
		}
		tellApart(t, states)
	}
}

// Of what is traced on a photo, what is done, in hand, proposed, under way and
// doubtful each has its own form.
func TestTracingWithoutColour(t *testing.T) {
	line := geom.Polyline(geom.Pt(10, 90), geom.Pt(170, 90))
	traced := func(k scene.TracedLine) scene.Trace {
		k.Path, k.Size, k.N = line, "38", 4
		return scene.Trace{Lines: []scene.TracedLine{k}}
	}
	doubtful := traced(scene.TracedLine{InHand: true})
	doubtful.Doubts = []geom.Point{geom.Pt(110, 90)}
	corner := traced(scene.TracedLine{InHand: true})
	corner.Corners = []scene.TraceCorner{{At: geom.Pt(110, 90)}}
	picked := traced(scene.TracedLine{InHand: true})
	picked.Corners = []scene.TraceCorner{{At: geom.Pt(110, 90), Selected: true}}
	curve := traced(scene.TracedLine{InHand: true})
	curve.Corners = []scene.TraceCorner{{At: geom.Pt(110, 90), Round: true}}
	asked := traced(scene.TracedLine{Asked: true})
	asked.Next = []geom.Point{geom.Pt(110, 90)}
	states := map[string]*image.RGBA{}
	for name, tr := range map[string]scene.Trace{
		"done": traced(scene.TracedLine{}), "in hand": traced(scene.TracedLine{InHand: true}),
		"proposed": traced(scene.TracedLine{Asked: true}), "to the pointer": {Live: line}, "doubtful": doubtful,
		"a corner": corner, "a corner picked": picked, "a point on a curve": curve, "a corner asked for": asked,
		"found": {Targets: []scene.TraceTarget{{At: geom.Pt(90, 90), Half: 20, Number: 2}}},
	} {
		states[name] = shot(t, palette.OneTone(), geom.Pt(90, 90), scene.Active(scene.Input{Scale: 1, Trace: &tr}, nil))
	}
	tellApart(t, states)
}

// The test can fail: a line in hand that differed from the others by its hue alone
// would be found.
func TestWithoutColourFinds(t *testing.T) {
	line := geom.Polyline(geom.Pt(10, 90), geom.Pt(170, 90))
	of := func(k scene.Ink) scene.Layer {
		return scene.Layer{Lines: []scene.Line{{Path: line, Width: 4, Ink: k, Alpha: 1}}}
	}
	a, b := of(scene.InkAccent), of(scene.InkLookLine)
	if n := apart(shot(t, palette.OneTone(), geom.Pt(90, 90), a), shot(t, palette.OneTone(), geom.Pt(90, 90), b)); n != 0 {
		t.Errorf("two lines of one form differ by %.1f px²", n)
	}
}
