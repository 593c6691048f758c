package follow

import (
	"math"

	"quarterstep/model/geom"
)

// dash is a short stretch of printed line: a dash, a dot, or a part of either
// or of a line without gaps.
type dash struct {
	pts    []geom.Point // along its middle, in mm
	centre geom.Point
	dir    float64 // direction from the first point to the last, in radians
	length float64 // mm
	faint  float64 // 0 for ink as dark as the picture's lines, 1 for none
	bow    float64 // mm: how far off straight it is about its middle
	dot    bool    // too short to have a direction
	before int32   // the dash that this one was cut from on either side, or -1
	after  int32
}

// first and last are the two ends.
func (d *dash) first() geom.Point { return d.pts[0] }
func (d *dash) last() geom.Point  { return d.pts[len(d.pts)-1] }

// end is where the dash is left when walked forwards, or backwards.
func (d *dash) end(forward bool) geom.Point {
	if forward {
		return d.last()
	}
	return d.first()
}

// heading is the direction of the walk along the dash.
func (d *dash) heading(forward bool) float64 {
	if forward {
		return d.dir
	}
	return d.dir + math.Pi
}

const (
	pieceLength = 2.4 // mm: about how long the parts of a long run are
	dotLength   = 1.3 // mm: a run not longer than this has no direction
	dirReach    = 1.8 // mm: how far to either side a dash's direction is read
)

// dashes cuts every run into pieces.
func dashes(runs [][]ridgePoint) []dash {
	ink := inkOf(runs)
	var out []dash
	for _, run := range unkinked(runs) {
		out = cut(out, run, ink)
	}
	return out
}

// inkOf is how dark the picture's lines are: what three quarters of all places
// on runs of a dash's length reach.
func inkOf(runs [][]ridgePoint) float64 {
	var count [256]int
	n := 0
	for _, run := range runs {
		if len(run) < 6 {
			continue
		}
		for _, p := range run {
			count[min(int(p.strength*256), 255)]++
			n++
		}
	}
	left := n * 3 / 4
	for v := 255; v > 0; v-- {
		if left -= count[v]; left < 0 {
			return float64(v) / 256
		}
	}
	return plain
}

func cut(out []dash, part stretch, ink float64) []dash {
	run := part.pts
	s := lengths(run)
	total := s[len(s)-1]
	n := max(1, int(math.Round(total/pieceLength)))
	from := 0
	base := int32(len(out))
	for k := range n {
		to := from
		for to < len(run)-1 && s[to] < total*float64(k+1)/float64(n) {
			to++
		}
		d := piece(part, s, from, to)
		d.dot = total <= dotLength
		d.faint = faintness(run[from:to+1], ink)
		d.before, d.after = -1, -1
		if k > 0 {
			d.before = base + int32(k) - 1
		}
		if k < n-1 {
			d.after = base + int32(k) + 1
		}
		out = append(out, d)
		from = to
	}
	return out
}

// piece is the run's stretch from point i to point j.
func piece(part stretch, s []float64, i, j int) dash {
	run := part.pts
	d := dash{length: s[j] - s[i]}
	for _, p := range run[i : j+1] {
		d.pts = append(d.pts, p.at)
	}
	mid := (s[i] + s[j]) / 2
	lo, hi := i, j
	for lo > 0 && mid-s[lo-1] < dirReach {
		lo--
	}
	for hi < len(run)-1 && s[hi+1]-mid < dirReach {
		hi++
	}
	if total := s[len(s)-1]; total > 3*kinkGap {
		for part.before && s[lo] < kinkGap {
			lo++
		}
		for part.after && total-s[hi] < kinkGap {
			hi--
		}
	}
	d.centre = mean(run[max(i, lo) : min(j, hi)+1])
	d.dir = direction(run[lo : hi+1])
	for _, p := range run[lo : hi+1] {
		d.bow = max(d.bow, math.Abs(unit(d.dir).Cross(p.at.Sub(d.centre))))
	}
	return d
}

func mean(pts []ridgePoint) geom.Point {
	var x, y float64
	for _, p := range pts {
		x += p.at.X
		y += p.at.Y
	}
	n := float64(len(pts))
	return geom.Pt(x/n, y/n)
}

// direction is that of the straight line nearest to the points, from the first
// to the last; a lone point has its own.
func direction(pts []ridgePoint) float64 {
	if len(pts) < 3 {
		return pts[0].dir
	}
	c := mean(pts)
	var xx, xy, yy float64
	for _, p := range pts {
		v := p.at.Sub(c)
		xx += v.X * v.X
		xy += v.X * v.Y
		yy += v.Y * v.Y
	}
	v := pts[len(pts)-1].at.Sub(pts[0].at)
	return along(math.Atan2(2*xy, xx-yy)/2, math.Atan2(v.Y, v.X))
}

func faintness(pts []ridgePoint, ink float64) float64 {
	var sum float64
	for _, p := range pts {
		sum += float64(p.strength)
	}
	return max(0, 1-sum/float64(len(pts))/ink)
}

// grid finds dashes by place.
type grid struct {
	cell   float64
	origin geom.Point
	w, h   int
	cells  [][]int32
}

// newGrid files each dash under the cells that its points lie in.
func newGrid(ds []dash, cell float64) grid {
	box := geom.Box{}
	for i := range ds {
		box = box.Union(geom.BoxOf(ds[i].pts...))
	}
	g := grid{cell: cell, origin: box.Min}
	g.w, g.h = int(box.Width()/cell)+1, int(box.Height()/cell)+1
	g.cells = make([][]int32, g.w*g.h)
	for i := range ds {
		last := -1
		for _, p := range ds[i].pts {
			x, y := g.locate(p)
			if c := y*g.w + x; c != last {
				if k := g.cells[c]; len(k) == 0 || k[len(k)-1] != int32(i) {
					g.cells[c] = append(k, int32(i))
				}
				last = c
			}
		}
	}
	return g
}

func (g grid) locate(p geom.Point) (x, y int) {
	return min(max(int((p.X-g.origin.X)/g.cell), 0), g.w-1), min(max(int((p.Y-g.origin.Y)/g.cell), 0), g.h-1)
}

// near calls f with every dash that may have a point within r of p, some of
// them more than once.
func (g grid) near(p geom.Point, r float64, f func(i int32)) {
	x0, y0 := g.locate(geom.Pt(p.X-r, p.Y-r))
	x1, y1 := g.locate(geom.Pt(p.X+r, p.Y+r))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for _, i := range g.cells[y*g.w+x] {
				f(i)
			}
		}
	}
}

// nearest is the place on the dash nearest to p: the point, how far along
// pts (whole numbers are points), and the distance in mm.
func (d *dash) nearest(p geom.Point) (at geom.Point, t, dist float64) {
	at, dist = d.pts[0], p.Dist(d.pts[0])
	for i := 1; i < len(d.pts); i++ {
		a, b := d.pts[i-1], d.pts[i]
		v := b.Sub(a)
		u := 0.0
		if l := v.Dot(v); l > 0 {
			u = min(max(p.Sub(a).Dot(v)/l, 0), 1)
		}
		q := a.Lerp(b, u)
		if e := p.Dist(q); e < dist {
			at, t, dist = q, float64(i-1)+u, e
		}
	}
	return at, t, dist
}
