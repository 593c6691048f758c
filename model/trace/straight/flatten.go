package straight

import (
	"context"
	"image"
	"math"
	"runtime"
	"sync/atomic"

	"quarterstep/assets/words"
	"quarterstep/model/crew"
	"quarterstep/model/geom"
)

// MostPixels is how large a flattened picture may be.
const MostPixels = 80_000_000

// ErrTooLarge says that the flat picture would be larger than MostPixels.
var ErrTooLarge = words.Fault("the paper is too large for so fine a picture; crop it, or take fewer pixels to a millimetre")

// Flatten draws what lies within bounds, in mm on the paper, at perMM pixels to
// a millimetre, from the picture g; outside g it is white. Pixel (0, 0) begins
// at the upper left of bounds. Where the picture is finer than that, a pixel is
// the mean of what it covers. It stops with the context's error when that is
// done, and reports how far it is, 0 to 1; progress may be nil.
func Flatten(ctx context.Context, g *image.Gray, m Map, bounds geom.Box, perMM float64, progress func(float64)) (*image.Gray, error) {
	out, err := newFlat(m, bounds, perMM)
	if err != nil {
		return nil, err
	}
	to := image.NewGray(image.Rect(0, 0, out.wide, out.high))
	err = out.rows(ctx, progress, func(y int) {
		pix, from := to.Pix[y*to.Stride:y*to.Stride+out.wide], out.row(y)
		for n := range pix {
			sum := 0
			for _, look := range out.looks {
				x, y := from.at(n, look)
				sum += int(sampleGray(g, x, y))
			}
			pix[n] = uint8((sum + len(out.looks)/2) / len(out.looks))
		}
	})
	return to, err
}

// FlattenColour is Flatten for a picture in colour.
func FlattenColour(ctx context.Context, c *image.RGBA, m Map, bounds geom.Box, perMM float64, progress func(float64)) (*image.RGBA, error) {
	out, err := newFlat(m, bounds, perMM)
	if err != nil {
		return nil, err
	}
	to := image.NewRGBA(image.Rect(0, 0, out.wide, out.high))
	err = out.rows(ctx, progress, func(y int) {
		pix, from := to.Pix[y*to.Stride:y*to.Stride+4*out.wide], out.row(y)
		for n := range out.wide {
			var sum [4]int
			for _, look := range out.looks {
				x, y := from.at(n, look)
				v := sampleColour(c, x, y)
				for k := range sum {
					sum[k] += int(v[k])
				}
			}
			for k, v := range sum {
				pix[4*n+k] = uint8((v + len(out.looks)/2) / len(out.looks))
			}
		}
	})
	return to, err
}

// flat is the grid of a flattened picture.
type flat struct {
	wide, high int
	from       geom.Point
	step       float64    // mm
	paper      [9]float64 // mm to pixels without bend
	lens       Lens
	looks      []geom.Vec // into a pixel from its middle, in pixels
}

// mostAcross is how many looks a pixel is the mean of at most, each way.
const mostAcross = 4

func newFlat(m Map, bounds geom.Box, perMM float64) (flat, error) {
	const rounding = 1e-6 // px, so that whole pixels stay as many
	w, h := math.Ceil(bounds.Width()*perMM-rounding), math.Ceil(bounds.Height()*perMM-rounding)
	if !(w >= 1) || !(h >= 1) || !(perMM > 0) {
		return flat{}, words.Error("there is nothing of the paper to show")
	}
	if w*h > MostPixels {
		return flat{}, ErrTooLarge
	}
	f := flat{int(w), int(h), bounds.Min, 1 / perMM, inverse3(m.H), m.Lens, nil}
	f.look(m.PerMM(m.Pixel(bounds.Centre())) / perMM)
	return f, nil
}

// look sets how often each way a pixel is looked at, the picture being so many
// times finer.
func (f *flat) look(finer float64) {
	n := 1
	if finer > 1.5 {
		n = int(math.Min(math.Round(finer), mostAcross))
	}
	for i := range n * n {
		f.looks = append(f.looks, geom.Vec{
			X: (float64(i%n)+0.5)/float64(n) - 0.5,
			Y: (float64(i/n)+0.5)/float64(n) - 0.5,
		})
	}
}

// row is a row of the grid, walked from its left end: where the paper's places
// are in the picture, numerators and denominator of the perspective apart.
type row struct {
	x, y, w    float64
	dx, dy, dw float64 // from pixel to pixel
	ex, ey, ew float64 // from row to row
	k, cx, cy  float64 // the lens's term by its squared scale, and its centre
}

func (f flat) row(y int) row {
	h, mm := f.paper, geom.Pt(f.from.X+0.5*f.step, f.from.Y+(float64(y)+0.5)*f.step)
	r := row{
		x: h[0]*mm.X + h[1]*mm.Y + h[2], y: h[3]*mm.X + h[4]*mm.Y + h[5], w: h[6]*mm.X + h[7]*mm.Y + h[8],
		dx: h[0] * f.step, dy: h[3] * f.step, dw: h[6] * f.step,
		ex: h[1] * f.step, ey: h[4] * f.step, ew: h[7] * f.step,
	}
	if !f.lens.none() {
		r.k, r.cx, r.cy = f.lens.K1/(f.lens.Scale*f.lens.Scale), f.lens.Centre.X, f.lens.Centre.Y
	}
	return r
}

// at is where pixel n of the row, seen off its middle, is in the picture; (-1,
// -1), outside, where the picture cannot show it.
func (r *row) at(n int, off geom.Vec) (x, y float64) {
	t := float64(n) + off.X
	w := r.w + t*r.dw + off.Y*r.ew
	if w <= 0 {
		return -1, -1
	}
	q := 1 / w
	x, y = (r.x+t*r.dx+off.Y*r.ex)*q, (r.y+t*r.dy+off.Y*r.ey)*q
	if r.k != 0 {
		u, v := x-r.cx, y-r.cy
		out := r.k * (u*u + v*v)
		if 1+3*out < 0 {
			return -1, -1
		}
		x, y = x+u*out, y+v*out
	}
	return x, y
}

// rows draws every row, on all cores.
func (f flat) rows(ctx context.Context, progress func(float64), draw func(y int)) error {
	var next, done atomic.Int64
	var wg crew.Group
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for ctx.Err() == nil {
				y := int(next.Add(1) - 1)
				if y >= f.high {
					return
				}
				draw(y)
				if n := done.Add(1); progress != nil && n%64 == 0 {
					progress(float64(n) / float64(f.high))
				}
			}
		})
	}
	wg.Wait()
	return ctx.Err()
}

// corner is the pixel up and left of a place, and how far the place lies into
// the four pixels from its middle, 0 to 256; false outside the picture.
func corner(b image.Rectangle, atX, atY float64) (x, y, u, v int, ok bool) {
	fx, fy := atX-0.5, atY-0.5
	w, h := b.Max.X-b.Min.X-1, b.Max.Y-b.Min.Y-1
	if !(fx >= 0) || !(fy >= 0) || fx >= float64(w) || fy >= float64(h) {
		return 0, 0, 0, 0, false
	}
	x, y = int(fx), int(fy)
	return x, y, int((fx - float64(x)) * 256), int((fy - float64(y)) * 256), true
}

func sampleGray(g *image.Gray, atX, atY float64) uint8 {
	x, y, u, v, ok := corner(g.Rect, atX, atY)
	if !ok {
		return 255
	}
	i := y*g.Stride + x
	p, q := g.Pix[i:i+2:i+2], g.Pix[i+g.Stride:i+g.Stride+2:i+g.Stride+2]
	top := int(p[0])*(256-u) + int(p[1])*u
	low := int(q[0])*(256-u) + int(q[1])*u
	return uint8((top*(256-v) + low*v + 1<<15) >> 16)
}

func sampleColour(c *image.RGBA, atX, atY float64) (to [4]uint8) {
	x, y, u, v, ok := corner(c.Rect, atX, atY)
	if !ok {
		return [4]uint8{255, 255, 255, 255}
	}
	i := y*c.Stride + 4*x
	p, q := c.Pix[i:i+8:i+8], c.Pix[i+c.Stride:i+c.Stride+8:i+c.Stride+8]
	for k := range 4 {
		top := int(p[k])*(256-u) + int(p[4+k])*u
		low := int(q[k])*(256-u) + int(q[4+k])*u
		to[k] = uint8((top*(256-v) + low*v + 1<<15) >> 16)
	}
	return to
}
