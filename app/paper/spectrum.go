package paper

import (
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// spectra are the Fourier transforms of a sight's cells: its ink, the square of
// it, and which cells are seen, on a raster of w by h.
type spectra struct {
	w, h              int
	ink, square, seen []complex128
	cells             int // that are seen
}

// smooth is the least number from n on that is a product of twos, threes and
// fives, which transforms are quick for.
func smooth(n int) int {
	for ; ; n++ {
		m := n
		for _, p := range []int{2, 3, 5} {
			for m%p == 0 {
				m /= p
			}
		}
		if m == 1 {
			return n
		}
	}
}

// spectraOf transforms a sight on a raster at least as large as it is.
func spectraOf(s sight, w, h int) spectra {
	out := spectra{w: w, h: h, square: make([]complex128, w*h)}
	both := make([]complex128, w*h) // ink, and as imaginary part what is seen
	for y := range s.h {
		for x := range s.w {
			v := s.ink[y*s.w+x]
			if v < 0 {
				continue
			}
			out.cells++
			both[y*w+x] = complex(float64(v), 1)
			out.square[y*w+x] = complex(float64(v)*float64(v), 0)
		}
	}
	transform(both, w, h, (*fourier.CmplxFFT).Coefficients)
	transform(out.square, w, h, (*fourier.CmplxFFT).Coefficients)
	out.ink, out.seen = split(both, w, h)
	return out
}

// split are the transforms of two real pictures that were transformed as one
// complex one.
func split(both []complex128, w, h int) (re, im []complex128) {
	re, im = make([]complex128, w*h), make([]complex128, w*h)
	for y := range h {
		for x := range w {
			i := y*w + x
			back := cmplx.Conj(both[(h-y)%h*w+(w-x)%w])
			re[i], im[i] = (both[i]+back)/2, (both[i]-back)/2i
		}
	}
	return re, im
}

// transform works on rows, then on columns, in place.
func transform(c []complex128, w, h int, by func(*fourier.CmplxFFT, []complex128, []complex128) []complex128) {
	row := fourier.NewCmplxFFT(w)
	for y := range h {
		by(row, c[y*w:(y+1)*w], c[y*w:(y+1)*w])
	}
	column, line := fourier.NewCmplxFFT(h), make([]complex128, h)
	for x := range w {
		for y := range h {
			line[y] = c[y*w+x]
		}
		by(column, line, line)
		for y := range h {
			c[y*w+x] = line[y]
		}
	}
}

// sums are, for every movement of one sight over another by whole cells, sums
// over the cells that both show.
type sums struct {
	w, h int
	n    func(i int) float64 // cells
	a, b func(i int) float64 // ink of either
	aa   func(i int) float64 // its squares
	bb   func(i int) float64
	ab   func(i int) float64 // its products
}

// sumsOf moves o over s: the movement (dx, dy) is at dy*w+dx, each counted round
// from the end where it is below nothing.
func (s spectra) sumsOf(o spectra) sums {
	pair := func(a, b, c, d []complex128) []complex128 { // a over b, and as imaginary part c over d
		out := make([]complex128, len(a))
		scale := complex(1/float64(len(a)), 0)
		for i := range out {
			out[i] = (a[i]*cmplx.Conj(b[i]) + 1i*c[i]*cmplx.Conj(d[i])) * scale
		}
		transform(out, s.w, s.h, (*fourier.CmplxFFT).Sequence)
		return out
	}
	re := func(c []complex128) func(int) float64 { return func(i int) float64 { return real(c[i]) } }
	im := func(c []complex128) func(int) float64 { return func(i int) float64 { return imag(c[i]) } }
	first := pair(s.seen, o.seen, s.ink, o.ink)
	second := pair(s.ink, o.seen, s.seen, o.ink)
	third := pair(s.square, o.seen, s.seen, o.square)
	return sums{s.w, s.h, re(first), re(second), im(second), re(third), im(third), im(first)}
}
