package follow

import (
	"math"

	"quarterstep/model/geom"
)

// inkMap answers at once whether ink of a certain direction lies at a place.
type inkMap struct {
	origin geom.Point
	w, h   int
	core   []uint16 // by cell: the directions of the ink in it
	wide   []uint16 // the same, of the cells around as well
}

const (
	inkCell = 0.3 // mm: side of a cell
	inkBins = 16  // directions of half a turn that are told apart
)

// newInkMap files the dashes' points by cell and direction, each direction with
// those beside it; ofDot are the directions of a dot.
func newInkMap(ds []dash, ofDot func(i int32) uint16) inkMap {
	box := geom.Box{}
	for i := range ds {
		box = box.Union(geom.BoxOf(ds[i].pts...))
	}
	box = box.Grow(2 * inkCell)
	m := inkMap{origin: box.Min, w: int(box.Width()/inkCell) + 1, h: int(box.Height()/inkCell) + 1}
	m.core = make([]uint16, m.w*m.h)
	m.wide = make([]uint16, m.w*m.h)
	for i := range ds {
		d := &ds[i]
		bits := directions(d.dir)
		if d.dot {
			bits = ofDot(int32(i))
		}
		for _, p := range d.pts {
			x, y := int((p.X-m.origin.X)/inkCell), int((p.Y-m.origin.Y)/inkCell)
			m.core[y*m.w+x] |= bits
			for j := y - 1; j <= y+1; j++ {
				for i := x - 1; i <= x+1; i++ {
					m.wide[j*m.w+i] |= bits
				}
			}
		}
	}
	return m
}

// directions is a direction's bin and those beside it, a bit for each.
func directions(dir float64) uint16 {
	k := directionBin(dir)
	return 1<<k | 1<<((k+1)%inkBins) | 1<<((k+inkBins-1)%inkBins)
}

// anyDirection is a dot's where its dotted line is not asked for.
func anyDirection(int32) uint16 { return 0xffff }

// dotDirections are those of the dotted line a dot is in; none where it is in
// none, or ends one.
func (w *web) dotDirections(i int32) uint16 {
	dir, ok := w.dotDir(i)
	if !ok {
		return 0
	}
	return directions(dir)
}

// directionBin is the number of a line's direction among inkBins.
func directionBin(dir float64) int {
	k := math.Mod(dir, math.Pi)
	if k < 0 {
		k += math.Pi
	}
	return min(int(k/math.Pi*inkBins), inkBins-1)
}

// at is the cell of p, or -1 off the map.
func (m inkMap) at(p geom.Point) int {
	x, y := (p.X-m.origin.X)/inkCell, (p.Y-m.origin.Y)/inkCell
	if !(x >= 0 && y >= 0) || x >= float64(m.w) || y >= float64(m.h) {
		return -1
	}
	return int(y)*m.w + int(x)
}

// near reports whether ink of direction bin k lies within a cell of p.
func (m inkMap) near(p geom.Point, k int) bool {
	c := m.at(p)
	return c >= 0 && m.wide[c]>>k&1 == 1
}

// bits is the directions of the ink at p.
func (m inkMap) bits(p geom.Point) uint16 {
	if c := m.at(p); c >= 0 {
		return m.core[c]
	}
	return 0
}
