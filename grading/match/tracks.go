package match

import (
	"math"
	"slices"
	"sort"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

const (
	// The turn, as the middle one of all sizes, that makes a corner where it
	// is too slight for one size alone. By our own trial a hand's wobble
	// reaches 7 degrees in the middle of three or four sizes; what is drawn
	// smooth has no turn at all.
	weakTraced = 11 * degree
	weakDrawn  = 3 * degree
	// faint is the turn below which a drawn size does not show a corner.
	faint = 1.5 * degree
	// slack is how far in mm the same place of two sizes may be off when
	// carried from one to the other by its share of the edge.
	slack = 5.0
)

// track is one grade point: its place in every ring of a piece.
type track struct {
	at     []corner // one per ring
	smooth bool     // a match point, not a corner
	name   string   // where it is known already
}

func (n *nest) newTrack() track { return track{at: make([]corner, len(n.rings))} }

// nest is the rings of one piece with the corners found so far, in order round
// the piece.
type nest struct {
	piece  string
	rings  []*ring
	tracks []track
	doubts []Doubt
}

func (n *nest) doubt(ring int, at geom.Point, say string) {
	n.doubts = append(n.doubts, Doubt{Piece: n.piece, Size: n.rings[ring].size, Say: say, At: at})
}

// mostCorners is how many corners one line may have: several times as many as
// the most fanciful hem. Finding which belong together takes their number
// squared, for every two sizes.
const mostCorners = 200

// findTracks finds the corners of all rings and which belong together. A ring
// with more than mostCorners is an error.
func (n *nest) findTracks() error {
	found := make([][]corner, len(n.rings))
	for i, r := range n.rings {
		found[i] = strongCorners(r)
		if len(found[i]) > mostCorners {
			return words.Errorf("the line of size %s has more than %d corners: leave out what is no cutting line, or draw it with fewer", r.size, mostCorners)
		}
	}
	ref, pairs := n.reference(found)
	n.strongTracks(ref, found, pairs)
	if len(n.tracks) == 0 {
		n.extremes()
	}
	n.weakTracks()
	if len(n.tracks) == 1 {
		n.opposite()
	}
	n.sayOddCorners(found)
	return nil
}

// reference is the ring whose corners agree best with all others', and its
// partners in each.
func (n *nest) reference(found [][]corner) (int, [][]int) {
	best, least := 0, math.Inf(1)
	var pairs [][]int
	for i := range n.rings {
		var sum float64
		all := make([][]int, len(n.rings))
		for j := range n.rings {
			var c float64
			all[j], c = partners(n.rings[i], n.rings[j], found[i], found[j])
			sum += c
		}
		if sum < least {
			best, least, pairs = i, sum, all
		}
	}
	return best, pairs
}

// strongTracks takes the reference's corners that more than half of the rings
// share. The rings that lack one are given it in a second step, when the
// others are there to tell where it should be.
func (n *nest) strongTracks(ref int, found [][]corner, pairs [][]int) {
	type gap struct{ track, ring int }
	var gaps []gap
	for k, c := range found[ref] {
		tr := n.newTrack()
		var lacking []gap
		for i := range n.rings {
			if j := pairs[i][k]; j >= 0 {
				tr.at[i] = found[i][j]
			} else {
				lacking = append(lacking, gap{len(n.tracks), i})
			}
		}
		if 2*len(lacking) >= len(n.rings) {
			continue
		}
		tr.at[ref] = c
		n.tracks = append(n.tracks, tr)
		gaps = append(gaps, lacking...)
	}
	missing := map[gap]bool{}
	for _, g := range gaps {
		missing[g] = true
	}
	for _, g := range gaps {
		has := func(t int) bool { return !missing[gap{t, g.ring}] && !missing[gap{t, ref}] }
		s, ok := n.carry(ref, g.ring, n.tracks[g.track].at[ref].s, has)
		if !ok {
			s = n.rings[g.ring].length * n.tracks[g.track].at[ref].s / n.rings[ref].length
		}
		turn := n.tracks[g.track].at[ref].turn
		c := n.place(g.ring, s, 3*slack, turn)
		c.sure = c.sure || n.rings[g.ring].shows(c.s, turn, found[g.ring])
		n.tracks[g.track].at[g.ring] = c
		delete(missing, g)
	}
}

// shows reports whether a traced ring has a slight corner of that turn near s.
func (r *ring) shows(s, turn float64, known []corner) bool {
	if !r.dense {
		return false
	}
	t := widest(newProfile(r, known, roomStrong), int(slack/r.step))[r.sample(s)]
	return t*turn > 0 && math.Abs(t) >= weakTraced
}

// carry is the place of ring to that corresponds to place s of ring from: the
// same share of the way between the tracks beside it. Only tracks for which
// has is true count; false when there is none.
func (n *nest) carry(from, to int, s float64, has func(int) bool) (float64, bool) {
	a, b := n.rings[from], n.rings[to]
	before, behind := -1, -1
	for t := range n.tracks {
		if !has(t) {
			continue
		}
		at := n.tracks[t].at[from].s
		if before < 0 || a.ahead(at, s) < a.ahead(n.tracks[before].at[from].s, s) {
			before = t
		}
		if behind < 0 || a.ahead(s, at) < a.ahead(s, n.tracks[behind].at[from].s) {
			behind = t
		}
	}
	if before < 0 {
		return 0, false
	}
	s0, t0 := n.tracks[before].at[from].s, n.tracks[before].at[to].s
	wholeA, wholeB := a.ahead(s0, n.tracks[behind].at[from].s), b.ahead(t0, n.tracks[behind].at[to].s)
	if before == behind {
		wholeA, wholeB = a.length, b.length
	}
	if wholeA == 0 {
		return t0, true
	}
	return b.wrap(t0 + a.ahead(s0, s)/wholeA*wholeB), true
}

func everyTrack(int) bool { return true }

// place puts a corner of a given turn near s on a ring that did not show it by
// itself.
func (n *nest) place(i int, s, reach, turn float64) corner {
	r := n.rings[i]
	var known []corner
	for _, t := range n.tracks {
		if c := t.at[i]; c.turn != 0 || c.sure {
			known = append(known, c)
			reach = min(reach, max(r.apart(c.s, s)/2, r.step))
		}
	}
	c := r.settle(s, reach, known)
	if !r.dense && c.turn*turn < faint*faint {
		k, t := r.m.Locate(r.wrap(s))
		return corner{place: place{k, t}, s: r.wrap(s), turn: turn}
	}
	c.turn, c.sure = turn, !r.dense
	return c
}

// extremes gives a piece without any corner its two ends along the paper.
func (n *nest) extremes() {
	top, bottom := n.newTrack(), n.newTrack()
	top.smooth, bottom.smooth = true, true
	for i, r := range n.rings {
		hi, lo := 0, 0
		for k, p := range r.at {
			if p.Y < r.at[hi].Y {
				hi = k
			}
			if p.Y > r.at[lo].Y {
				lo = k
			}
		}
		top.at[i] = r.corner(float64(hi) * r.step)
		bottom.at[i] = r.corner(float64(lo) * r.step)
	}
	n.tracks = []track{top, bottom}
	n.order()
}

// opposite gives a piece with one corner a match point half way round from it.
func (n *nest) opposite() {
	tr := n.newTrack()
	tr.smooth = true
	for i, r := range n.rings {
		tr.at[i] = r.corner(n.tracks[0].at[i].s + r.length/2)
	}
	n.tracks = append(n.tracks, tr)
	n.order()
}

// corner is the place s as a corner without a turn, at the joint there if one
// is within a sample.
func (r *ring) corner(s float64) corner {
	s = r.wrap(s)
	for _, i := range r.near(s, r.step) {
		return corner{place: place{i, 0}, s: r.joints[i]}
	}
	i, t := r.m.Locate(s)
	return corner{place: place{i, t}, s: s}
}

// order sorts the tracks round the piece as they lie on the first ring.
func (n *nest) order() {
	sort.SliceStable(n.tracks, func(a, b int) bool { return n.tracks[a].at[0].s < n.tracks[b].at[0].s })
}

// weakTracks looks for corners too slight for one size: the rings are laid
// along each other by the corners known, and the middle turn of all sizes
// counts, so that the wobble of one hand does not.
func (n *nest) weakTracks() {
	n.order()
	profiles := make([]profile, len(n.rings))
	least, reach := weakDrawn, close
	for i, r := range n.rings {
		var known []corner
		for _, t := range n.tracks {
			known = append(known, t.at[i])
		}
		profiles[i] = widest(newProfile(r, known, roomWeak), int(slack/r.step))
		if r.dense {
			least, reach = weakTraced, 2*close
		}
	}
	lead := n.rings[0]
	middle := make(profile, len(lead.at))
	turns := make([]float64, len(n.rings))
	for k := range middle {
		s := float64(k) * lead.step
		if n.nearTrack(0, s, close) {
			continue
		}
		for i, r := range n.rings {
			at, _ := n.carry(0, i, s, everyTrack)
			turns[i] = profiles[i][r.sample(at)]
		}
		middle[k] = median(turns)
	}
	for _, k := range crests(middle, least, reach/lead.step) {
		n.addWeak(k*lead.step, middle[int(k)], profiles)
	}
	n.order()
}

// crests lists the middles of the runs of equal values of at least least,
// highest first, that lie reach samples or more from a higher one.
func crests(p profile, least, reach float64) []float64 {
	var all []int
	for k, t := range p {
		if math.Abs(t) >= least {
			all = append(all, k)
		}
	}
	sort.SliceStable(all, func(a, b int) bool { return math.Abs(p[all[a]]) > math.Abs(p[all[b]]) })
	var out []float64
	for _, k := range all {
		end := k
		for end+1 < len(p) && math.Abs(p[end+1]-p[k]) < 1e-3 {
			end++
		}
		at := float64(k+end) / 2
		if !slices.ContainsFunc(out, func(o float64) bool { return math.Abs(o-at) < reach }) {
			out = append(out, at)
		}
	}
	return out
}

func (n *nest) addWeak(s, turn float64, profiles []profile) {
	tr := n.newTrack()
	for i := range n.rings {
		at, _ := n.carry(0, i, s, everyTrack)
		if n.nearTrack(i, at, close/2) {
			return
		}
		tr.at[i] = n.place(i, at, 2*slack, turn)
		tr.at[i].sure = tr.at[i].sure || n.rings[i].dense && profiles[i][n.rings[i].sample(at)]*turn > faint*faint
	}
	n.tracks = append(n.tracks, tr)
}

func (n *nest) nearTrack(ring int, s, room float64) bool {
	for _, t := range n.tracks {
		if n.rings[ring].apart(t.at[ring].s, s) < room {
			return true
		}
	}
	return false
}

// widest is p with each value replaced by the greatest within reach samples.
func widest(p profile, reach int) profile {
	n := len(p)
	out := make(profile, n)
	for k := range p {
		for j := k - reach; j <= k+reach; j++ {
			if v := p[((j%n)+n)%n]; math.Abs(v) > math.Abs(out[k]) {
				out[k] = v
			}
		}
	}
	return out
}

func median(v []float64) float64 {
	s := append([]float64(nil), v...)
	sort.Float64s(s)
	m := len(s) / 2
	if len(s)%2 == 1 {
		return s[m]
	}
	return (s[m-1] + s[m]) / 2
}

// sayOddCorners tells of corners that one size has and the others lack, and of
// those it was given without showing them.
func (n *nest) sayOddCorners(found [][]corner) {
	for i, r := range n.rings {
		for _, c := range found[i] {
			if !n.nearTrack(i, c.s, 0.01) {
				n.doubt(i, r.m.At(c.s), words.T("It has a corner here that the other sizes lack."))
			}
		}
	}
	for _, t := range n.tracks {
		for i, c := range t.at {
			if !c.sure && !t.smooth {
				n.doubt(i, n.rings[i].m.At(c.s), words.T("The other sizes have a corner here; this one shows none."))
			}
		}
	}
}
