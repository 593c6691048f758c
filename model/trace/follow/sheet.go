package follow

import (
	"image"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Sheet is a straightened grey picture of a paper sheet: dark lines on light
// paper, true to scale.
type Sheet struct {
	Gray   *image.Gray
	PerMM  float64    // pixels to a millimetre, the same across and down
	Origin geom.Point // where on the paper the picture's upper left corner lies, in mm
}

// Resolutions in pixels to a millimetre. Below the least a printed line is
// thinner than a pixel and dashes run together; above the finest the picture
// is halved first, which costs nothing in place.
const (
	leastPerMM  = 3.5
	finestPerMM = 10.5
	mostPixels  = 120e6
)

// check reports what keeps a sheet from being worked on.
func (s Sheet) check() error {
	switch {
	case s.Gray == nil || s.Gray.Rect.Dx() < 16 || s.Gray.Rect.Dy() < 16:
		return words.Errorf("the picture is empty; straighten a picture first")
	case float64(s.Gray.Rect.Dx())*float64(s.Gray.Rect.Dy()) > mostPixels:
		return words.Errorf("the picture has more than %.0f million pixels; straighten it at a lower resolution", mostPixels/1e6)
	case !(s.PerMM >= leastPerMM) || s.PerMM > 200:
		return words.Errorf("the picture has %.3g pixels to the millimetre, and following a line needs %g at least; take it from nearer by, or in parts", s.PerMM, leastPerMM)
	case !s.Origin.Finite():
		return words.Errorf("the picture's place on the paper is not a number")
	}
	return nil
}

// halved is s at half the resolution, each pixel the mean of four.
func (s Sheet) halved() Sheet {
	r := s.Gray.Rect
	w, h := r.Dx()/2, r.Dy()/2
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		a := s.Gray.Pix[2*y*s.Gray.Stride:]
		b := s.Gray.Pix[(2*y+1)*s.Gray.Stride:]
		row := out.Pix[y*out.Stride:]
		for x := range w {
			sum := int(a[2*x]) + int(a[2*x+1]) + int(b[2*x]) + int(b[2*x+1])
			row[x] = uint8((sum + 2) / 4)
		}
	}
	return Sheet{Gray: out, PerMM: s.PerMM / 2, Origin: s.Origin}
}

// mm is the place on the paper of the continuous pixel place (x, y), pixel
// centres at a half.
func (s Sheet) mm(x, y float64) geom.Point {
	return geom.Pt(s.Origin.X+x/s.PerMM, s.Origin.Y+y/s.PerMM)
}
