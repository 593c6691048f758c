package target

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
)

// scene is the brightness of a place of the table, in mm, 0 to 255.
type scene func(geom.Point) float64

// camera is a 26 mm camera (on the 35 mm frame) dist mm over mid, tilted towards
// a way and rolled, in degrees, its lens bending by k1 at half the diagonal.
type camera struct {
	w, h                     int
	mid                      geom.Point
	dist, tilt, toward, roll float64
	k1                       float64
}

func (c camera) lens() straight.Lens {
	return straight.Lens{
		K1: c.k1, Centre: geom.Pt(float64(c.w)/2, float64(c.h)/2),
		Scale: math.Hypot(float64(c.w), float64(c.h)) / 2,
	}
}

// project is where the camera shows p, worked out step by step: turned about
// the axis square to the way of the tilt (Rodrigues), rolled, divided by the
// depth, bent (Brown).
func (c camera) project(p geom.Point) geom.Point {
	rad := math.Pi / 180
	v := p.Sub(c.mid)
	axis := geom.Vec(round(1, c.toward*rad))
	s, co := math.Sincos(c.tilt * rad)
	along := axis.Scale(v.Dot(axis))
	side := v.Sub(along)
	q := along.Add(side.Scale(co))
	z := c.dist + s*axis.Cross(v)
	sr, cr := math.Sincos(c.roll * rad)
	x, y := (cr*q.X-sr*q.Y)/z, (sr*q.X+cr*q.Y)/z
	f := 26 / math.Hypot(36, 24) * math.Hypot(float64(c.w), float64(c.h))
	l := c.lens()
	u := geom.Vec{X: x * f, Y: y * f}
	r := u.Len() / l.Scale
	return l.Centre.Add(u.Scale(1 + c.k1*r*r))
}

// truth is the camera's map, by nine places worked out with project.
func (c camera) truth(t testing.TB) straight.Map {
	t.Helper()
	var pairs []straight.Pair
	for i := -1.0; i <= 1; i++ {
		for j := -1.0; j <= 1; j++ {
			mm := c.mid.Add(geom.Vec{X: 0.3 * c.dist * i, Y: 0.3 * c.dist * j})
			pairs = append(pairs, straight.Pair{Pixel: c.project(mm), MM: mm})
		}
	}
	m, off, err := straight.Solve(pairs, straight.Options{Lens: c.lens()})
	if err != nil || off.Worst > 1e-6 {
		t.Fatalf("the test's own camera: %v, %v", off, err)
	}
	return m
}

// photograph is what the camera sees of s: each pixel the mean of looks
// spread over it, softened, with noise of so many levels.
func (c camera) photograph(t testing.TB, s scene, noise float64, seed uint64) *image.Gray {
	t.Helper()
	const looks = 3 // each way in a pixel
	m := c.truth(t)
	v := make([]float64, c.w*c.h)
	inBands(c.h, func(from, to int) {
		for y := from; y < to; y++ {
			r := rand.New(rand.NewPCG(seed, uint64(y)))
			for x := range c.w {
				o := m.MM(geom.Pt(float64(x), float64(y)))
				a := m.MM(geom.Pt(float64(x+1), float64(y))).Sub(o)
				b := m.MM(geom.Pt(float64(x), float64(y+1))).Sub(o)
				for k := range looks * looks {
					i, j := float64(k%looks)+r.Float64(), float64(k/looks)+r.Float64()
					v[y*c.w+x] += s(o.Add(a.Scale(i/looks)).Add(b.Scale(j/looks))) / (looks * looks)
				}
			}
		}
	})
	r := rand.New(rand.NewPCG(seed, 1))
	g := image.NewGray(image.Rect(0, 0, c.w, c.h))
	for y := range c.h {
		for x := range c.w {
			sum, n := 0.0, 0.0
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if xx, yy := x+dx, y+dy; xx >= 0 && yy >= 0 && xx < c.w && yy < c.h {
						k := 1 / float64((1+dx*dx)*(1+dy*dy))
						sum, n = sum+k*v[yy*c.w+xx], n+k
					}
				}
			}
			g.Pix[y*c.w+x] = uint8(min(max(sum/n+noise*r.NormFloat64(), 0), 255))
		}
	}
	return g
}

// laid is a target on the table.
type laid struct {
	code   int
	at     geom.Point // mm
	radius float64    // mm
	turn   float64    // radians
}

// onTable is a table with boards and the targets on it, each on its own paper.
func onTable(all ...laid) scene {
	return func(p geom.Point) float64 {
		for _, l := range all {
			v := p.Sub(l.at)
			if v.Len() > White*l.radius {
				continue
			}
			s, c := math.Sincos(-l.turn)
			q := geom.Pt((c*v.X-s*v.Y)/l.radius, (s*v.X+c*v.Y)/l.radius)
			if Dark(l.code, q) {
				return 20
			}
			return 215
		}
		if math.Mod(math.Abs(p.X+1000), 117) < 1.5 {
			return 70
		}
		return 110
	}
}
