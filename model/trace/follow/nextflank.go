package follow

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"quarterstep/model/geom"
)

// flank is a stretch of a traced outline from one corner that shows in the
// print to the next such corner, on over corners that do not show, as those
// where one edge goes on smoothly in another.
type flank struct {
	corners []int     // of the outline: its first, those passed on the way, its last
	far     []float64 // mm along the side of each of them
	places  []place   // about a millimetre apart, from sideBeyond before its first corner to as far past its last
	tracks  []track   // the printed lines beside it
}

const (
	leastTurn  = 0.3 // radians by which an outline turns at a corner that shows
	turnArm    = 5   // places of an outline over which its direction at a corner is read
	sideBeyond = 14  // mm that a side is read on beyond its corners
)

// length of a side in mm.
func (d *flank) length() float64 { return d.far[len(d.far)-1] }

// turnAt is by how many radians an outline turns at corner i.
func (o outline) turnAt(i int) float64 {
	n := len(o.edges)
	last, next := o.edges[(i+n-1)%n], o.edges[i]
	u := o.corner(i).Sub(last[max(len(last)-1-turnArm, 0)].at)
	v := next[min(turnArm, len(next)-1)].at.Sub(o.corner(i))
	return math.Abs(turnOf(u, v))
}

func turnOf(u, v geom.Vec) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) }

// turning lists the corners at which an outline turns, two at least.
func (o outline) turning() []int {
	var out, all []int
	for i := range o.edges {
		all = append(all, i)
		if o.turnAt(i) > leastTurn {
			out = append(out, i)
		}
	}
	if len(out) >= 2 {
		return out
	}
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(o.turnAt(b), o.turnAt(a)) })
	out = all[:2]
	slices.Sort(out)
	return out
}

// sides cuts an outline at the corners where it turns; side k begins at the
// k-th of them.
func (o outline) sides() []flank {
	n := len(o.edges)
	turns := o.turning()
	out := make([]flank, len(turns))
	for k, first := range turns {
		d := flank{corners: []int{first}, far: []float64{0}}
		last := turns[(k+1)%len(turns)]
		for c, length := first, 0.0; ; {
			for _, p := range o.edges[c][min(len(d.places), 1):] {
				p.far += length
				d.places = append(d.places, p)
			}
			length += o.length(c)
			c = (c + 1) % n
			d.corners, d.far = append(d.corners, c), append(d.far, length)
			if c == last {
				break
			}
		}
		d.extend()
		out[k] = d
	}
	return out
}

// extend reads a side straight on beyond both its corners.
func (d *flank) extend() {
	const arm = 4
	n := len(d.places)
	first, last := d.places[0], d.places[n-1]
	back := first.at.Sub(d.places[min(arm, n-1)].at).Unit()
	on := last.at.Sub(d.places[max(n-1-arm, 0)].at).Unit()
	var before, after []place
	for k := sideBeyond; k > 0; k-- {
		before = append(before, beyond(first, back.Scale(-1), -float64(k)))
	}
	for k := 1; k <= sideBeyond; k++ {
		after = append(after, beyond(last, on, float64(k)))
	}
	d.places = slices.Concat(before, d.places, after)
}

// beyond is a place mm further on than p, in a direction.
func beyond(p place, dir geom.Vec, mm float64) place {
	out := geom.Vec{X: dir.Y, Y: -dir.X}
	if out.Dot(p.out) < 0 {
		out = out.Scale(-1)
	}
	return place{at: p.at.Add(dir.Scale(mm)), dir: dir, out: out, inkDir: directionBin(math.Atan2(dir.Y, dir.X)), far: p.far + mm}
}

// index is where among the places of a side the place far mm along it lies.
func (d *flank) index(far float64) float64 {
	n := len(d.places)
	k := sort.Search(n, func(k int) bool { return d.places[k].far >= far })
	switch {
	case k == 0:
		return 0
	case k == n:
		return float64(n - 1)
	}
	a, b := d.places[k-1].far, d.places[k].far
	return float64(k-1) + (far-a)/math.Max(b-a, 1e-9)
}

// atIndex is what values by place are at a place between.
func atIndex(v []float64, at float64) float64 {
	k := min(int(at), len(v)-2)
	u := at - float64(k)
	return v[k]*(1-u) + v[k+1]*u
}

// on is the place of a track far mm along the side.
func (d *flank) on(t *track, far float64) geom.Point {
	i := d.index(far)
	k := min(int(i), len(t.pts)-2)
	return t.pts[k].Lerp(t.pts[k+1], i-float64(k))
}
