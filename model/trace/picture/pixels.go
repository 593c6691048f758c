package picture

import (
	"image"
	"image/draw"
)

// flatten is img at (0, 0) with white paper under its see-through places.
func flatten(img image.Image) *image.RGBA {
	b := img.Bounds()
	dst := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	clear := !opaque(img)
	inRows(b.Dy(), func(from, to int) {
		rows := image.Rect(0, from, b.Dx(), to)
		at := b.Min.Add(image.Pt(0, from))
		if clear {
			draw.Draw(dst, rows, image.White, image.Point{}, draw.Src)
			draw.Draw(dst, rows, img, at, draw.Over)
			return
		}
		draw.Draw(dst, rows, img, at, draw.Src)
	})
	return dst
}

// opaque reports whether img lets nothing through.
func opaque(img image.Image) bool {
	o, ok := img.(interface{ Opaque() bool })
	return ok && o.Opaque()
}

// hasGreys reports whether greys needs no colours for img.
func hasGreys(img image.Image) bool {
	switch img.(type) {
	case *image.YCbCr, *image.Gray:
		return true
	}
	return false
}

// greys is img at (0, 0) in shades of grey, shown its colours: a JPEG's own
// brightness, else the weights of ITU-R BT.601, which JPEG's brightness has too.
func greys(img image.Image, shown *image.RGBA) *image.Gray {
	b := img.Bounds()
	dst := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	switch src := img.(type) {
	case *image.YCbCr:
		inRows(b.Dy(), func(from, to int) {
			for y := from; y < to; y++ {
				copy(dst.Pix[y*dst.Stride:][:b.Dx()], src.Y[src.YOffset(b.Min.X, b.Min.Y+y):])
			}
		})
		return dst
	case *image.Gray:
		draw.Draw(dst, dst.Rect, src, b.Min, draw.Src)
		return dst
	}
	inRows(b.Dy(), func(from, to int) {
		for i := from * b.Dx(); i < to*b.Dx(); i++ {
			p := shown.Pix[4*i:][:3]
			dst.Pix[i] = uint8((19595*uint32(p[0]) + 38470*uint32(p[1]) + 7471*uint32(p[2]) + 1<<15) >> 16)
		}
	})
	return dst
}
