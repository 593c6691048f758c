package paint_test

import (
	"image"
	"image/color"
	"slices"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// halves is a picture black at the left and white at the right.
func halves(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := uint8(0)
			if x >= w/2 {
				v = 255
			}
			m.SetRGBA(x, y, color.RGBA{v, v, v, 255})
		}
	}
	return m
}

func photoAt(t *testing.T, f scene.Photo, scale float64) *image.RGBA {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 200, 100))
	paint.Clear(img, palette.Light.Table)
	newPainter(t, palette.Light).Paint(img, paint.Screen{View: view.View{Scale: scale}, Factor: 1}, scene.Layer{Photos: []scene.Photo{f}})
	return img
}

// The edge of a photo's black half is where its millimetres say, at any size it
// is shown in, and beyond the photo the Table shows.
func TestPhotoLiesWhereItsMillimetresSay(t *testing.T) {
	table := palette.Light.Table
	for _, scale := range []float64{0.25, 1, 1.7, 6} {
		f := scene.Photo{Levels: scene.Levels(halves(640, 320)), PerMM: 10 * scale, At: geom.Pt(20/scale, 10/scale)}
		img := photoAt(t, f, scale) // 64 x 32 px on screen, from (20, 10)
		for x, want := range map[int]color.RGBA{
			19: {table.R, table.G, table.B, 255}, 22: {0, 0, 0, 255}, 50: {0, 0, 0, 255},
			53: {255, 255, 255, 255}, 82: {255, 255, 255, 255}, 85: {table.R, table.G, table.B, 255},
		} {
			if got := img.RGBAAt(x, 20); got != want {
				t.Errorf("scale %g: pixel %d is %v, want %v", scale, x, got, want)
			}
		}
	}
}

func TestPhotoFades(t *testing.T) {
	f := scene.Photo{Levels: scene.Levels(halves(640, 320)), PerMM: 10, Faded: 0.5}
	table := palette.Light.Table
	if got, want := int(photoAt(t, f, 1).RGBAAt(5, 5).R), int(table.R)/2; got < want-1 || got > want+1 {
		t.Errorf("black half gone is %d, want %d", got, want)
	}
	f.Faded = 1
	if got := photoAt(t, f, 1).RGBAAt(5, 5).R; got != table.R {
		t.Errorf("a photo faded away shows %d", got)
	}
}

func TestPhotoKeepsToWhatIsShown(t *testing.T) {
	f := scene.Photo{Levels: scene.Levels(halves(640, 320)), PerMM: 10, Shown: geom.Box{Min: geom.Pt(10, 10), Max: geom.Pt(20, 20)}}
	img := photoAt(t, f, 1)
	if img.RGBAAt(15, 15).R != 0 || img.RGBAAt(5, 15).R == 0 || img.RGBAAt(25, 15).R == 0 {
		t.Error("the photo shows outside its part")
	}
}

// BenchmarkPhoto paints a 12-megapixel photo over the Table at 1440 by 900. A
// frame has 16 ms.
func BenchmarkPhoto(b *testing.B) {
	levels := scene.Levels(halves(4000, 3000))
	p := newPainter(b, palette.Light)
	img := image.NewRGBA(image.Rect(0, 0, 1440, 900))
	for name, f := range map[string]scene.Photo{
		"whole":  {Levels: levels, PerMM: 10},
		"close":  {Levels: levels, PerMM: 2},
		"dimmed": {Levels: levels, PerMM: 10, Faded: 0.4},
	} {
		b.Run(name, func(b *testing.B) {
			for range b.N {
				p.Paint(img, paint.Screen{View: view.View{Scale: 3.6}, Factor: 1}, scene.Layer{Photos: []scene.Photo{f}})
			}
		})
	}
}

// A photo wholly out of sight, on any side, leaves the picture as it was.
func TestPhotoOutOfSight(t *testing.T) {
	bare := photoAt(t, scene.Photo{}, 1)
	for _, at := range []geom.Point{{X: -500, Y: 10}, {X: 900, Y: 10}, {X: 10, Y: -500}, {X: 10, Y: 900}, {X: 900, Y: 900}} {
		img := photoAt(t, scene.Photo{Levels: scene.Levels(halves(640, 320)), PerMM: 10, At: at}, 1)
		if !slices.Equal(img.Pix, bare.Pix) {
			t.Errorf("a photo at %v is seen", at)
		}
	}
}
