package follow

import (
	"container/heap"
	"math"

	"quarterstep/model/geom"
)

// tree is the cheapest way from one corner to every node that can be reached.
type tree struct {
	web   *web
	guide *guide
	from  geom.Point
	cost  []float64
	prev  []int32 // node before, or -1 where the way begins
}

// grow searches from a corner, outward to reachMM of way at most.
func (w *web) grow(from geom.Point, g *guide) *tree {
	t := &tree{web: w, guide: g, from: from, cost: make([]float64, len(w.nodes)), prev: make([]int32, len(w.nodes))}
	for i := range t.cost {
		t.cost[i] = math.Inf(1)
		t.prev[i] = -1
	}
	var q queue
	done := make([]bool, len(w.nodes))
	t.begin(func(n int32, cost float64) {
		if cost < t.cost[n] {
			t.cost[n] = cost
			q = append(q, reached{cost, n})
		}
	})
	heap.Init(&q)
	for len(q) > 0 {
		r := heap.Pop(&q).(reached)
		if done[r.node] {
			continue
		}
		done[r.node] = true
		for _, l := range w.onward(r.node) {
			if done[l.to] {
				continue
			}
			step, ok := t.step(r.node, l)
			if !ok {
				continue
			}
			if c := r.cost + step; c < t.cost[l.to] {
				t.cost[l.to], t.prev[l.to] = c, r.node
				heap.Push(&q, reached{c, l.to})
			}
		}
	}
	return t
}

// step is the cost of going from node n over link l and along its dash.
func (t *tree) step(n int32, l link) (float64, bool) {
	w := t.web
	a, b := w.nodes[n], w.nodes[l.to]
	d := &w.dashes[b.dash]
	heading, dir := b.dir, l.dir
	var extra float64
	weight := bend
	into := t.dir(n)
	if w.dashes[a.dash].dot && math.Abs(turn(into, dir)) > 1.1 {
		return 0, false
	}
	if t.guide != nil {
		ta, tb := t.guide.lean(a.dash), t.guide.lean(b.dash)
		extra = t.guide.price(b.dash, l, d.length)
		l.dir = turn((ta + turn(0, tb-ta)/2), l.dir)
		into, heading = turn(ta, into), turn(tb, b.dir)
		if t.guide.knows(b.dash) {
			weight *= 2
			s := math.Sin(l.dir)
			extra += leaning * s * s * l.span
		}
	}
	return gapCost(l.gap) + weight*w.bending(a.dash, into, l, b.dash, heading) +
		d.length*(perMM+perFaint*max(0, d.faint-0.4)) + extra, true
}

// cornerReach is how far in mm from a corner the first ink may be.
const cornerReach = 8.0

// begin calls f with the nodes that can be come upon straight from the corner.
func (t *tree) begin(f func(n int32, cost float64)) {
	t.web.around(t.from, func(j int32, near touch) {
		d := &t.web.dashes[j]
		n := t.web.first[j]
		if d.dot {
			f(n, cornerGap(near.dist))
			return
		}
		for side, forward := range []bool{true, false} {
			if near.inside {
				f(n+int32(side), perBeside*near.dist*near.dist)
				continue
			}
			if cost, ok := t.web.entry(t.from, d, forward); ok {
				f(n+int32(side), cost)
			}
		}
	})
}

// dir is the direction of travel at node n. A way that begins with a dot comes
// on it straight from the corner.
func (t *tree) dir(n int32) float64 {
	a := t.web.nodes[n]
	if d := &t.web.dashes[a.dash]; d.dot && n == t.web.first[a.dash] {
		v := d.centre.Sub(t.from)
		return math.Atan2(v.Y, v.X)
	}
	return a.dir
}

// touch is how a dash lies to a point.
type touch struct {
	inside bool // the nearest place is not an end
	at     geom.Point
	t      float64
	dist   float64
}

// around calls f once with every dash within cornerReach of p.
func (w *web) around(p geom.Point, f func(j int32, near touch)) {
	seen := map[int32]bool{}
	w.grid.near(p, cornerReach, func(j int32) {
		if seen[j] {
			return
		}
		seen[j] = true
		d := &w.dashes[j]
		at, s, dist := d.nearest(p)
		if dist > cornerReach {
			return
		}
		inside := (s > 0 || d.before >= 0) && (s < float64(len(d.pts)-1) || d.after >= 0)
		if inside && dist > 2 {
			return
		}
		f(j, touch{inside, at, s, dist})
	})
}

// entry is the cost of coming from a corner p on a dash's end. The direction
// at the corner is free.
func (w *web) entry(p geom.Point, d *dash, forward bool) (float64, bool) {
	v := d.centre.Sub(p)
	gap := d.end(!forward).Sub(p)
	heading := d.heading(forward)
	b := turn(math.Atan2(v.Y, v.X), heading)
	if gap.Dot(unit(heading)) < -0.4 || math.Abs(b) > 1 {
		return 0, false
	}
	return cornerGap(gap.Len()) + bend*3*b*b/max(v.Len(), 0.5), true
}

// reached is a node in the queue.
type reached struct {
	cost float64
	node int32
}

type queue []reached

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, j int) bool { return q[i].cost < q[j].cost }
func (q queue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)        { *q = append(*q, x.(reached)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
