package straight

import (
	"image"
	"math"
	"math/rand/v2"

	"quarterstep/model/geom"
)

// scene is the brightness of a place of the paper, in mm, 0 to 255.
type scene func(geom.Point) float64

// photograph is what a camera with the map m sees of s: each pixel the mean of
// two by two looks, softened, with noise of two levels.
func photograph(s scene, m Map, w, h int, seed uint64) *image.Gray {
	v := make([]float64, w*h)
	for y := range h {
		for x := range w {
			for k := range 4 {
				px := geom.Pt(float64(x)+0.25+0.5*float64(k%2), float64(y)+0.25+0.5*float64(k/2))
				v[y*w+x] += s(m.MM(px)) / 4
			}
		}
	}
	r := rand.New(rand.NewPCG(seed, 1))
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sum, n := 0.0, 0.0
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if xx, yy := x+dx, y+dy; xx >= 0 && yy >= 0 && xx < w && yy < h {
						k := 1 / float64((1+dx*dx)*(1+dy*dy))
						sum, n = sum+k*v[yy*w+xx], n+k
					}
				}
			}
			g.Pix[y*w+x] = uint8(min(max(sum/n+2*r.NormFloat64(), 0), 255))
		}
	}
	return g
}

// camera26 is the map of a 26 mm camera at dist mm over the place mid, tilted
// by tilt towards a way and rolled, both in degrees, with a lens.
func camera26(w, h int, mid geom.Point, dist, tilt, toward, roll, k1 float64) Map {
	return cameraOf(26, w, h, mid, dist, tilt, toward, roll, k1)
}

// cameraOf is camera26 for another focal length on the 35 mm frame.
func cameraOf(focal35 float64, w, h int, mid geom.Point, dist, tilt, toward, roll, k1 float64) Map {
	size := image.Pt(w, h)
	p := pose{focal: focalPx(focal35, size), eye: middle(size), turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
	p.lens = Lens{K1: k1, Centre: middle(size), Scale: math.Hypot(float64(w), float64(h)) / 2}
	rad := math.Pi / 180
	p = p.turned(tilt*rad*math.Cos(toward*rad), tilt*rad*math.Sin(toward*rad), 0).turned(0, 0, roll*rad)
	r := p.turn
	p.move = [3]float64{-r[0]*mid.X - r[1]*mid.Y, -r[3]*mid.X - r[4]*mid.Y, dist - r[6]*mid.X - r[7]*mid.Y}
	return p.full()
}

// pageOn is a page of w by h mm with its corner at (0, 0), on a table with
// boards.
func pageOn(w, h float64) scene {
	return func(p geom.Point) float64 {
		switch {
		case p.X >= 0 && p.Y >= 0 && p.X <= w && p.Y <= h:
			return 225
		case math.Mod(math.Abs(p.X+1000), 117) < 1.5:
			return 75
		}
		return 105
	}
}

// click is p as a hand clicks it, off by 2.5 pixels.
func click(r *rand.Rand, p geom.Point) geom.Point {
	return p.Add(geom.Vec{X: 2.5 * r.NormFloat64(), Y: 2.5 * r.NormFloat64()})
}

// farthestOff is how far m lies from truth over all of the picture, in mm, with
// the papers' frames brought together.
func farthestOff(m, truth Map, w, h int) float64 {
	var from, to []geom.Point
	for y := 0; y <= 8; y++ {
		for x := 0; x <= 8; x++ {
			px := geom.Pt(float64(x*w)/8, float64(y*h)/8)
			from, to = append(from, m.MM(px)), append(to, truth.MM(px))
		}
	}
	t, _ := geom.RigidFit(from, to)
	worst := 0.0
	for i := range from {
		worst = max(worst, t.Apply(from[i]).Dist(to[i]))
	}
	return worst
}
