package target

import (
	"image"
	"math"
	"math/cmplx"

	"quarterstep/model/geom"
)

// looks is how many looks go round a circle.
const looks = 32

// leastContrast is how much lighter, in levels, paper must be than print.
const leastContrast = 25

// circle is the brightness round the middle at a radius.
func (r ring) circle(g *image.Gray, radius float64) (v [looks]float64) {
	for i := range v {
		v[i] = brightness(g, r.at(round(radius, 2*math.Pi*float64(i)/looks)))
	}
	return v
}

func meanOf(v [looks]float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x / looks
	}
	return s
}

// levels are the brightness of print and paper of a target.
func (r ring) levels(g *image.Gray) (print, paper float64, ok bool) {
	if !r.within(g, 1.1) {
		return 0, 0, false
	}
	dark, light := r.circle(g, (1+RingInside)/2), r.circle(g, (Checker+DotRing-DotRadius)/2+0.01)
	print, paper = meanOf(dark), meanOf(light)
	if paper-print < leastContrast {
		return 0, 0, false
	}
	outside := r.circle(g, 1.12)
	for i := range looks {
		if r.share(dark[i], print, paper) > 0.5 || r.share(outside[i], print, paper) < 0.45 {
			return 0, 0, false
		}
	}
	return print, paper, true
}

// share is how light v is between print, 0, and paper, 1.
func (ring) share(v, print, paper float64) float64 { return (v - print) / (paper - print) }

// checker is how far the checker is turned against the ring's axes, in radians:
// where its first dark quarter begins. False where there is none.
func (r ring) checker(g *image.Gray) (turn float64, ok bool) {
	print, paper, ok := r.levels(g)
	if !ok {
		return 0, false
	}
	const radius = 0.29
	v := r.circle(g, radius)
	var first, second complex128
	for i, x := range v {
		th := 2 * math.Pi * float64(i) / looks
		s := complex(r.share(x, print, paper)/looks, 0)
		first += s * cmplx.Rect(1, -th)
		second += s * cmplx.Rect(1, -2*th)
	}
	// Two dark quarters swing between print and paper with an amplitude of 1/pi
	// at twice round (the first Fourier term of a square wave), and not at once
	// round.
	if cmplx.Abs(second) < 0.6/math.Pi || cmplx.Abs(first) > 0.35*cmplx.Abs(second) {
		return 0, false
	}
	if m := r.share(meanOf(v), print, paper); m < 0.25 || m > 0.75 {
		return 0, false
	}
	// The light quarters are brightest a quarter turn and a half on from where
	// the dark one begins.
	return cmplx.Phase(second)/-2 - 3*math.Pi/4, true
}

// read reads the dots of a target turned by turn. False where a place is
// neither light nor dark, or what must be white is not.
func (r ring) read(g *image.Gray, turn float64) (uint8, bool) {
	print, paper, ok := r.levels(g)
	if !ok {
		return 0, false
	}
	var m uint8
	for k := range places {
		p := dotPlace(k, turn)
		dot := r.share(r.spot(g, p), print, paper)
		between := r.share(r.spot(g, dotPlace(k, turn+math.Pi/places)), print, paper)
		if between < 0.6 || math.Abs(dot-0.55) < 0.08 {
			return 0, false
		}
		if dot < 0.55 {
			m |= 1 << k
		}
	}
	return m, true
}

// spot is the mean brightness about a place of the target.
func (r ring) spot(g *image.Gray, p geom.Point) float64 {
	const d = 0.4 * DotRadius
	s := brightness(g, r.at(p))
	for k := range 4 {
		s += brightness(g, r.at(p.Add(geom.Vec(round(d, float64(k)*math.Pi/2)))))
	}
	return s / 5
}
