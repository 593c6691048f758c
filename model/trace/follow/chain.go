package follow

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// chains joins ridge points to runs, each a dash, a dot, or a stretch of a
// line between crossings; points follow one another within a run.
func chains(pts []ridgePoint, w, h int) [][]ridgePoint {
	c := chainer{pts: pts, at: make([]int32, w*h), w: w, h: h}
	for i, p := range pts {
		c.at[int(p.y)*w+int(p.x)] = int32(i) + 1
	}
	order := make([]int32, len(pts))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(a, b int32) int {
		switch d := pts[b].strength - pts[a].strength; {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return int(a - b)
	})
	c.used = make([]bool, len(pts))
	var out [][]ridgePoint
	for _, i := range order {
		if !c.used[i] && pts[i].sure() >= plain {
			out = append(out, c.grow(i))
		}
	}
	return out
}

type chainer struct {
	pts  []ridgePoint
	at   []int32 // index of the ridge point in a pixel, plus one
	w, h int
	used []bool
}

// grow walks from point i both ways.
func (c *chainer) grow(i int32) []ridgePoint {
	c.used[i] = true
	back := c.walk(i, c.pts[i].dir+math.Pi)
	slices.Reverse(back)
	run := append(back, i)
	run = append(run, c.walk(i, c.pts[i].dir)...)
	out := make([]ridgePoint, len(run))
	for k, j := range run {
		out[k] = c.pts[j]
	}
	return out
}

// walk lists the points that follow i when leaving it in direction dir.
func (c *chainer) walk(i int32, dir float64) []int32 {
	var out []int32
	for {
		j, turned := c.next(i, dir)
		if j < 0 {
			return out
		}
		c.used[j] = true
		c.swallow(i, j)
		out = append(out, j)
		i, dir = j, turned
	}
}

// sharpest is how far, in radians, a run may turn from one pixel to the next.
const sharpest = 0.7

// next is the best free neighbour of i ahead in direction dir, and its own
// direction.
func (c *chainer) next(i int32, dir float64) (best int32, turned float64) {
	best = -1
	p := c.pts[i]
	score := math.Inf(1)
	ahead := geom.Vec{X: math.Cos(dir), Y: math.Sin(dir)}
	c.around(p, func(j int32) {
		q := c.pts[j]
		v := q.at.Sub(p.at)
		if c.used[j] || v.Dot(ahead) <= 0 {
			return
		}
		d := along(q.dir, dir)
		off := math.Abs(turn(dir, d))
		if off > sharpest {
			return
		}
		px := math.Hypot(float64(q.x-p.x), float64(q.y-p.y))
		if s := px + off + 2*math.Abs(ahead.Cross(v))/max(v.Len(), 1e-9); s < score {
			best, turned, score = j, d, s
		}
	})
	return best, turned
}

// around calls f with the ridge points in the eight pixels around p.
func (c *chainer) around(p ridgePoint, f func(j int32)) {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			x, y := int(p.x)+dx, int(p.y)+dy
			if (dx == 0 && dy == 0) || x < 0 || y < 0 || x >= c.w || y >= c.h {
				continue
			}
			if j := c.at[y*c.w+x] - 1; j >= 0 {
				f(j)
			}
		}
	}
}

// swallow takes the points beside a step out of the game: the same line found
// by two pixels side by side.
func (c *chainer) swallow(i, j int32) {
	p, q := c.pts[i], c.pts[j]
	c.around(q, func(k int32) {
		r := c.pts[k]
		if c.used[k] || math.Abs(int32Diff(r.x, p.x)) > 1 || math.Abs(int32Diff(r.y, p.y)) > 1 {
			return
		}
		if math.Abs(turn(along(r.dir, q.dir), q.dir)) < 0.3 {
			c.used[k] = true
		}
	})
}

func int32Diff(a, b int32) float64 { return float64(a - b) }

// along is the direction of a line, which counts modulo half a turn, on the
// side of dir.
func along(line, dir float64) float64 {
	d := turn(dir, line)
	switch {
	case d > math.Pi/2:
		d -= math.Pi
	case d < -math.Pi/2:
		d += math.Pi
	}
	return dir + d
}

// turn is the turning from direction a to direction b, in radians from minus
// pi to pi.
func turn(a, b float64) float64 {
	d := math.Mod(b-a, 2*math.Pi)
	switch {
	case d > math.Pi:
		d -= 2 * math.Pi
	case d < -math.Pi:
		d += 2 * math.Pi
	}
	return d
}
