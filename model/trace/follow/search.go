package follow

import (
	"container/heap"
	"math"
	"sync"

	"quarterstep/model/geom"
)

// tree is the cheapest ways from one corner, searched as far as they were
// asked for.
type tree struct {
	web  *web
	from geom.Point
	free side // nothing is printed beside the way here

	mu   sync.Mutex
	cost []float64
	prev []int32 // node before, or -1 where the way begins
	done []bool
	q    queue
}

// plant begins a search from a corner, for a line that has nothing printed
// beside it on the free side.
func (w *web) plant(from geom.Point, free side) *tree {
	n := len(w.nodes)
	t := &tree{web: w, from: from, free: free, cost: make([]float64, n), prev: make([]int32, n), done: make([]bool, n)}
	for i := range t.cost {
		t.cost[i] = math.Inf(1)
		t.prev[i] = -1
	}
	t.begin(func(n int32, cost float64) {
		if cost < t.cost[n] {
			t.cost[n] = cost
			t.q = append(t.q, reached{cost, n})
		}
	})
	heap.Init(&t.q)
	return t
}

// grow takes up to n nodes more into the search, and reports whether any of a
// cost up to most is left.
func (t *tree) grow(n int, most float64) bool {
	for len(t.q) > 0 && t.q[0].cost <= most {
		if n == 0 {
			return true
		}
		r := heap.Pop(&t.q).(reached)
		if t.done[r.node] {
			continue
		}
		n--
		t.done[r.node] = true
		for _, l := range t.web.onward(r.node) {
			if t.done[l.to] {
				continue
			}
			step, ok := t.step(r.node, l)
			if !ok {
				continue
			}
			if c := r.cost + step; c < t.cost[l.to] {
				t.cost[l.to], t.prev[l.to] = c, r.node
				heap.Push(&t.q, reached{c, l.to})
			}
		}
	}
	return false
}

// step is the cost of going from node n over link l and along its dash.
func (t *tree) step(n int32, l link) (float64, bool) {
	w := t.web
	a, b := w.nodes[n], w.nodes[l.to]
	d := &w.dashes[b.dash]
	into := t.dir(n)
	if w.dashes[a.dash].dot && math.Abs(turn(into, l.dir)) > 1.1 {
		return 0, false
	}
	return gapCost(l.gap) + bend*w.bending(a.dash, into, l, b.dash, b.dir) +
		d.length*(perMM+perFaint*max(0, d.faint-0.4)) + t.crowdStep(l.to, l.gap), true
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

// How ragged the end of ink is.
const (
	raggedEnd = 2.0 // points
	raggedOff = 0.4 // mm
)

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
		ends := 0.0 // ink is ragged at its end: what lies beyond is not beside a crooked last point
		if dist > raggedOff {
			ends = raggedEnd
		}
		inside := (s > ends || d.before >= 0) && (s < float64(len(d.pts)-1)-ends || d.after >= 0)
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
