package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Thresholds of doubt, by trial on rendered nests.
const (
	nearlyAsGood = 2.5  // cost by which another way may be dearer
	nearlyOnRim  = 0.8  // the same where lines on the free side count
	apart        = 1.0  // mm from the chosen way at which it is another line
	leastStray   = 3.0  // mm of way
	doubtEvery   = 15.0 // mm: doubts nearer to each other are told once
	longWay      = 2.2  // times the straight distance
)

// nearly is the cost by which another way may be dearer for it to be told.
func (t *tree) nearly() float64 {
	if t.free == noSide {
		return nearlyAsGood
	}
	return nearlyOnRim
}

// doubts lists where another way to the same end was nearly as good and ran
// elsewhere. Every other way joins the chosen one at some node, and the best
// that joins there comes by one of the links that lead to it.
func (t *tree) doubts(a arrival, pts []geom.Point, to geom.Point) []Doubt {
	way := t.way(a.node)
	length := lengthOf(pts)
	pts = even(pts)
	on := map[int32]bool{}
	for _, n := range way {
		on[t.web.nodes[n].dash] = true
	}
	var out []Doubt
	add := func(at geom.Point, say string) {
		for _, d := range out {
			if d.At.Dist(at) < doubtEvery {
				return
			}
		}
		out = append(out, Doubt{At: at, Say: say})
	}
	other := func(n int32) {
		if at, dist := t.strays(n, on, pts); dist >= apart {
			add(at, words.F("Another line %.0f mm away goes on here nearly as well.", math.Max(1, dist)))
		}
	}
	for _, n := range way {
		for _, in := range t.web.into[n] {
			if in.from == t.prev[n] || t.cost[in.from] > t.cost[n]+t.nearly() {
				continue
			}
			if step, ok := t.step(in.from, in.link); ok && t.cost[in.from]+step <= t.cost[n]+t.nearly() {
				other(in.from)
			}
		}
	}
	t.web.around(to, func(j int32, near touch) {
		for _, b := range t.arrivals(to, j, near) {
			if b.node != a.node && b.cost <= a.cost+t.nearly() {
				other(b.node)
			}
		}
	})
	if length > longWay*t.from.Dist(to)+5 {
		add(pts[len(pts)/2], words.T("The line goes a long way round to this corner."))
	}
	return out
}

// strays walks back from node n to where it meets the chosen dashes, and is
// the place furthest from the chosen points; nothing where it leaves them for
// less than a size label's height.
func (t *tree) strays(n int32, on map[int32]bool, pts []geom.Point) (at geom.Point, most float64) {
	var way float64
	var last geom.Point
	for ; n >= 0 && !on[t.web.nodes[n].dash]; n = t.prev[n] {
		dash := &t.web.dashes[t.web.nodes[n].dash]
		_, d := nearestOf(pts, dash.centre)
		if d > most {
			at, most = dash.centre, d
		}
		if d < apart {
			continue
		}
		if way += dash.length; last != (geom.Point{}) {
			way += last.Dist(dash.centre)
		}
		last = dash.centre
	}
	if way < leastStray {
		return at, 0
	}
	return at, most
}
