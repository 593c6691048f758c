package paint_test

import (
	"image"
	"testing"

	"quarterstep/assets"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// BenchmarkTable paints a full Table, 12 pieces in 10 printed sizes with their
// new lines, words and marks, at 1600 by 900. The aim is 8 ms.
func BenchmarkTable(b *testing.B) {
	in, err := scenetest.Wardrobe(10)
	if err != nil {
		b.Fatal(err)
	}
	const w, h = 1600, 900
	v := view.Fit(in.Bounds(), w, h, 20)
	in.Scale = v.Scale
	layer := scene.Static(in, nil)
	p := newPainter(b, palette.Light)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	b.ResetTimer()
	for range b.N {
		paint.Clear(img, palette.Light.Table)
		p.Paint(img, paint.Screen{View: v, Factor: 1}, layer)
	}
}

// BenchmarkPieceInHand paints what is redrawn as a hand moves a point: one
// piece with its handles.
func BenchmarkPieceInHand(b *testing.B) {
	in, err := scenetest.Blouse(4)
	if err != nil {
		b.Fatal(err)
	}
	const w, h = 500, 700
	v := view.Fit(in.Bounds(), 900, h, 20)
	in.Scale = v.Scale
	in.Select = scene.Ref{Piece: "front", Edge: "side seam", Point: "underarm"}
	p := newPainter(b, palette.Light)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	b.ResetTimer()
	for range b.N {
		paint.Clear(img, palette.Light.Table)
		p.Paint(img, paint.Screen{View: v, Factor: 1}, scene.Active(in, []string{"front"}))
	}
}

func newPainter(t testing.TB, c palette.Palette) *paint.Painter {
	t.Helper()
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		t.Fatal(err)
	}
	return paint.New(fonts, c)
}
