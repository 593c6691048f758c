package paint_test

import (
	"image"
	"image/color"
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// mark paints a layer on the Table and returns the picture with the box of all
// that is not Table.
func mark(t *testing.T, l scene.Layer, factor float64) (*image.RGBA, image.Rectangle) {
	t.Helper()
	c := palette.Light
	n := int(64 * factor)
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	paint.Clear(img, c.Table)
	newPainter(t, c).Paint(img, paint.Screen{View: view.View{Scale: 1}, Factor: factor}, l)
	var box image.Rectangle
	for y := range n {
		for x := range n {
			if p := img.RGBAAt(x, y); math.Abs(float64(p.B)-float64(c.Table.B)) > 60 || math.Abs(float64(p.R)-float64(c.Table.R)) > 60 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return img, box
}

// Handles are as large as the look says, on plain and on fine screens: 10 px
// with a 2 px outline at rest, 17 with 1.6 in hand, two 10 px rings 7 apart with
// 1.8 where linked, 11 locked. No two look the same, so that none is told apart
// by colour alone.
func TestHandlesHaveTheirSize(t *testing.T) {
	for name, c := range map[string]struct {
		h    scene.Handle
		w, v float64 // px across and down
	}{
		"corner":         {scene.Handle{Shape: scene.Corner}, 12, 12},
		"curve":          {scene.Handle{Shape: scene.Curve}, 12, 12},
		"selected":       {scene.Handle{State: scene.Selected}, 18.6, 18.6},
		"selected curve": {scene.Handle{Shape: scene.Curve, State: scene.Selected}, 18.6, 18.6},
		"linked":         {scene.Handle{State: scene.Linked}, 18.8, 11.8},
		"locked":         {scene.Handle{State: scene.Locked}, 11, 11},
		"locked curve":   {scene.Handle{Shape: scene.Curve, State: scene.Locked}, 11, 11},
		"bend":           {scene.Handle{Shape: scene.Bend}, 8.5, 8.5},
		"bend in hand":   {scene.Handle{Shape: scene.Bend, State: scene.Selected}, 9, 9},
	} {
		c.h.At = geom.Pt(32, 32)
		for _, factor := range []float64{1, 2} {
			_, box := mark(t, scene.Layer{Handles: []scene.Handle{c.h}}, factor)
			if math.Abs(float64(box.Dx())/factor-c.w) > 1.5 || math.Abs(float64(box.Dy())/factor-c.v) > 1.5 {
				t.Errorf("%s at factor %g is %d by %d, want %g by %g px", name, factor, box.Dx(), box.Dy(), c.w, c.v)
			}
		}
	}
	seen := map[string]string{}
	for _, shape := range []scene.HandleShape{scene.Corner, scene.Curve, scene.Bend} {
		for _, state := range []scene.HandleState{scene.Idle, scene.Selected, scene.Linked, scene.Locked} {
			if state >= scene.Linked && shape != scene.Corner {
				continue
			}
			img, _ := mark(t, scene.Layer{Handles: []scene.Handle{{At: geom.Pt(32, 32), Shape: shape, State: state}}}, 1)
			key := outline(img)
			if other, ok := seen[key]; ok {
				t.Errorf("shape %d state %d looks like %s but for its colour", shape, state, other)
			}
			seen[key] = string(rune('0'+shape)) + string(rune('0'+state))
		}
	}
}

// outline is where a picture departs from the Table, colour left out.
func outline(img *image.RGBA) string {
	ground := img.RGBAAt(0, 0)
	out := make([]byte, 0, len(img.Pix)/4)
	for i := 0; i < len(img.Pix); i += 4 {
		d := byte(' ')
		if (color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 255}) != ground {
			d = '#'
		}
		out = append(out, d)
	}
	return string(out)
}

func TestMarksHaveTheirShape(t *testing.T) {
	dot := scene.Dot{At: geom.Pt(32, 32), Radius: 11, Ink: scene.InkWords}
	_, round := mark(t, scene.Layer{Dots: []scene.Dot{dot}}, 1)
	if round.Dx() < 21 || round.Dx() > 23 {
		t.Errorf("a dot of radius 11 is %d px wide", round.Dx())
	}
	dot.Mark, dot.DX = scene.Button, 4
	img, button := mark(t, scene.Layer{Dots: []scene.Dot{dot}}, 1)
	if mid := (button.Min.X + button.Max.X) / 2; mid != 36 {
		t.Errorf("a button 4 px aside lies at %d", mid)
	}
	holes := 0
	for _, p := range []image.Point{{34, 30}, {37, 30}, {34, 33}, {37, 33}} {
		if img.RGBAAt(p.X, p.Y).R < 160 {
			holes++
		}
	}
	if holes != 4 {
		t.Errorf("the button has %d of its holes", holes)
	}
	dot.Mark, dot.DX = scene.LookAt, 0
	img, _ = mark(t, scene.Layer{Dots: []scene.Dot{dot}}, 1)
	amber := img.RGBAAt(27, 32)
	if c := palette.Light.AmberFill; amber.R != c.R || amber.G != c.G || amber.B != c.B {
		t.Errorf("the diamond is %v inside", amber)
	}
	if img.RGBAAt(24, 24) != img.RGBAAt(0, 0) {
		t.Error("the diamond has the corner of a square")
	}
	if img.RGBAAt(31, 29).R > 120 {
		t.Error("the diamond has no stroke in it")
	}
}
