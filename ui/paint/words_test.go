package paint_test

import (
	"image"
	"math"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
)

// Words are as wide as x/image's own face measures them, by words without
// kerning: that face leaves kerning unscaled. Kerned words are narrower than
// their letters, by the same share at every size.
func TestWidthAgainstOpentype(t *testing.T) {
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		t.Fatal(err)
	}
	for i, data := range [][]byte{assets.LatoRegular, assets.LatoBold} {
		parsed, err := opentype.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range []float64{12, 13, 16, 24} {
			face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
			if err != nil {
				t.Fatal(err)
			}
			for _, words := range []string{"HHH", "1 11/16", "48", ""} {
				want := float64(font.MeasureString(face, words)) / 64
				if got := fonts.Width(words, size, i == 1); math.Abs(got-want) > 0.3 {
					t.Errorf("%q at %g is %.2f px wide, want %.2f", words, size, got, want)
				}
			}
			apart := fonts.Width("A", size, i == 1) + fonts.Width("V", size, i == 1)
			if k := 1 - fonts.Width("AV", size, i == 1)/apart; k < 0.03 || k > 0.12 {
				t.Errorf("A and V at %g are moved together by %.3f of their width", size, k)
			}
		}
	}
}

func TestNewFontsSaysWhatItCannotRead(t *testing.T) {
	if _, err := paint.NewFonts(assets.LatoRegular, []byte("no font")); err == nil {
		t.Error("a file that is no font was taken for one")
	}
}

// middle is the centre of a picture's ink, and its extent.
func middle(v []float64) (c geom.Point, box image.Rectangle) {
	var sum, x, y float64
	for i, d := range v {
		px, py := i%side, i/side
		sum, x, y = sum+d, x+d*(float64(px)+0.5), y+d*(float64(py)+0.5)
		if d > 0.1 {
			box = box.Union(image.Rect(px, py, px+1, py+1))
		}
	}
	return geom.Pt(x/sum, y/sum), box
}

// Words stand where they are put: a row of H by its anchor across, with the
// middle of the capitals at its height; turned, the same about its place.
func TestWordsStandAtTheirPlace(t *testing.T) {
	base := scene.Text{Words: "HHH", At: geom.Pt(32, 32), Size: 12}
	c, box := middle(cover(t, scene.Layer{Texts: []scene.Text{base}}))
	if c.Dist(geom.Pt(32, 32)) > 0.7 {
		t.Errorf("the middle of the words is at %v", c)
	}
	// A capital of Lato is 1433 of 2000 units high (its OS/2 table).
	if want := 12 * 1433.0 / 2000; math.Abs(float64(box.Dy())-want) > 1.5 {
		t.Errorf("capitals are %d px high, want %.1f", box.Dy(), want)
	}
	left, right := base, base
	left.Anchor, right.Anchor = scene.Left, scene.Right
	if _, b := middle(cover(t, scene.Layer{Texts: []scene.Text{left}})); b.Min.X < 32 || b.Min.X > 35 {
		t.Errorf("words on the right of their place begin at %d", b.Min.X)
	}
	if _, b := middle(cover(t, scene.Layer{Texts: []scene.Text{right}})); b.Max.X > 32 || b.Max.X < 29 {
		t.Errorf("words on the left of their place end at %d", b.Max.X)
	}
	turned := base
	turned.Turn = -math.Pi / 2
	c, b := middle(cover(t, scene.Layer{Texts: []scene.Text{turned}}))
	if c.Dist(geom.Pt(32, 32)) > 0.7 || math.Abs(float64(b.Dy()-box.Dx())) > 1 || math.Abs(float64(b.Dx()-box.Dy())) > 1 {
		t.Errorf("turned words lie at %v, %v instead of %v on end", c, b, box)
	}
}

// A line breaks round words with a halo: no ink of it within a pixel of them.
func TestHaloBreaksTheLine(t *testing.T) {
	line := scene.Line{Path: geom.Polyline(geom.Pt(0, 32), geom.Pt(64, 32)), Width: 3, Alpha: 1}
	text := scene.Text{Words: "l", At: geom.Pt(32, 32), Size: 20, Ink: scene.InkTable, Halo: scene.InkTable}
	got := cover(t, scene.Layer{Lines: []scene.Line{line}, Texts: []scene.Text{text}})
	row := got[32*side : 33*side]
	if row[10] < 0.9 || row[54] < 0.9 {
		t.Error("the line is broken far from the words")
	}
	if row[30] > 0.1 || row[32] > 0.1 || row[34] > 0.1 {
		t.Errorf("the line runs into the words: %.2f %.2f %.2f", row[30], row[32], row[34])
	}
}
