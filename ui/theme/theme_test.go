package theme

import (
	"encoding/json"
	"image"
	"image/color"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	base "fyne.io/fyne/v2/theme"

	"quarterstep/ui/theme/palette"
)

// TestSizes holds the theme to the sizes of the look's tokens.
func TestSizes(t *testing.T) {
	raw, err := os.ReadFile("../../assets/tokens.json")
	if err != nil {
		t.Fatal(err)
	}
	var tokens struct {
		FyneSizes map[string]float32
	}
	if err := json.Unmarshal(raw, &tokens); err != nil {
		t.Fatal(err)
	}
	if len(tokens.FyneSizes) < 10 {
		t.Fatalf("only %d sizes among the tokens", len(tokens.FyneSizes))
	}
	th := New(false, 1)
	for token, want := range tokens.FyneSizes {
		if got := th.Size(fyne.ThemeSizeName(token)); got != want {
			t.Errorf("%s is %v, token says %v", token, got, want)
		}
	}
}

func TestColoursAreForced(t *testing.T) {
	for _, dark := range []bool{false, true} {
		th := New(dark, 1)
		p := palette.Of(dark)
		for _, variant := range []fyne.ThemeVariant{base.VariantLight, base.VariantDark} {
			if got := th.Color(base.ColorNameBackground, variant); got != color.Color(p.Window) {
				t.Errorf("dark %v, variant %d: background %v", dark, variant, got)
			}
			if got := th.Color(base.ColorNamePrimary, variant); got != color.Color(p.Accent) {
				t.Errorf("dark %v, variant %d: primary %v", dark, variant, got)
			}
		}
	}
}

func TestTextScale(t *testing.T) {
	for _, tt := range []struct{ ask, want float32 }{{0, 1}, {1, 1}, {1.25, 1.25}, {3, 1.5}} {
		th := New(false, tt.ask)
		if got := th.Size(base.SizeNameText); got != 14*tt.want {
			t.Errorf("text scale %v: body text %v, want %v", tt.ask, got, 14*tt.want)
		}
		if got := th.Size(base.SizeNamePadding); got != 4 {
			t.Errorf("text scale %v changes padding to %v", tt.ask, got)
		}
	}
}

func TestNow(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(New(true, 1.5))
	if Now() != Dark || Px(10) != 15 {
		t.Errorf("dark at 1.5: %v, 10 px become %v", Now() == Dark, Px(10))
	}
	a.Settings().SetTheme(New(false, 1))
	if Now() != Light || Px(10) != 10 {
		t.Errorf("light at 1: %v, 10 px become %v", Now() == Light, Px(10))
	}
}

func TestFonts(t *testing.T) {
	th := New(false, 1)
	if th.Font(fyne.TextStyle{}).Name() != "Lato-Regular.ttf" || th.Font(fyne.TextStyle{Bold: true}).Name() != "Lato-Bold.ttf" {
		t.Error("body text is not Lato")
	}
	if strings.HasPrefix(th.Font(fyne.TextStyle{Monospace: true}).Name(), "Lato") {
		t.Error("code must keep a font of one width")
	}
}

// TestIconsDraw paints every icon in two inks and counts the points that change
// with the ink, so that a drawing the window cannot read is found here.
func TestIconsDraw(t *testing.T) {
	test.NewTempApp(t)
	paint := func(name Name, ink color.NRGBA) image.Image {
		img := canvas.NewImageFromResource(Icon(name, ink, Light.OnAccent))
		img.SetMinSize(fyne.NewSize(48, 48))
		return software.Render(img, New(false, 1))
	}
	for _, name := range Names() {
		n := differing(paint(name, Light.Ink), paint(name, Light.Accent))
		if name == App {
			n = differing(paint(name, Light.Ink), paint("none of these", Light.Ink))
		}
		if n < 50 {
			t.Errorf("icon %s shows %d points of its ink", name, n)
		}
	}
	if n := differing(paint("none of these", Light.Ink), paint("none of these", Light.Accent)); n != 0 {
		t.Errorf("an unknown icon shows %d points of ink", n)
	}
}

func differing(a, b image.Image) int {
	n := 0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			if color.NRGBAModel.Convert(a.At(x, y)) != color.NRGBAModel.Convert(b.At(x, y)) {
				n++
			}
		}
	}
	return n
}
