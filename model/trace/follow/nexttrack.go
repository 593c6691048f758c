package follow

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// track is a printed line that runs beside a side.
type track struct {
	of    int       // the track that this one began as, where lines come together
	own   bool      // the side's own line, which another size may share
	off   []float64 // by place: how far out of the side it runs, in mm
	seen  []float64 // by place: mm of it on print, from the first place on
	pts   []geom.Point
	fresh float64 // the share of it that does not run on the side itself
	bent  float64 // how much more or less it bends than the side, by the square
	rank  float64 // printed lines between it and the side
	out   float64 // how far outside it lies for a larger size, inside for a smaller one, from -1 to 1
	prior float64 // what else speaks for it
}

// How tracks are looked for: in steps along the side, in bins to the side, and
// by the bins they may go to the side in a step.
const (
	trackStep   = 3    // places
	trackBin    = 0.15 // mm
	trackBins   = 171
	trackSlopes = 25   // -12 to 12 bins in a step
	trackTurns  = 5    // directions of a line, from inward over along the side to outward
	trackAslant = 0.2  // radians from one turn to the next
	mostBend    = 2    // bins that a step may go further aside than the one before
	perBend     = 0.15 // a step's ink: going one bin further aside, growing with the square
	whiteCost   = 0.5  // a step's ink: a step without ink
	endWhite    = 0.1  // the same near an end, where another size may have ended
	mostTracks  = 14
	trackWidth  = 0.45 // mm from a track in which print is its own
	ownWorth    = 0.7  // what ink on the side itself counts for in the search of others
	ownWidth    = 0.5  // mm: ink this near to the side is its own
	ownInk      = 0.25 // what ink that the traced size has counts for
)

// trackSearch is the best lines along one side, up to and from every place and
// bin, by the slope there.
type trackSearch struct {
	side   *flank
	places []place // between its corners
	steps  int
	inked  []float64 // by step, bin and turn: 0 white, 1 a line
	gain   []float64 // of the same
	to, on []float64 // by step, bin and slope
}

// tracksOf lists the printed lines beside a side, its own first.
func (s *nextSearch) tracksOf(d *flank) []track {
	t := &trackSearch{side: d, places: d.places[sideBeyond : len(d.places)-sideBeyond]}
	t.steps = (len(t.places) + trackStep - 1) / trackStep
	t.read(s.ink)
	t.weigh()
	t.sweep()
	type found struct {
		bins  []int
		score float64
	}
	own := make([]int, t.steps)
	for k := range own {
		own[k] = trackBins / 2
	}
	kept := [][]int{own}
	var all []found
	for _, k := range t.looks() {
		for _, j := range t.peaks(k) {
			all = append(all, found{t.through(k, j), t.best(k, j)})
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(b.score, a.score) })
	for _, f := range all {
		if len(kept) < mostTracks && t.covered(f.bins) > 0.35 && !t.known(f.bins, kept) {
			kept = append(kept, f.bins)
		}
	}
	out := make([]track, len(kept))
	for i, bins := range kept {
		out[i] = t.track(bins)
		out[i].own = i == 0
	}
	for i := range out {
		s.refine(d, &out[i])
		out[i].bend(d)
	}
	out = s.parted(d, out)
	for i := range out {
		s.goOn(d, &out[i])
		out[i].bend(d)
	}
	tellRanks(d, out, s.side)
	return out
}

// looks are the steps at which lines are looked for.
func (t *trackSearch) looks() []int {
	var out []int
	last := t.steps - 1
	for _, share := range []float64{0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9} {
		out = append(out, int(share*float64(last)+0.5))
	}
	return out
}

// turnOfSlope is the turn of a line that goes to the side by a slope.
func turnOfSlope(v int) int {
	const apart = int(trackAslant * trackStep / trackBin) // slopes from one turn to the next
	return min((v-trackSlopes/2+trackTurns/2*apart+apart/2)/apart, trackTurns-1)
}

func trackCell(k, j, turn int) int { return (k*trackBins+j)*trackTurns + turn }

// read looks for ink of the side's direction, and turned in and out, at every
// step and bin. What dashed lines leave out is filled in.
func (t *trackSearch) read(ink *inkMap) {
	raw := make([]bool, t.steps*trackBins*trackTurns)
	for k, p := range t.places {
		var bin [trackTurns]int
		for turn := range bin {
			d := p.dir.Add(p.out.Scale(float64(turn-trackTurns/2) * trackAslant))
			bin[turn] = directionBin(math.Atan2(d.Y, d.X))
		}
		for j := range trackBins {
			bits := ink.bits(p.at.Add(p.out.Scale(float64(j-trackBins/2) * trackBin)))
			if bits == 0 {
				continue
			}
			for turn, b := range bin {
				ahead := float64((k%trackStep - trackStep/2) * (turn - trackTurns/2))
				i := j - int(math.Round(ahead*trackAslant/trackBin))
				if bits>>b&1 == 1 && i >= 0 && i < trackBins {
					raw[trackCell(k/trackStep, i, turn)] = true
				}
			}
		}
	}
	t.fill(raw)
}

// fill weighs what was read, and fills in what dashed lines leave out.
func (t *trackSearch) fill(raw []bool) {
	any := func(k, j, turn int) bool {
		if k < 0 || k >= t.steps {
			return false
		}
		for i := max(j-1, 0); i <= min(j+1, trackBins-1); i++ {
			if raw[trackCell(k, i, turn)] {
				return true
			}
		}
		return false
	}
	t.inked = make([]float64, len(raw))
	for k := range t.steps {
		for j := range trackBins {
			for turn := range trackTurns {
				v := &t.inked[trackCell(k, j, turn)]
				aslant := (turn - trackTurns/2) * int(trackAslant*trackStep/trackBin)
				before := func(n int) bool { i := j - n*aslant; return i >= 0 && i < trackBins && any(k-n, i, turn) }
				switch {
				case raw[trackCell(k, j, turn)]:
					*v = 1
				case any(k, j, turn):
					*v = 0.6
				case before(1) && (before(-1) || before(-2)) || before(2) && before(-1):
					*v = 0.8
				}
			}
		}
	}
}

// ink is how surely a line of any turn passes a bin.
func (t *trackSearch) ink(k, j int) float64 {
	c := trackCell(k, j, 0)
	return slices.Max(t.inked[c : c+trackTurns])
}

// far is how far along the side the middle of a step lies.
func (t *trackSearch) far(k int) float64 {
	return t.places[min(k*trackStep+trackStep/2, len(t.places)-1)].far
}

// weigh says what a line gains by every step and bin.
func (t *trackSearch) weigh() {
	t.gain = make([]float64, len(t.inked))
	length := t.side.length()
	end := math.Min(mostStep, length/4)
	for k := range t.steps {
		far := t.far(k)
		white := whiteCost
		if far < end || far > length-end {
			white = endWhite
		}
		for j := range trackBins {
			worth := 1.0
			if math.Abs(float64(j-trackBins/2))*trackBin < ownWidth {
				worth = ownWorth
			}
			for turn := range trackTurns {
				v := t.inked[trackCell(k, j, turn)]
				t.gain[trackCell(k, j, turn)] = v*worth - (1-v)*white
			}
		}
	}
}

func trackState(k, j, v int) int { return (k*trackBins+j)*trackSlopes + v }

// sweep works out the best lines up to and from every state.
func (t *trackSearch) sweep() {
	t.to = make([]float64, t.steps*trackBins*trackSlopes)
	t.on = make([]float64, len(t.to))
	for k := range t.steps {
		for j := range trackBins {
			for v := range trackSlopes {
				if top, _ := t.before(k, j, v); k == 0 {
					t.to[trackState(k, j, v)] = t.gain[trackCell(k, j, turnOfSlope(v))]
				} else {
					t.to[trackState(k, j, v)] = t.gain[trackCell(k, j, turnOfSlope(v))] + top
				}
			}
		}
	}
	for k := t.steps - 2; k >= 0; k-- {
		for j := range trackBins {
			for v := range trackSlopes {
				t.on[trackState(k, j, v)], _ = t.after(k, j, v)
			}
		}
	}
}

// before is the best line up to the step before a state, and its slope there.
func (t *trackSearch) before(k, j, v int) (float64, int) {
	top, slope := math.Inf(-1), v
	i := j - (v - trackSlopes/2)
	if k == 0 || i < 0 || i >= trackBins {
		return top, slope
	}
	for u := max(v-mostBend, 0); u <= min(v+mostBend, trackSlopes-1); u++ {
		if w := t.to[trackState(k-1, i, u)] - perBend*float64((u-v)*(u-v)); w > top {
			top, slope = w, u
		}
	}
	return top, slope
}

// after is the best line on from a state, and its slope in the next step.
func (t *trackSearch) after(k, j, v int) (float64, int) {
	top, slope := math.Inf(-1), v
	for u := max(v-mostBend, 0); u <= min(v+mostBend, trackSlopes-1); u++ {
		i := j + u - trackSlopes/2
		if i < 0 || i >= trackBins {
			continue
		}
		if w := t.gain[trackCell(k+1, i, turnOfSlope(u))] + t.on[trackState(k+1, i, u)] - perBend*float64((u-v)*(u-v)); w > top {
			top, slope = w, u
		}
	}
	return top, slope
}

// best is the best line through a bin at step k.
func (t *trackSearch) best(k, j int) float64 {
	top := math.Inf(-1)
	for v := range trackSlopes {
		s := trackState(k, j, v)
		top = max(top, t.to[s]+t.on[s])
	}
	return top
}

// peaks are the bins at step k through which a line runs better than through
// those beside it.
func (t *trackSearch) peaks(k int) []int {
	const beside = 3
	at := make([]float64, trackBins)
	for j := range at {
		at[j] = t.best(k, j)
	}
	var out []int
	for j, v := range at {
		top := !math.IsInf(v, -1)
		for i := max(j-beside, 0); i <= min(j+beside, trackBins-1); i++ {
			top = top && (at[i] < v || at[i] == v && i >= j)
		}
		if top && t.ink(k, j) > 0 {
			out = append(out, j)
		}
	}
	return out
}

// through is the best line through a bin at step k.
func (t *trackSearch) through(k, j int) []int {
	out := make([]int, t.steps)
	top, v := math.Inf(-1), 0
	for u := range trackSlopes {
		s := trackState(k, j, u)
		if w := t.to[s] + t.on[s]; w > top {
			top, v = w, u
		}
	}
	out[k] = j
	for at, bin, slope := k, j, v; at > 0; at-- {
		_, u := t.before(at, bin, slope)
		bin -= slope - trackSlopes/2
		out[at-1], slope = bin, u
	}
	for at, bin, slope := k, j, v; at < t.steps-1; at++ {
		_, slope = t.after(at, bin, slope)
		bin += slope - trackSlopes/2
		out[at+1] = bin
	}
	return out
}

// covered is the share of a line between the side's corners that is printed.
func (t *trackSearch) covered(bins []int) float64 {
	var on, all float64
	for k := range t.steps {
		on += math.Min(t.ink(k, bins[k])*1.5, 1)
		all++
	}
	return on / math.Max(all, 1)
}

// known reports that a line is put together from others: nearly everywhere on
// one of them.
func (t *trackSearch) known(bins []int, others [][]int) bool {
	var on float64
	for k, b := range bins {
		if slices.ContainsFunc(others, func(o []int) bool { return abs(o[k]-b) <= 4 }) {
			on++
		}
	}
	return on > 0.9*float64(len(bins))
}

// track is a line by the places between the side's corners, what its steps
// leave uneven smoothed.
func (t *trackSearch) track(bins []int) track {
	n := len(t.side.places)
	out := track{off: make([]float64, n), seen: make([]float64, n), pts: make([]geom.Point, n)}
	even := make([]float64, t.steps)
	for k := range even {
		var sum, all float64
		for i := max(k-2, 0); i <= min(k+2, t.steps-1); i++ {
			w := 3 - math.Abs(float64(i-k))
			sum, all = sum+w*float64(bins[i]-trackBins/2)*trackBin, all+w
		}
		even[k] = sum / all
	}
	for k, p := range t.places {
		at := within(float64(k-trackStep/2)/trackStep, 0, float64(t.steps-1))
		out.set(k+sideBeyond, p, even[0])
		if t.steps > 1 {
			out.set(k+sideBeyond, p, atIndex(even, at))
		}
	}
	return out
}

// set lets a track run so far out of a place.
func (t *track) set(k int, p place, off float64) {
	t.off[k], t.pts[k] = off, p.at.Add(p.out.Scale(off))
}

// tellRanks counts the lines between each track and the side, and tells on which
// side of it the track lies; larger is 1 where the wanted size is larger and -1
// where it is smaller.
func tellRanks(d *flank, ts []track, larger float64) {
	const beside, unbent = 0.6, 0.02 // mm, and what a printed line may bend otherwise
	for i := range ts {
		var between, out, all float64
		for k, p := range d.places {
			if p.far < 0 || p.far > d.length() {
				continue
			}
			o := ts[i].off[k]
			all++
			out += within(larger*o*math.Abs(o)/16, -1, 1) // necklines go the other way, by little
			n := 0.0
			for j := range ts {
				if q := ts[j].off[k]; j > 0 && j != i && ts[j].bent < unbent && q*o > 0 && math.Abs(q) > beside && math.Abs(q) < math.Abs(o)-beside {
					n++
				}
			}
			between += math.Min(n, 3)
		}
		ts[i].rank, ts[i].out = between/math.Max(all, 1), out/math.Max(all, 1)
	}
}

// bend works out how a track leaves its side: on how much of it, and how much
// otherwise it bends.
func (t *track) bend(d *flank) {
	const arm = 4 // places
	var fresh, all float64
	t.bent = 0
	for k, p := range d.places {
		if p.far < 0 || p.far > d.length() {
			continue
		}
		all++
		if math.Abs(t.off[k]) >= ownWidth {
			fresh++
		}
		if k >= sideBeyond+arm && k < len(t.off)-sideBeyond-arm {
			b := turnOf(t.pts[k].Sub(t.pts[k-arm]), t.pts[k+arm].Sub(t.pts[k])) -
				turnOf(p.at.Sub(d.places[k-arm].at), d.places[k+arm].at.Sub(p.at))
			t.bent += b * b / (arm * arm)
		}
	}
	t.fresh = fresh / math.Max(all, 1)
}

// refine takes a track to the middle of its print.
func (s *nextSearch) refine(d *flank, t *track) {
	const arm = 4 // places
	lo, hi := sideBeyond, len(d.places)-sideBeyond
	aside, found := make([]float64, len(d.places)), make([]bool, len(d.places))
	for k := lo; k < hi; k++ {
		aside[k], found[k] = s.printBeside(t.pts[k], d.places[k], besideArm)
	}
	for k := lo; k < hi; k++ {
		var sum, all float64
		for i := max(k-arm, lo); i <= min(k+arm, hi-1); i++ {
			if found[i] {
				w := float64(arm + 1 - abs(i-k))
				sum, all = sum+w*aside[i], all+w
			}
		}
		if all > 3 {
			t.set(k, d.places[k], t.off[k]+sum/all)
		}
	}
}

// goOn leads a track on beyond both corners of its side, straight or with its
// print.
func (s *nextSearch) goOn(d *flank, t *track) {
	lo, hi := sideBeyond, len(d.places)-sideBeyond
	for k := hi; k < len(d.places); k++ {
		t.off[k] = t.off[hi-1]
		t.pts[k] = s.further(t.pts[max(hi-turnArm-1, lo):k])
	}
	back := slices.Clone(t.pts[lo:min(lo+turnArm+1, hi)])
	slices.Reverse(back)
	for k := lo - 1; k >= 0; k-- {
		t.off[k] = t.off[lo]
		t.pts[k] = s.further(back)
		back = append(back, t.pts[k])
	}
	blank := 2
	for k := 1; k < len(t.pts); k++ {
		t.seen[k] = t.seen[k-1]
		p := placeAt(t.pts[k], t.pts[k].Sub(t.pts[k-1]))
		if _, ok := s.printBeside(t.pts[k], p, trackWidth); ok {
			t.seen[k] += float64(min(blank, 3)) * (d.places[k].far - d.places[k-1].far)
			blank = 1
		} else {
			blank++
		}
	}
}

// placeAt is a place on a line of some direction.
func placeAt(at geom.Point, dir geom.Vec) place {
	dir = dir.Unit()
	return place{at: at, dir: dir, out: geom.Vec{X: dir.Y, Y: -dir.X}}
}

// further is the place a millimetre on from the end of a line, on its print
// where there is any straight ahead.
func (s *nextSearch) further(line []geom.Point) geom.Point {
	n := len(line)
	dir := line[n-1].Sub(line[max(n-1-turnArm, 0)]).Unit()
	at := line[n-1].Add(dir)
	p := placeAt(at, dir)
	if off, ok := s.printBeside(at, p, trackWidth); ok {
		at = at.Add(p.out.Scale(off / 2))
	}
	return at
}
