package palette

import (
	"image/color"
	"math"
)

// Nest is the colour of the printed size number i of n, counted from 0 at the
// smallest: Nest1 to Nest4 spread evenly over the sizes, mixed in OKLab
// (B. Ottosson, "A perceptual color space for image processing", 2020).
func (p Palette) Nest(i, n int) color.NRGBA {
	stops := []color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4}
	if n < 2 {
		return p.Nest4
	}
	last := len(stops) - 1
	at := float64(last) * float64(min(max(i, 0), n-1)) / float64(n-1)
	k := min(int(at), last-1)
	return mix(stops[k], stops[k+1], at-float64(k))
}

func mix(a, b color.NRGBA, t float64) color.NRGBA {
	la, lb := toLab(a), toLab(b)
	for i := range la {
		la[i] += t * (lb[i] - la[i])
	}
	return fromLab(la)
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
