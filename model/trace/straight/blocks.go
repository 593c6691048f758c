package straight

import (
	"math"

	"quarterstep/model/geom"
)

// blockSide is the side in mm of the squares that tell the misfit of an
// overlap.
const blockSide = 18.0

// What lies farther apart than a line is wide shows no slope to measure by: it
// is sought up to apartMost mm away, in steps of apartStep.
const apartMost, apartStep = 3.0, 0.2

// blockSums are the normal equations of one block's own movement.
type blockSums struct{ xx, xy, yy, xd, yd float64 }

// strength is how plainly a block shows a movement.
func (s blockSums) strength() float64 { return s.xx + s.yy }

// way is the direction in which the block shows a movement best, and how much.
func (s blockSums) way() (geom.Vec, float64) {
	big := (s.xx+s.yy)/2 + math.Hypot(s.xx-s.yy, 2*s.xy)/2
	a, b := geom.Vec{X: s.xy, Y: big - s.xx}, geom.Vec{X: big - s.yy, Y: s.xy}
	if b.Len() > a.Len() {
		a = b
	}
	return a.Unit(), big
}

// misfit tells block by block how far the two pictures lie apart, along the way
// in which the block shows it best; there and here are coarser looks at them,
// for what lies far apart.
func (l laid) misfit(there, here patch, t geom.Affine) Misfit {
	all := map[[2]int]*blockSums{}
	for _, k := range l.looks {
		at := [2]int{int(math.Floor(k.at.X / blockSide)), int(math.Floor(k.at.Y / blockSide))}
		s := all[at]
		if s == nil {
			s = &blockSums{}
			all[at] = s
		}
		d := k.here - k.there
		s.xx, s.xy, s.yy = s.xx+k.slope.X*k.slope.X, s.xy+k.slope.X*k.slope.Y, s.yy+k.slope.Y*k.slope.Y
		s.xd, s.yd = s.xd+k.slope.X*d, s.yd+k.slope.Y*d
	}
	var strong []float64
	for _, s := range all {
		strong = append(strong, s.strength())
	}
	least := 0.2 * quantile(strong, 0.8)
	f := Misfit{}
	for at, s := range all {
		way, big := s.way()
		if s.strength() < least || big <= 0 {
			continue
		}
		d := math.Abs(way.X*s.xd+way.Y*s.yd) / big
		corner := geom.Pt(float64(at[0])*blockSide, float64(at[1])*blockSide)
		box := geom.Box{Min: corner, Max: corner.Add(geom.Vec{X: blockSide, Y: blockSide})}
		if far := apart(there, here, t, box, way); far > 2*apartStep {
			d = far
		}
		f.Points++
		f.RMS += d * d
		f.Worst = max(f.Worst, d)
	}
	f.RMS = math.Sqrt(f.RMS / float64(max(f.Points, 1)))
	return f
}

// apart is how far along way, either way, what here shows of a box must move to
// look most like there, in steps of apartStep.
func apart(there, here patch, t geom.Affine, box geom.Box, way geom.Vec) float64 {
	inv, err := t.Inverse()
	if err != nil {
		return 0
	}
	best, most := 0.0, math.Inf(-1)
	for s := -apartMost; s <= apartMost; s += apartStep {
		var ab, bb, aa float64
		for y := box.Min.Y; y < box.Max.Y; y += there.step {
			for x := box.Min.X; x < box.Max.X; x += there.step {
				p := geom.Pt(x, y)
				a, ok := there.near(p)
				b, ok2 := here.near(inv.Apply(p.Add(way.Scale(s))))
				if ok && ok2 {
					ab, aa, bb = ab+a*b, aa+a*a, bb+b*b
				}
			}
		}
		// a hair against wandering where all places are alike
		like := ab/math.Sqrt(max(aa*bb, 1e-12)) - 0.02*math.Abs(s)
		if like > most {
			most, best = like, math.Abs(s)
		}
	}
	return best
}
