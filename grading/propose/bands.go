package propose

import (
	"math"
	"slices"

	"quarterstep/model"
)

// bands sews cuffs to sleeve hems, collars to necklines and waistbands to
// waists.
func (f *finder) bands() {
	var all []candidate
	for _, s := range f.sheets {
		switch s.sort {
		case cuff:
			for _, sleeveSheet := range f.of(sleeve, s.layer) {
				for _, h := range sleeveSheet.runs(hem) {
					all = append(all, f.band(s, []part{{h, false}}, cuffRoom, "sleeve", "top", "upper")...)
				}
			}
		case collar:
			all = append(all, f.collar(s)...)
		case waistband:
			for _, half := range f.rings(waist, lower, s.layer) {
				all = append(all, f.ring(s, half, waistbandRoom, "waist", "lower", "bottom")...)
			}
		}
	}
	f.take(all)
}

// How much longer a band may be than what it is sewn to, mm: it may overlap
// itself to be buttoned, and a sleeve may be gathered or pleated into it.
var (
	cuffRoom      = room{-160, 0, 60}
	collarRoom    = room{-20, 0, 20}
	waistbandRoom = room{-20, 0, 90}
)

// collar sews a collar to the neckline, or to its stand where there is one,
// which is then sewn to the neckline.
func (f *finder) collar(s *sheet) []candidate {
	var out []candidate
	// words: none
	stand := func(q *sheet) bool { return word(plain(q.q.Name), "stand") && !has(plain(q.q.Name), "collar with") }
	if !stand(s) {
		for _, b := range f.of(collar, s.layer) {
			if b == s || !stand(b) {
				continue
			}
			for _, top := range b.long() {
				if has(plain(b.q.Edges[top.edges[0]].Name), "upper", "top", "collar") {
					out = append(out, f.band(s, []part{{top, false}}, cuffRoom, "neck", "lower", "stand")...)
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	for _, half := range f.rings(neck, body, s.layer) {
		out = append(out, f.ring(s, half, collarRoom, "neck", "lower", "bottom")...)
	}
	return out
}

// of is the sheets of that sort and layer.
func (f *finder) of(what sort, l layer) []*sheet {
	return slices.DeleteFunc(slices.Clone(f.sheets), func(s *sheet) bool { return s.sort != what || s.layer != l })
}

// long is the edges of a band that are not its ends, each a run of its own.
func (s *sheet) long() []run {
	if len(s.sizes) == 0 {
		return nil
	}
	most := 0.0
	for j := range s.role {
		if s.role[j] == bandEdge {
			most = max(most, s.length(s.sizes[0], []int{j}))
		}
	}
	var out []run
	for j := range s.role {
		if s.role[j] == bandEdge && s.length(s.sizes[0], []int{j}) > most/2 {
			out = append(out, run{s: s, edges: []int{j}})
		}
	}
	return out
}

// band sews the best of a band's long edges to a leader: the one whose name has
// one of the words, else the one that comes nearest in length.
func (f *finder) band(s *sheet, lead []part, r room, words ...string) []candidate {
	var out []candidate
	for _, e := range s.long() {
		reverse := s.bandTurn(lead, e)
		c, ok := f.sew(lead, part{e, reverse}, r, unseamed)
		if !ok {
			continue
		}
		m, _ := mean(eases(lead, e))
		c.Sure = c.Sure && math.Abs(m) <= surelySewn
		switch n := plain(s.q.Edges[e.edges[0]].Name); {
		case has(n, words...):
		case numbered.MatchString(n):
			c.cost, c.Sure = c.cost+wrongWord, false
		default:
			c.cost, c.Sure = c.cost+2*wrongWord, false
		}
		out = append(out, c)
	}
	return out
}

// wrongWord is what speaks against an edge of a band that is not called as the
// edge that is sewn on; in mm, to be weighed with ease.
const wrongWord = 5

// bandTurn reports that a band's edge is walked against its outline along a
// leader. A half band ends at its fold, as the leader does at the centre.
func (s *sheet) bandTurn(lead []part, e run) bool {
	last := lead[len(lead)-1]
	ends, tips := last.tips(), e.tips()
	end := ends[1]
	if last.reverse {
		end = ends[0]
	}
	if len(lead) > 1 && end.next == fold && (tips[0].next == fold) != (tips[1].next == fold) {
		return tips[0].next == fold
	}
	if len(lead) > 1 {
		return !lead[0].reverse
	}
	reverse, _ := against(lead[0].run, e)
	return reverse != lead[0].reverse
}

// rings is the neckline or waist of half the body, from the centre front to the
// centre back, in every way it may be meant: a front with or without its button
// stand.
func (f *finder) rings(of role, what sort, l layer) [][]part {
	front, back := f.halfRing(of, what, l, "front"), f.halfRing(of, what, l, "back")
	if len(front) != 1 || len(back) != 1 {
		return nil
	}
	b := part{back[0], !back[0].startsOut(of)}
	var out [][]part
	for _, r := range front[0].fromSide(of) {
		out = append(out, []part{{r, front[0].startsOut(of)}, b})
	}
	return out
}

func (f *finder) halfRing(of role, what sort, l layer, half string) []run {
	var out []run
	for _, s := range f.sheets {
		if s.layer == l && s.half == half && s.sort == what {
			out = append(out, s.runs(of)...)
		}
	}
	return out
}

// startsOut reports that a neckline starts at the shoulder, a waist at the side.
func (r run) startsOut(of role) bool {
	t := r.tips()
	outer := shoulder
	if of == waist {
		outer = side
	}
	return t[0].next == outer || t[1].next != outer && t[0].next != fold
}

// fromSide is the run, and what is left of it when edges are taken off its
// centre end.
func (r run) fromSide(of role) []run {
	var out []run
	for n := len(r.edges); n > 0; n-- {
		if r.startsOut(of) {
			out = append(out, run{s: r.s, edges: r.edges[:n]})
		} else {
			out = append(out, run{s: r.s, edges: r.edges[len(r.edges)-n:]})
		}
	}
	return out
}

// ring sews a band to half a ring when it is cut on the fold, else to the half
// or the whole of it, whichever it is as long as.
func (f *finder) ring(s *sheet, half []part, r room, words ...string) []candidate {
	whole := slices.Clone(half)
	for i, p := range slices.Backward(half) {
		if i == len(half)-1 && p.whole() {
			continue
		}
		whole = append(whole, p.turned())
	}
	folded := slices.ContainsFunc(s.q.Edges, func(e model.Edge) bool { return e.Kind == model.Fold || e.Kind == model.Centre })
	if folded {
		return f.band(s, half, r, words...)
	}
	return append(f.band(s, half, r, words...), f.band(s, whole, r, words...)...)
}

// whole reports that a run goes over the middle of its piece: both its ends go
// on alike, at the two shoulders or the two sides.
func (r run) whole() bool {
	t := r.tips()
	return t[0].next == t[1].next && t[0].next != fold && t[0].next != unknown
}
