package follow

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// Lines that cross or run together near a side's end are easily mistaken for
// one another behind that place.
const (
	runsWith    = 1.0  // mm between lines that run together
	partedBy    = 0.7  // mm between the ends of lines that are two
	endsWhere   = 0.5  // share of a side from its middle on in which lines may come together
	patched     = 0.05 // how much a track bends that is put together from several lines
	ownPrint    = 0.3  // mm from the traced line within which print is its own
	mostSpliced = 26   // tracks in all
	onAhead     = 0.25 // radians that print may run askew of a line going straight on
)

// parted is tracks with those added that go straight on where a track comes
// together with another one.
func (s *nextSearch) parted(d *flank, ts []track) []track {
	out := ts
	for i := 1; i < len(ts); i++ {
		if ts[i].bent > patched {
			continue
		}
		for _, towards := range []int{-1, 1} {
			for _, t := range slices.Clone(out[len(ts):]) {
				if t.of == i && towards > 0 {
					out = s.straightOn(d, out, t, ts, i, towards)
				}
			}
			out = s.straightOn(d, out, ts[i], ts, i, towards)
		}
	}
	return spliced(d, out)
}

// spliced is tracks with those added that begin as one of them and end as
// another that runs with it in the middle of the side.
func spliced(d *flank, ts []track) []track {
	lo, hi := sideBeyond, len(d.places)-sideBeyond-1
	mid := (lo + hi) / 2
	out := ts
	for i := 1; i < len(ts); i++ {
		for j := 1; j < len(ts) && len(out) < mostSpliced; j++ {
			a, b := ts[i], ts[j]
			if i == j || math.Abs(a.off[mid]-b.off[mid]) > ownWidth {
				continue
			}
			if !slices.ContainsFunc(out, func(t track) bool {
				return math.Abs(t.off[lo]-a.off[lo]) < partedBy && math.Abs(t.off[hi]-b.off[hi]) < partedBy && math.Abs(t.off[mid]-a.off[mid]) < ownWidth
			}) {
				t := track{of: i, seen: slices.Clone(a.seen)}
				t.off = append(slices.Clone(a.off[:mid]), b.off[mid:]...)
				t.pts = append(slices.Clone(a.pts[:mid]), b.pts[mid:]...)
				out = append(out, t)
			}
		}
	}
	return out
}

// straightOn adds track t, which is number i of ts or began so, going straight
// on towards one end of the side.
func (s *nextSearch) straightOn(d *flank, out []track, t track, ts []track, i, towards int) []track {
	lo, hi := sideBeyond, len(d.places)-sideBeyond-1
	mid, end := (lo+hi)/2, hi
	if towards < 0 {
		end = lo
	}
	from, met := mid, false
	for k := mid; k != end+towards && !met; k += towards {
		for j := range ts {
			if ts[j].bent <= patched && !ts[j].with(t, mid) && ts[j].with(t, k) {
				met = true
			}
		}
		if !met {
			from = k
		}
	}
	if back := from - 3*towards; met && (back-mid)*towards > turnArm {
		u := s.led(d, t, back, end, towards)
		u.of = i
		if math.Abs(u.off[end]-t.off[end]) > partedBy {
			out = append(out, u)
		}
	}
	return out
}

// with reports that two tracks run together at place k.
func (t track) with(u track, k int) bool { return math.Abs(t.off[k]-u.off[k]) < runsWith }

// led is a track led on anew from place k to an end of the side: turning as the
// side turns, along the print straight ahead.
func (s *nextSearch) led(d *flank, t track, k, end, towards int) track {
	t.off, t.pts, t.seen = slices.Clone(t.off), slices.Clone(t.pts), slices.Clone(t.seen)
	at := t.pts[k]
	dir := at.Sub(t.pts[k-towards*turnArm]).Unit()
	line := []geom.Point{at}
	lo, hi := min(k, end), max(k, end)
	for i := k; len(line) < 2*abs(end-k)+sideBeyond; i += towards {
		if j := i + towards; (end-j)*towards >= 0 {
			dir = rotated(dir, turnOf(d.places[i].dir, d.places[j].dir))
		}
		next := at.Add(dir)
		p := placeAt(next, dir)
		if off, ok := s.printAhead(next, p, d.places[min(max(i+towards, lo), hi)]); ok {
			next = next.Add(p.out.Scale(off * 0.6))
		}
		back := line[max(len(line)-turnArm, 0)]
		dir = dir.Scale(3).Add(next.Sub(back).Unit()).Unit()
		at = next
		line = append(line, at)
	}
	j := 0
	for i := k + towards; (end-i)*towards >= 0; i += towards {
		p := d.places[i]
		for j < len(line)-2 && line[j+1].Sub(p.at).Dot(p.dir)*float64(towards) < 0 {
			j++
		}
		a, b := line[j].Sub(p.at).Dot(p.dir), line[j+1].Sub(p.at).Dot(p.dir)
		q := line[j].Lerp(line[j+1], within(a/(a-b), 0, 1))
		t.set(i, p, q.Sub(p.at).Dot(p.out))
	}
	return t
}

func rotated(v geom.Vec, by float64) geom.Vec {
	sin, cos := math.Sincos(by)
	return geom.Vec{X: v.X*cos - v.Y*sin, Y: v.X*sin + v.Y*cos}
}

// printAhead is how far out of a place the print lies that runs straight on and
// is not that of the side itself, which is beside there.
func (s *nextSearch) printAhead(at geom.Point, p, beside place) (float64, bool) {
	best, found := trackWidth, false
	dir := math.Atan2(p.dir.Y, p.dir.X)
	s.web.grid.near(at, trackWidth, func(j int32) {
		d := &s.web.dashes[j]
		if !d.dot && math.Abs(turn(along(d.dir, dir), dir)) > onAhead {
			return
		}
		q, _, dist := d.nearest(at)
		if math.Abs(q.Sub(beside.at).Dot(beside.out)) < ownPrint {
			return
		}
		if o := q.Sub(at).Dot(p.out); dist < 1.3*trackWidth && math.Abs(o) < math.Abs(best) {
			best, found = o, true
		}
	})
	return best, found
}
