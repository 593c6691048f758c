package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// side is a side of a way: which one nothing is printed on.
type side int8

const (
	noSide   side = iota
	leftSide      // on the left of one who walks the way, y being down
	rightSide
)

// How it is found whether lines run beside a dash.
const (
	crowdNear  = 1.1  // mm aside from which ink is another line's
	crowdFar   = 10.0 // mm aside up to which it is looked for
	crowdStep  = 0.6  // mm
	crowdHits  = 3.0  // of five looks that meet ink, for a line: dashes leave gaps
	perCrowded = 0.1  // cost of a mm of way whose free side has lines beside it
)

// crowdLooks are the places along a dash, in mm from its middle, from which it
// is looked aside.
var crowdLooks = [5]float64{-4, -2, 0, 2, 4}

// crowd is how surely a line runs beside each node that is parallel to it, on
// the left and on the right of one who goes that way: 0 none, 1 surely.
type crowd [][2]float32

// crowdOf looks aside from every node of a web.
func crowdOf(w *web, ink inkMap) crowd {
	out := make(crowd, len(w.nodes))
	for i, n := range w.nodes {
		if d := &w.dashes[n.dash]; !d.dot && !n.forward {
			ahead := out[i-1]
			out[i] = [2]float32{ahead[1], ahead[0]}
			continue
		}
		along := unit(n.dir)
		left := geom.Vec{X: along.Y, Y: -along.X}
		at := w.dashes[n.dash].centre
		out[i] = [2]float32{ink.beside(at, along, left), ink.beside(at, along, left.Scale(-1))}
	}
	return out
}

// beside is how surely a line runs parallel to a place's direction on the side
// that aside points to.
func (m inkMap) beside(at geom.Point, along, aside geom.Vec) float32 {
	bin := directionBin(math.Atan2(along.Y, along.X))
	hits := 0.0
	for _, look := range crowdLooks {
		from := at.Add(along.Scale(look))
		for d := crowdNear; d <= crowdFar; d += crowdStep {
			if m.near(from.Add(aside.Scale(d)), bin) {
				hits++
				break
			}
		}
	}
	return float32(min(hits/crowdHits, 1))
}

// How much dearer, lines beside it not counted, the way along the rim may be
// than the cheapest way. A line within the nest that is taken for its rim costs
// far more at once, to go out to it and come back.
const (
	rimSure   = 0.5 // both are the same line as a rule
	rimWorth  = 1.5 // the rim is taken, with a doubt
	rimClear  = 3.5 // the same where nothing at all runs on its free side
	clearCost = 0.3 // cost of the lines beside a way that count as nothing
)

// onRim is what was seen of a line that has nothing printed on one side of it:
// the cheaper of the best way with its left side free and with its right, or
// the cheapest way of all where that is another and far cheaper.
func (f *Field) onRim(from, to geom.Point) ([]geom.Point, []Doubt, error) {
	rim, other := f.treeFrom(from, leftSide), f.treeFrom(from, rightSide)
	cost, base := rim.costTo(to, math.Inf(1))
	if c, b := other.costTo(to, cost); c < cost {
		rim, cost, base = other, c, b
	}
	worth := rimWorth
	if cost-base < clearCost {
		worth = rimClear
	}
	all := f.treeFrom(from, noSide)
	switch least, _ := all.costTo(to, base-rimSure); {
	case least >= base-rimSure:
		return rim.wayTo(to)
	case least < base-worth:
		return all.wayTo(to)
	}
	pts, doubts, err := rim.wayTo(to)
	if err == nil {
		doubts = append(doubts, all.against(to, pts)...)
	}
	return pts, doubts, err
}

// against is the doubt that another line is taken for the rim, where the
// cheapest way to a point runs beside the points taken.
func (t *tree) against(to geom.Point, pts []geom.Point) []Doubt {
	t.mu.Lock()
	defer t.mu.Unlock()
	at, dist := t.strays(t.cheapest(to).node, nil, pts)
	if dist < apart {
		return nil
	}
	k, _ := nearestOf(pts, at)
	return []Doubt{{At: pts[k], Say: words.F("If this size is neither the outermost nor the innermost here, the line %.0f mm away may be meant.", dist)}}
}

// costTo is the cost of the cheapest way to a point, and the same without the
// lines beside it; a cost beyond most may be too high.
func (t *tree) costTo(to geom.Point, most float64) (cost, base float64) {
	t.mu.Lock()
	defer t.mu.Unlock()
	best := t.cheapest(to)
	for t.grow(growStep, min(best.cost, most)) {
		best = t.cheapest(to)
	}
	return best.cost, best.cost - t.crowdOn(best)
}

// crowdOn is the cost of the lines beside the way to an arrival.
func (t *tree) crowdOn(a arrival) float64 {
	if t.free == noSide || a.node < 0 {
		return 0
	}
	var sum float64
	for n := a.node; t.prev[n] >= 0; n = t.prev[n] {
		sum += t.crowdStep(n, t.web.gap(t.prev[n], n))
	}
	return sum
}

// crowdStep is the cost of the lines beside the way over a gap to node n and
// along its dash.
func (t *tree) crowdStep(n int32, gap float64) float64 {
	if t.free == noSide {
		return 0
	}
	d := &t.web.dashes[t.web.nodes[n].dash]
	return perCrowded * (gap + d.length) * float64(t.web.crowd[n][t.free-1])
}

// gap is the mm without ink from one node to another.
func (w *web) gap(from, to int32) float64 {
	a, b := w.nodes[from], w.nodes[to]
	return w.dashes[a.dash].end(a.forward).Dist(w.dashes[b.dash].end(!b.forward))
}
