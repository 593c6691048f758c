package panel

import (
	"image"
	"image/color"
	"math"

	"quarterstep/ui/theme"
)

// Stitches along the rail's bottom edge, in pixels.
const (
	stitchLong = 9.3
	stitchGap  = 5.3
	stitchWide = 3.2
)

// sew draws the row of stitches: sewn up to the present step, in the accent
// colour along it, pale after it.
func (r *Rail) sew(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	width := r.Size().Width
	if width <= 0 || w <= 0 {
		return img
	}
	p := theme.Now()
	x, span := r.stepSpan(r.view.Present, width)
	return stitchRow(img, float64(w)/float64(width), func(at float64) color.NRGBA {
		switch {
		case at < float64(x):
			return p.InkSoft
		case at < float64(x+span):
			return p.Accent
		}
		return p.Separator
	})
}

// stitchRow draws stitches with round ends over the whole width; colour tells
// the colour at a stitch's middle, in pixels from the left; scale is device
// points a pixel.
func stitchRow(img *image.RGBA, scale float64, colour func(at float64) color.NRGBA) image.Image {
	b := img.Bounds()
	half := stitchWide / 2 * scale
	cy := float64(b.Dy()) / 2
	for start := 6.0; (start)*scale < float64(b.Dx()); start += stitchLong + stitchGap {
		c := colour(start + stitchLong/2)
		x0, x1 := start*scale+half, (start+stitchLong)*scale-half
		for px := int(x0 - half - 1); px <= int(x1+half+1); px++ {
			for py := range b.Dy() {
				fx, fy := float64(px)+0.5, float64(py)+0.5
				dx := fx - min(max(fx, x0), x1)
				cover := min(max(half+0.5-math.Hypot(dx, fy-cy), 0), 1)
				if cover > 0 && image.Pt(px, py).In(b) {
					img.Set(px, py, theme.Faded(c, cover))
				}
			}
		}
	}
	return img
}
