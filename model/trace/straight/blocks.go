package straight

import (
	"math"

	"quarterstep/model/geom"
)

// blockSide is the side in mm of the squares that tell the misfit of an
// overlap.
const blockSide = 18.0

// mostBlocks is the share of blocks by the worst of which the misfit is told:
// of a few the rim of the paper, its shadow or a strip's makes more than there is.
const mostBlocks = 0.95

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
	var off []float64
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
		off = append(off, d)
	}
	f.RMS = math.Sqrt(f.RMS / float64(max(f.Points, 1)))
	f.Worst = quantile(off, mostBlocks)
	return f
}

// A block is taken as far apart when where it lies it is less like than this,
// and elsewhere more like by so much: dashes and crossing lines look a little
// like themselves in many places.
const likeEnough, likeMore = 0.5, 0.35

// apart is how far along way, either way, what here shows of a box must move to
// look like there, in steps of apartStep; 0 where it looks like it already, or
// nowhere, or where half of it is not seen.
func apart(there, here patch, t geom.Affine, box geom.Box, way geom.Vec) float64 {
	inv, err := t.Inverse()
	if err != nil {
		return 0
	}
	like := func(s float64) float64 {
		var n, seen, a1, b1, ab, aa, bb float64
		for y := box.Min.Y; y < box.Max.Y; y += there.step {
			for x := box.Min.X; x < box.Max.X; x += there.step {
				n++
				p := geom.Pt(x, y)
				a, ok := there.near(p)
				b, ok2 := here.near(inv.Apply(p.Add(way.Scale(s))))
				if ok && ok2 {
					seen, a1, b1 = seen+1, a1+a, b1+b
					ab, aa, bb = ab+a*b, aa+a*a, bb+b*b
				}
			}
		}
		if seen < n/2 {
			return 0
		}
		return (ab - a1*b1/seen) / math.Sqrt(max((aa-a1*a1/seen)*(bb-b1*b1/seen), 1e-12))
	}
	still := like(0)
	if still > likeEnough || still == 0 {
		return 0
	}
	best, most := 0.0, still+likeMore
	for s := -apartMost; s <= apartMost; s += apartStep {
		if l := like(s); l > most {
			most, best = l, math.Abs(s)
		}
	}
	if best > apartMost-apartStep/2 {
		return 0 // still growing more like: not found
	}
	return best
}
