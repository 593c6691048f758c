package match

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

const (
	// crownArc is how much of a cap on both sides of its highest place, in
	// mm, tells where that is: a hand's wobble moves the highest place
	// itself about, but not the parabola through its surroundings.
	crownArc = 30.0
	// crownRoom is how far in mm a crown must lie from the corners.
	crownRoom = 40.0
	// crownRise is how far in mm it must stand above them: a straight hem is
	// no cap.
	crownRise = 20.0
	// snap is how near in mm to a drawn joint a match point is put on it.
	snap = 4.0
	// levelRoom is how near in mm to a corner a bust, waist or hip line needs
	// no grade point of its own.
	levelRoom = 8.0
	// overhang is how far in mm short of the cutting line a level may stop.
	overhang = 25.0
)

// crown adds the highest place of a sleeve cap, between its two underarms, as
// a match point, so that its front and back are edges of their own. Nothing is
// added unless every size has it on the same edge, clear of the corners.
func (n *nest) crown(grain geom.Vec) {
	if !strings.Contains(glossary.English(n.piece), "sleeve") {
		return
	}
	for _, up := range []geom.Vec{grain.Scale(-1), grain} {
		tr := n.newTrack()
		tr.smooth, tr.name = true, words.T("crown")
		edge := -1
		for i, r := range n.rings {
			s := r.highest(up)
			e := n.intervalOf(i, s)
			if i == 0 {
				edge = e
			}
			if e != edge || n.nearTrack(i, s, crownRoom) || n.rise(i, s, e, up) < crownRise {
				edge = -1
				break
			}
			tr.at[i] = r.matchAt(s)
		}
		if edge >= 0 {
			n.tracks = append(n.tracks, tr)
			n.order()
			return
		}
	}
}

// rise is how far in mm place s of ring i stands above the higher end of edge e.
func (n *nest) rise(i int, s float64, e int, up geom.Vec) float64 {
	r := n.rings[i]
	least := math.Inf(1)
	for _, k := range []int{e, (e + 1) % len(n.tracks)} {
		least = math.Min(least, r.m.At(s).Sub(n.at(n.tracks[k], i)).Dot(up))
	}
	return least
}

// highest is the place furthest in direction up.
func (r *ring) highest(up geom.Vec) float64 {
	best := 0
	height := func(k int) float64 {
		m := len(r.at)
		return r.at[((k%m)+m)%m].Sub(r.centre).Dot(up)
	}
	for k := range r.at {
		if height(k) > height(best) {
			best = k
		}
	}
	if !r.dense {
		return float64(best) * r.step
	}
	// Vertex of the least-squares parabola round about.
	reach := int(crownArc / r.step)
	var s0, s2, s4, y0, y1, y2 float64
	for k := -reach; k <= reach; k++ {
		t, y := float64(k), height(best+k)
		s0, s2, s4 = s0+1, s2+t*t, s4+t*t*t*t
		y0, y1, y2 = y0+y, y1+t*y, y2+t*t*y
	}
	bend := (y2*s0 - y0*s2) / (s4*s0 - s2*s2)
	if bend >= 0 {
		return float64(best) * r.step
	}
	off := -y1 / s2 / (2 * bend)
	return r.wrap((float64(best) + max(-float64(reach), min(float64(reach), off))) * r.step)
}

// matchAt is a match point at s, at the drawn joint there if one is near.
func (r *ring) matchAt(s float64) corner {
	best, least := -1, snap
	for i, j := range r.joints {
		if d := r.apart(j, s); d < least {
			best, least = i, d
		}
	}
	if best >= 0 {
		return corner{place: place{best, 0}, s: r.joints[best], sure: true}
	}
	i, t := r.m.Locate(r.wrap(s))
	return corner{place: place{i, t}, s: r.wrap(s), sure: true}
}

// intervalOf is the track that lies at or last before s on ring i.
func (n *nest) intervalOf(i int, s float64) int {
	best := 0
	for t := range n.tracks {
		if n.rings[i].ahead(n.tracks[t].at[i].s, s) < n.rings[i].ahead(n.tracks[best].at[i].s, s) {
			best = t
		}
	}
	return best
}

// levels adds match points where bust, waist and hip lines meet the outline
// away from a corner. A straight edge has none: it stays straight whatever its
// places follow.
func (n *nest) levels(lines []exchange.RawLine) {
	for _, kind := range []model.LineKind{model.BustLine, model.WaistLine, model.HipLine} {
		meets := make([]map[int]float64, len(n.rings)) // per ring: edge to place
		shared := map[int]bool{}
		for i, r := range n.rings {
			meets[i] = map[int]float64{}
			for _, l := range lines {
				if l.Kind != kind || !drawnFor(l, r.sizes()) {
					continue
				}
				for _, c := range geom.Intersect(r.path, prolonged(l.Path), ringTol) {
					s := r.m.To(c.IA, c.TA)
					e := n.intervalOf(i, s)
					meets[i][e] = s
					shared[e] = true
				}
			}
		}
		var fresh []track
		for e := range n.tracks {
			if !shared[e] || n.isStraight(e) {
				continue
			}
			if tr, ok := n.level(meets, e, levelName(kind)); ok {
				fresh = append(fresh, tr)
			}
		}
		n.tracks = append(n.tracks, fresh...)
		n.order()
	}
}

// How far in mm an edge may be off its chord that counts as straight: drawn, and
// by a hand that wobbles.
const (
	straightDrawn  = 0.1
	straightTraced = 2.0
)

// isStraight reports whether edge e is straight in every size.
func (n *nest) isStraight(e int) bool {
	for i, r := range n.rings {
		tol := straightDrawn
		if r.dense {
			tol = straightTraced
		}
		if !cutRing(r.path, n.tracks[e].at[i].place, n.tracks[(e+1)%len(n.tracks)].at[i].place).IsStraight(tol) {
			return false
		}
	}
	return true
}

// level is the match point of a level on edge e; where a size lacks the line,
// the sizes that have it say at which share of the edge it would be. False
// where any size has a grade point nearby already.
func (n *nest) level(meets []map[int]float64, e int, name string) (track, bool) {
	tr := n.newTrack()
	tr.smooth, tr.name = true, name
	from := -1
	for i := range n.rings {
		if _, ok := meets[i][e]; ok {
			from = i
			break
		}
	}
	for i, r := range n.rings {
		s, ok := meets[i][e]
		if !ok {
			s, _ = n.carry(from, i, meets[from][e], everyTrack)
		}
		if n.nearTrack(i, s, levelRoom) {
			return tr, false
		}
		k, t := r.m.Locate(s)
		tr.at[i] = corner{place: place{k, t}, s: s, sure: true}
	}
	return tr, true
}

// prolonged is a line carried on straight at both ends, so that one drawn a
// little short meets the outline too.
func prolonged(p geom.Path) geom.Path {
	a, b := p.Start(), p.End()
	if p.StartDir().IsZero() || math.IsInf(a.Dist(b), 0) {
		return p
	}
	return geom.Join(
		geom.Polyline(a.Add(p.StartDir().Scale(-overhang)), a), p,
		geom.Polyline(b, b.Add(p.EndDir().Scale(overhang))))
}

// levelName is what a grade point on a level line is called.
func levelName(k model.LineKind) string {
	switch k {
	case model.BustLine:
		return words.C("a grade point", "bust line")
	case model.WaistLine:
		return words.C("a grade point", "waist line")
	}
	return words.C("a grade point", "hip line")
}
