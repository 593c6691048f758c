package propose

import (
	"math"

	"quarterstep/grading/link"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// What a line that is said to follow another may be off it.
const (
	// sixteenth is how much two lengths on paper may differ that are meant to
	// be one, mm: 1/16 in, what a pencil line is wide and a ruler is read to
	// (common practice).
	sixteenth = 25.4 / 16
	// liesOn is how far in mm two tracings of one line may lie apart.
	liesOn = 1.2
	// surelyOn is how near they lie when there is no doubt.
	surelyOn = 1.0
	// bowed is how far in mm from its chord a line is no straight one, which
	// could lie on any other.
	bowed = 4.0
	// mostMerged is how many edges of one line may be one edge of the other.
	mostMerged = 3
)

// copies proposes that facings, linings and interfacings follow the pieces
// they are cut after: where a run of edges of the one is, in every printed size
// and moved as a stiff sheet of paper, a run of the other.
func (f *finder) copies() {
	for more := 1; more > 0; { // runs that shared an edge are shortened and come again
		var all []candidate
		for _, follow := range f.sheets {
			for _, lead := range f.sheets {
				if mayFollow(lead, follow) {
					all = append(all, f.copied(lead, follow)...)
				}
			}
		}
		more = f.take(all)
	}
}

// mayFollow reports that one piece may be cut after the other: a facing after
// cloth, of the same half of the body; or a small piece whose name says nothing.
func mayFollow(lead, follow *sheet) bool {
	if lead == follow || lead.half != "" && follow.half != "" && lead.half != follow.half {
		return false
	}
	switch follow.layer {
	case cloth:
		return lead.layer == cloth && follow.sort == odd && lead.sort != odd && len(shared(lead, follow)) > 1
	case inside:
		return lead.layer == cloth || lead.layer == facing
	}
	return lead.layer == cloth
}

// copied is every run of follow that lies on a run of lead. Outlines that run
// the same way round are walked the same way; mirrored pieces are not copies.
func (f *finder) copied(lead, follow *sheet) []candidate {
	sizes := shared(lead, follow)
	if len(sizes) == 0 {
		return nil
	}
	reverse := lead.clockwise() != follow.clockwise()
	a, b := newLane(lead, sizes, reverse), newLane(follow, sizes, false)
	var out []candidate
	for i := range a.order {
		for j := range b.order {
			if c, ok := f.copyFrom(a, b, i, j, reverse); ok {
				out = append(out, c)
			}
		}
	}
	return out
}

// lane is a sheet's edges in the order they are walked, in each of some sizes.
type lane struct {
	s     *sheet
	order []int
	paths [][]geom.Path // by size, in order
	long  [][]float64   // mm on paper
}

func newLane(s *sheet, sizes []string, reverse bool) lane {
	l := lane{s: s}
	n := len(s.role)
	for k := range n {
		if reverse {
			k = n - 1 - k
		}
		l.order = append(l.order, k)
	}
	for _, size := range sizes {
		edges, _ := s.edges(size)
		paths, long := make([]geom.Path, n), make([]float64, n)
		for k, j := range l.order {
			paths[k] = edges[j]
			if reverse {
				paths[k] = edges[j].Reverse()
			}
			var err error
			if long[k], err = edges[j].Length(measureTol); err != nil {
				long[k] = math.NaN()
			}
		}
		l.paths, l.long = append(l.paths, paths), append(l.long, long)
	}
	return l
}

// group is edges of two lanes that lie on each other.
type group struct{ a, b, na, nb int }

// grow finds the group that starts at a and b: the fewest edges of each that
// are as long in every size.
func grow(x, y lane, a, b int) (group, bool) {
	g := group{a, b, 1, 1}
	for g.na <= mostMerged && g.nb <= mostMerged && g.na < len(x.order) && g.nb < len(y.order) {
		same, shorter := true, 0.0
		for size := range x.paths {
			d := x.total(size, a, g.na) - y.total(size, b, g.nb)
			if !(math.Abs(d) <= sixteenth) {
				same = false
			}
			shorter += d
		}
		if same {
			return g, true
		}
		if shorter < 0 {
			g.na++
		} else {
			g.nb++
		}
	}
	return g, false
}

func (l lane) total(size, from, n int) float64 {
	var sum float64
	for k := range n {
		sum += l.long[size][(from+k)%len(l.order)]
	}
	return sum
}

// line is n edges from one on, joined.
func (l lane) line(size, from, n int) geom.Path {
	var out geom.Path
	for k := range n {
		out = append(out, l.paths[size][(from+k)%len(l.order)]...)
	}
	return out
}

// copyFrom is the longest run from edges i and j on in which both lanes lie on
// each other and no edge follows another line already.
func (f *finder) copyFrom(a, b lane, i, j int, reverse bool) (candidate, bool) {
	var groups []group
	na, nb, misfit := 0, 0, 0.0
	for {
		g, ok := grow(a, b, (i+na)%len(a.order), (j+nb)%len(b.order))
		if !ok || na+g.na >= len(a.order) || nb+g.nb >= len(b.order) {
			break
		}
		if f.taken.has(model.Link{Kind: model.SameLine, Lead: a.stretch(g.a, g.na, reverse), Follow: b.stretch(g.b, g.nb, false)}) {
			break
		}
		off := apart(a, b, append(groups, g))
		if !(off <= liesOn) {
			break
		}
		groups, misfit = append(groups, g), off
		na, nb = na+g.na, nb+g.nb
	}
	groups = withoutFolds(a, groups)
	if len(groups) == 0 || !tells(a, b, groups) {
		return candidate{}, false
	}
	i, j, na, nb = spanOf(groups)
	l := model.Link{Kind: model.SameLine, Lead: a.stretch(i, na, reverse), Follow: b.stretch(j, nb, false)}
	misfit = f.misfit(l, misfit)
	c := candidate{Proposal{Link: l, Misfit: misfit}, -a.seams(groups)}
	c.Sure = b.s.layer != cloth && misfit <= surelyOn && namesAgree(a, b, groups)
	if b.s.layer == inside && (a.s.layer == facing) != has(plain(b.s.q.Name), "facing") {
		c.cost += 1000 // an interfacing goes by the cloth unless it is the facing's
	}
	c.What, c.How = sayFollows(f.p, a.s, b.s, l, misfit)
	return c, true
}

// seams is how long the groups are that are no fold or centre line, mm: what
// makes one run better than another.
func (l lane) seams(groups []group) float64 {
	var sum float64
	for _, g := range groups {
		if !l.folded(g) {
			sum += l.total(0, g.a, g.na)
		}
	}
	return sum
}

// folded reports that a group lies on a fold or centre line of the leader.
func (l lane) folded(g group) bool { return l.s.role[l.order[g.a]] == fold }

// withoutFolds takes folds and centre lines off the ends of a run: they stay put
// by themselves, and are where a whole copy begins and ends.
func withoutFolds(a lane, groups []group) []group {
	for len(groups) > 0 && a.folded(groups[0]) {
		groups = groups[1:]
	}
	for len(groups) > 0 && a.folded(groups[len(groups)-1]) {
		groups = groups[:len(groups)-1]
	}
	return groups
}

// spanOf is where groups that follow on each other begin in both lanes, and how
// many edges they are.
func spanOf(groups []group) (a, b, na, nb int) {
	for _, g := range groups {
		na, nb = na+g.na, nb+g.nb
	}
	return groups[0].a, groups[0].b, na, nb
}

// misfit is how far off its leader the grading will say that the follower lies,
// so that both say the same; seen where that cannot be read.
func (f *finder) misfit(l model.Link, seen float64) float64 {
	pl, err := link.Read(f.p, l)
	if err != nil {
		return seen
	}
	return pl.Misfit
}

func (l lane) stretch(from, n int, reverse bool) model.Stretch {
	out := model.Stretch{Piece: l.s.q.ID, Reverse: reverse}
	for k := range n {
		out.Edges = append(out.Edges, l.s.q.Edges[l.order[(from+k)%len(l.order)]].ID)
	}
	return out
}

// apart is how far the groups lie off each other at worst of all sizes, mm, the
// one laid on the other as a stiff sheet.
func apart(a, b lane, groups []group) float64 {
	const samples = 8 // a group
	var most float64
	for size := range a.paths {
		var from, to []geom.Point
		for _, g := range groups {
			x, errX := geom.Measure(a.line(size, g.a, g.na), measureTol)
			y, errY := geom.Measure(b.line(size, g.b, g.nb), measureTol)
			if errX != nil || errY != nil {
				return math.Inf(1)
			}
			for k := range samples + 1 {
				u := float64(k) / samples
				from, to = append(from, x.At(u*x.Length())), append(to, y.At(u*y.Length()))
			}
		}
		lay, _ := geom.RigidFit(from, to)
		for k := range from {
			most = max(most, lay.Apply(from[k]).Dist(to[k]))
		}
	}
	return most
}

// tells reports that groups lying on each other mean something: one of them at
// least is no hem, fold or centre line, and they are curved, or known by name. A
// piece whose name says nothing needs more: a corner, and a curve beside it.
func tells(a, b lane, groups []group) bool {
	seam, curved := false, false
	for _, g := range groups {
		k, m := a.order[g.a], b.order[g.b]
		seam = seam || a.s.q.Edges[k].Kind == model.Plain && b.s.q.Edges[m].Kind == model.Plain
		curved = curved || bow(a.line(0, g.a, g.na)) > bowed
	}
	if b.s.layer == cloth {
		return seam && curved && len(groups) > 1
	}
	return seam && (curved || len(groups) > 1 || namesAgree(a, b, groups))
}

// bow is how far a line leaves its chord, mm.
func bow(p geom.Path) float64 {
	chord := p.End().Sub(p.Start())
	var most float64
	for _, q := range p.Flatten(0.5) {
		v := q.Sub(p.Start())
		if chord.Len() < bowed {
			most = max(most, v.Len())
			continue
		}
		most = max(most, math.Abs(chord.Cross(v))/chord.Len())
	}
	return most
}

// namesAgree reports that some edges lying on each other are called the same.
func namesAgree(a, b lane, groups []group) bool {
	for _, g := range groups {
		if r := a.s.role[a.order[g.a]]; r != unknown && r == b.s.role[b.order[g.b]] {
			return true
		}
	}
	return false
}

// clockwise reports which way round the first printed line runs.
func (s *sheet) clockwise() bool {
	if len(s.sizes) == 0 {
		return false
	}
	edges, _ := s.edges(s.sizes[0])
	return geom.Join(edges...).Area() > 0
}
