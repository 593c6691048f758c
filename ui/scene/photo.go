package scene

import (
	"image"
	"image/draw"
	"slices"

	"quarterstep/model/geom"
)

// Photo is a photo or scan of paper that lies under everything else.
type Photo struct {
	// Levels is the picture, then the same half as large, and so on: what is
	// shown small is read from a small one. Each begins at (0, 0). See Levels.
	Levels []*image.RGBA
	At     geom.Point // its upper left corner on the Table
	PerMM  float64    // pixels of Levels[0] to a millimetre
	Faded  float64    // how far it is dimmed: 0 as taken, 1 gone
	Shown  geom.Box   // the part of the Table it is shown in; empty for all of it
}

// leastLevel is the side below which a picture is not halved any more.
const leastLevel = 64

// Levels are a picture and its halves, for Photo. It keeps m itself where that
// can be.
func Levels(m image.Image) []*image.RGBA {
	first, ok := m.(*image.RGBA)
	if !ok || first.Rect.Min != (image.Point{}) {
		b := m.Bounds()
		first = image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
		draw.Draw(first, first.Rect, m, b.Min, draw.Src)
	}
	out := []*image.RGBA{first}
	for last := first; min(last.Rect.Dx(), last.Rect.Dy()) >= 2*leastLevel; {
		last = halved(last)
		out = append(out, last)
	}
	return out
}

// halved is each four pixels as one; a last odd row or column is left out.
func halved(m *image.RGBA) *image.RGBA {
	w, h := m.Rect.Dx()/2, m.Rect.Dy()/2
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		top, low := m.Pix[2*y*m.Stride:], m.Pix[(2*y+1)*m.Stride:]
		to := out.Pix[y*out.Stride : y*out.Stride+4*w]
		for x := 0; x < len(to); x++ {
			i := x/4*8 + x%4
			to[x] = uint8((uint(top[i]) + uint(top[i+4]) + uint(low[i]) + uint(low[i+4]) + 2) / 4)
		}
	}
	return out
}

// Box is the part of the Table it lies on, or is shown in.
func (p Photo) Box() geom.Box {
	if len(p.Levels) == 0 || p.PerMM <= 0 {
		return geom.Box{}
	}
	s := p.Levels[0].Rect.Size()
	b := geom.Box{Min: p.At, Max: p.At.Add(geom.Vec{X: float64(s.X) / p.PerMM, Y: float64(s.Y) / p.PerMM})}
	if p.Shown.Empty() {
		return b
	}
	return geom.Box{
		Min: geom.Pt(max(b.Min.X, p.Shown.Min.X), max(b.Min.Y, p.Shown.Min.Y)),
		Max: geom.Pt(min(b.Max.X, p.Shown.Max.X), min(b.Max.Y, p.Shown.Max.Y)),
	}
}

// SamePhotos reports whether the same photos lie on both, at the same places.
func SamePhotos(a, b Input) bool {
	return slices.EqualFunc(a.Photos, b.Photos, func(p, q Photo) bool {
		return len(p.Levels) > 0 && len(q.Levels) > 0 && p.Levels[0] == q.Levels[0] && p.At == q.At && p.PerMM == q.PerMM
	})
}

// TurnedRight is a picture turned by a quarter to the right.
func TurnedRight(m *image.RGBA) *image.RGBA {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, h, w))
	const block = 32 // px: so that both pictures stay in the cache
	for y0 := 0; y0 < h; y0 += block {
		for x0 := 0; x0 < w; x0 += block {
			for y := y0; y < min(y0+block, h); y++ {
				for x := x0; x < min(x0+block, w); x++ {
					copy(out.Pix[x*out.Stride+4*(h-1-y):][:4], m.Pix[y*m.Stride+4*x:][:4])
				}
			}
		}
	}
	return out
}
