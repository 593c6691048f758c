package paint

import (
	"image/color"
	"math"

	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

// colourOf is the colour of a scene's ink in palette p.
func colourOf(p palette.Palette, k scene.Ink) color.NRGBA {
	if i, n, ok := k.Nest(); ok {
		return NestColour(p, i, n)
	}
	named := [...]color.NRGBA{
		scene.InkWords:       p.Ink,
		scene.InkSoft:        p.InkSoft,
		scene.InkFaint:       p.InkFaint,
		scene.InkTable:       p.Table,
		scene.InkGrid:        p.Grid,
		scene.InkGridMajor:   p.GridMajor,
		scene.InkRuler:       p.Ruler,
		scene.InkSheet:       p.Field,
		scene.InkEdge:        p.Edge,
		scene.InkAccent:      p.Accent,
		scene.InkAccentWords: p.AccentInk,
		scene.InkAccentTint:  p.AccentTint,
		scene.InkOnAccent:    p.OnAccent,
		scene.InkRaised:      p.Raised,
		scene.InkLookFill:    p.AmberFill,
		scene.InkLookLine:    p.AmberLine,
		scene.InkOnLook:      p.OnAmber,
	}
	return named[k]
}

// NestColour is the colour of the i-th of n printed sizes, smallest first:
// evenly spread in OKLab lightness from the palette's first nest colour to its
// last, along the colours between. Four sizes have the palette's own.
func NestColour(p palette.Palette, i, n int) color.NRGBA {
	own := [4]color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4}
	switch {
	case n <= 1:
		return own[3]
	case n == 4:
		return own[min(max(i, 0), 3)]
	}
	var lab [4]oklab
	for k, c := range own {
		lab[k] = toOKLab(c)
	}
	share := min(max(float64(i)/float64(n-1), 0), 1)
	want := lab[0].l + share*(lab[3].l-lab[0].l)
	for k := range 3 {
		a, b := lab[k], lab[k+1]
		if t := (want - a.l) / (b.l - a.l); t <= 1 || k == 2 {
			return oklab{want, a.a + t*(b.a-a.a), a.b + t*(b.b-a.b)}.colour()
		}
	}
	return own[3]
}

// oklab is a colour by its lightness 0 to 1 and two opponent axes (B. Ottosson,
// "A perceptual color space for image processing", 2020).
type oklab struct{ l, a, b float64 }

func toOKLab(c color.NRGBA) oklab {
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	return oklab{
		0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}

func (k oklab) colour() color.NRGBA {
	cube := func(x float64) float64 { return x * x * x }
	l := cube(k.l + 0.3963377774*k.a + 0.2158037573*k.b)
	m := cube(k.l - 0.1055613458*k.a - 0.0638541728*k.b)
	s := cube(k.l - 0.0894841775*k.a - 1.2914855480*k.b)
	return color.NRGBA{
		encoded(4.0767416621*l - 3.3077115913*m + 0.2309699292*s),
		encoded(-1.2684380046*l + 2.6097574011*m - 0.3413193965*s),
		encoded(-0.0041960863*l - 0.7034186147*m + 1.7076147010*s),
		255,
	}
}

// linear is the light of an sRGB channel (IEC 61966-2-1).
func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

// encoded is the inverse of linear, held to what a channel can hold.
func encoded(x float64) uint8 {
	x = min(max(x, 0), 1)
	if x <= 0.0031308 {
		x *= 12.92
	} else {
		x = 1.055*math.Pow(x, 1/2.4) - 0.055
	}
	return uint8(x*255 + 0.5)
}
