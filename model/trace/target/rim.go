package target

import (
	"image"
	"math"

	"quarterstep/model/geom"
)

// RimPlaces is how many places of a ring's outer edge are looked for.
const RimPlaces = 24

// rim is the outer edge of a ring all round, to a part of a pixel: where the
// brightness is half that of print and half that of paper, both as they are on
// that side. False where the paper beside it is not white everywhere.
func (r ring) rim(g *image.Gray) (out [RimPlaces]geom.Point, ok bool) {
	const outside, step = 1.14, 0.005
	print, paper, ok := r.levels(g)
	if !ok || !r.within(g, outside) {
		return out, false
	}
	for i := range out {
		angle := 2 * math.Pi * float64(i) / RimPlaces
		look := func(radius float64) float64 { return brightness(g, r.at(round(radius, angle))) }
		dark, light := look((1+RingInside)/2), look(outside)
		if light-dark < 0.6*(paper-print) {
			return out, false
		}
		half, last := (dark+light)/2, dark
		radius := (1 + RingInside) / 2
		for ; radius < outside; radius += step {
			now := look(radius + step)
			if now >= half {
				radius += step * (half - last) / (now - last)
				break
			}
			last = now
		}
		out[i] = r.at(round(radius, angle))
	}
	return out, true
}
