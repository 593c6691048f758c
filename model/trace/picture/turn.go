package picture

import (
	"image"
	"runtime"

	"quarterstep/model/crew"
)

// Turn is how a camera held its picture: EXIF's orientation less one. The zero
// Turn is upright. Bit 2 swaps across and down, then bits of the table below
// mirror.
type Turn uint8

// turns tells for each Turn how a displayed pixel (x, y) is found in the stored
// picture (Exif 2.32, 4.6.5.1 tag Orientation): whether across and down are
// swapped, and whether the stored x and y then count from the far end.
var turns = [8]struct{ swap, farX, farY bool }{
	{false, false, false},
	{false, true, false},
	{false, true, true},
	{false, false, true},
	{true, false, false},
	{true, false, true},
	{true, true, true},
	{true, true, false},
}

// sideways reports whether width and height change places.
func (t Turn) sideways() bool { return turns[t&7].swap }

// Stored is where the place (x, y) of the displayed picture lies in the picture
// as the camera's sensor saw it; size is the displayed picture's. Places count
// in pixels from the corner of the first pixel.
func (t Turn) Stored(x, y float64, size image.Point) (sx, sy float64) {
	k := turns[t&7]
	w, h := float64(size.X), float64(size.Y)
	if k.swap {
		x, y, w, h = y, x, h, w
	}
	if k.farX {
		x = w - x
	}
	if k.farY {
		y = h - y
	}
	return x, y
}

// rgba is the stored picture as displayed.
func (t Turn) rgba(src *image.RGBA) *image.RGBA {
	if t&7 == 0 {
		return src
	}
	dst := image.NewRGBA(t.displayed(src.Rect))
	t.walk(dst.Rect.Size(), func(x, y, sx, sy int) {
		copy(dst.Pix[y*dst.Stride+4*x:][:4], src.Pix[sy*src.Stride+4*sx:])
	})
	return dst
}

// gray is the stored picture as displayed.
func (t Turn) gray(src *image.Gray) *image.Gray {
	if t&7 == 0 {
		return src
	}
	dst := image.NewGray(t.displayed(src.Rect))
	t.walk(dst.Rect.Size(), func(x, y, sx, sy int) {
		dst.Pix[y*dst.Stride+x] = src.Pix[sy*src.Stride+sx]
	})
	return dst
}

func (t Turn) displayed(stored image.Rectangle) image.Rectangle {
	if t.sideways() {
		return image.Rect(0, 0, stored.Dy(), stored.Dx())
	}
	return image.Rect(0, 0, stored.Dx(), stored.Dy())
}

// walk calls each once for every displayed pixel with its stored one.
func (t Turn) walk(size image.Point, each func(x, y, sx, sy int)) {
	k := turns[t&7]
	inRows(size.Y, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range size.X {
				sx, sy, w, h := x, y, size.X, size.Y
				if k.swap {
					sx, sy, w, h = y, x, size.Y, size.X
				}
				if k.farX {
					sx = w - 1 - sx
				}
				if k.farY {
					sy = h - 1 - sy
				}
				each(x, y, sx, sy)
			}
		}
	})
}

// inRows shares n rows out to all processors.
func inRows(n int, do func(from, to int)) {
	parts := min(max(1, n/64), runtime.GOMAXPROCS(0))
	var wg crew.Group
	for i := range parts {
		wg.Go(func() { do(n*i/parts, n*(i+1)/parts) })
	}
	wg.Wait()
}
