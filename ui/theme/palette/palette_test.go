package palette

import (
	"encoding/json"
	"fmt"
	"image/color"
	"os"
	"reflect"
	"strings"
	"testing"
)

// TestTokens holds the two sets to the look's tokens, both ways: no colour
// differs, none is missing on either side.
func TestTokens(t *testing.T) {
	raw, err := os.ReadFile("../../../assets/tokens.json")
	if err != nil {
		t.Fatal(err)
	}
	var tokens struct {
		Colour map[string]map[string]string
	}
	if err := json.Unmarshal(raw, &tokens); err != nil {
		t.Fatal(err)
	}
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		want := tokens.Colour[name]
		have := fields(p)
		if len(want) != len(have) {
			t.Errorf("%s: %d tokens, %d colours", name, len(want), len(have))
		}
		for token, hex := range want {
			if have[strings.ToLower(token)] != hex {
				t.Errorf("%s %s: %s, token says %s", name, token, have[strings.ToLower(token)], hex)
			}
		}
	}
}

// TestContrast checks text at 4.5 and lines at 3, the ratios of WCAG 2.1,
// success criteria 1.4.3 and 1.4.11, by its own definition of contrast.
func TestContrast(t *testing.T) {
	pairs := []struct {
		need   float64
		ground string
		tones  string
	}{
		{4.5, "window", "ink inksoft inkfaint accentink amberink"},
		{4.5, "raised", "ink inksoft inkfaint accentink amberink loss"},
		{4.5, "field", "ink inksoft inkfaint accentink"},
		{4.5, "rail", "ink inksoft"},
		{4.5, "button", "ink"},
		{4.5, "table", "ink inksoft inkfaint accentink nest3 nest4"},
		{4.5, "ruler", "inksoft accentink"},
		{4.5, "accenttint", "ink inksoft accentink"},
		{4.5, "accent", "onaccent"},
		{4.5, "accenthover", "onaccent"},
		{4.5, "amberfill", "onamber"},
		{4.5, "ambertint", "ink amberink"},
		{4.5, "loss", "onloss"},
		{3, "table", "accent nest1 nest2 amberline edge"},
		{3, "raised", "accent nest1 amberline edge"},
		{3, "rail", "accent"},
		{3, "window", "edge"},
		{3, "field", "edge"},
	}
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		all := fields(p)
		for _, pair := range pairs {
			for _, tone := range strings.Fields(pair.tones) {
				if got := contrast(t, all[tone], all[pair.ground]); got < pair.need {
					t.Errorf("%s: %s on %s has contrast %.2f, want %.1f", name, tone, pair.ground, got, pair.need)
				}
			}
		}
	}
}

func TestNest(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		four := []color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4}
		for i, want := range four {
			if got := p.Nest(i, 4); got != want {
				t.Errorf("%s: size %d of 4 is %v, want %v", name, i+1, got, want)
			}
		}
		for n := 2; n <= 8; n++ {
			if p.Nest(0, n) != p.Nest1 || p.Nest(n-1, n) != p.Nest4 {
				t.Errorf("%s: %d sizes do not run from the first colour to the last", name, n)
			}
			for i := 1; i < n; i++ {
				step := toLab(p.Nest(i, n))[0] - toLab(p.Nest(i-1, n))[0]
				if step < 0.01 != (p == Light) {
					t.Errorf("%s: size %d of %d changes lightness by %.3f, the wrong way or too little", name, i+1, n, step)
				}
			}
		}
	}
	if got := Light.Nest(0, 1); got != Light.Nest4 {
		t.Errorf("a single size is %v", got)
	}
}

// TestOKLab checks the two published reference points of the colour space:
// white is (1, 0, 0), and sRGB red about (0.628, 0.225, 0.126).
// Source: B. Ottosson's article of 2020; red as given in CSS Color 4.
func TestOKLab(t *testing.T) {
	tests := []struct {
		c    color.NRGBA
		want [3]float64
	}{
		{color.NRGBA{0xff, 0xff, 0xff, 0xff}, [3]float64{1, 0, 0}},
		{color.NRGBA{0xff, 0, 0, 0xff}, [3]float64{0.628, 0.225, 0.126}},
	}
	for _, tt := range tests {
		for i, v := range toLab(tt.c) {
			if d := v - tt.want[i]; d > 6e-4 || d < -6e-4 {
				t.Errorf("%v: part %d is %.4f, want %.3f", tt.c, i, v, tt.want[i])
			}
		}
		if back := fromLab(toLab(tt.c)); back != tt.c {
			t.Errorf("%v comes back as %v", tt.c, back)
		}
	}
}

func fields(p Palette) map[string]string {
	out := map[string]string{}
	v := reflect.ValueOf(p)
	for i := range v.NumField() {
		c := v.Field(i).Interface().(color.NRGBA)
		out[strings.ToLower(v.Type().Field(i).Name)] = fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B)
	}
	return out
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	la, lb := luminance(t, a)+0.05, luminance(t, b)+0.05
	return max(la, lb) / min(la, lb)
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	var r, g, b uint8
	if _, err := fmt.Sscanf(hex, "#%02X%02X%02X", &r, &g, &b); err != nil {
		t.Fatalf("colour %q: %v", hex, err)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}
