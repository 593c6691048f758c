package palette

import (
	"image/color"
	"math"
)

// Nest is the colour of the printed size number i of n, counted from 0 at the
// smallest: evenly spread in lightness from Nest1 to Nest4, along the colours
// between, mixed in OKLab (B. Ottosson, "A perceptual color space for image
// processing", 2020). Four sizes have the palette's own.
func (p Palette) Nest(i, n int) color.NRGBA {
	own := [4]color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4}
	switch {
	case n <= 1:
		return own[3]
	case n == 4:
		return own[min(max(i, 0), 3)]
	}
	var lab [4][3]float64
	for k, c := range own {
		lab[k] = toLab(c)
	}
	share := min(max(float64(i)/float64(n-1), 0), 1)
	want := lab[0][0] + share*(lab[3][0]-lab[0][0])
	k := 0
	for k < 2 && (want-lab[k][0])/(lab[k+1][0]-lab[k][0]) > 1 {
		k++
	}
	a, b := lab[k], lab[k+1]
	t := (want - a[0]) / (b[0] - a[0])
	return fromLab([3]float64{want, a[1] + t*(b[1]-a[1]), a[2] + t*(b[2]-a[2])})
}

func toLab(c color.NRGBA) [3]float64 {
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	return [3]float64{
		0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}

func fromLab(v [3]float64) color.NRGBA {
	cube := func(x float64) float64 { return x * x * x }
	l := cube(v[0] + 0.3963377774*v[1] + 0.2158037573*v[2])
	m := cube(v[0] - 0.1055613458*v[1] - 0.0638541728*v[2])
	s := cube(v[0] - 0.0894841775*v[1] - 1.2914855480*v[2])
	return color.NRGBA{
		R: gamma(4.0767416621*l - 3.3077115913*m + 0.2309699292*s),
		G: gamma(-1.2684380046*l + 2.6097574011*m - 0.3413193965*s),
		B: gamma(-0.0041960863*l - 0.7034186147*m + 1.7076147010*s),
		A: 0xff,
	}
}

// linear and gamma are the transfer curve of sRGB, IEC 61966-2-1.
func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

func gamma(x float64) uint8 {
	x = min(max(x, 0), 1)
	if x <= 0.0031308 {
		x *= 12.92
	} else {
		x = 1.055*math.Pow(x, 1/2.4) - 0.055
	}
	return uint8(x*255 + 0.5)
}
