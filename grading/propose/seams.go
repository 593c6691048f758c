package propose

import (
	"math"

	"quarterstep/model"
)

// room is by how much, in mm and on the mean of the printed sizes, the follower
// of a seam may be longer than its leader, and what is usual.
type room struct{ low, usual, high float64 }

// How much ease seams have. Common practice: a back shoulder is up to 1/2 in
// longer; a cap is 3/4 to 2 in longer than its armhole, of knits not at all;
// gathers take up any length and are for the sewist to confirm.
var (
	shoulderRoom = room{-4, 6, 16}
	evenRoom     = room{-6, 0, 6}
	capRoom      = room{-10, 22, 70}
	fullRoom     = room{-4, 0, 60} // may be gathered
)

const (
	// unseamed is how much more, in mm, either way seams may differ where the
	// allowances are not known: then lengths are those of the cutting line.
	unseamed = 9.0
	// unseamedCap is the same for a cap, which bends more than its armhole and
	// so loses more to the allowance.
	unseamedCap = 60.0
	// unsteady is how far in mm the ease of a printed size may lie off the mean.
	unsteady = 6.0
	// surelySewn is how far it lies off when there is no doubt.
	surelySewn = 3.0
)

// part is a run with the way it is walked.
type part struct {
	run
	reverse bool
}

func (p part) stretch() model.Stretch { return p.run.stretch(p.reverse) }

func (p part) turned() part { return part{p.run, !p.reverse} }

// eases is the ease of each size all parts are printed in, mm.
func eases(lead []part, follow run) []float64 {
	sheets := []*sheet{follow.s}
	for _, l := range lead {
		sheets = append(sheets, l.s)
	}
	var out []float64
	for _, size := range shared(sheets...) {
		e := follow.length(size)
		for _, l := range lead {
			e -= l.length(size)
		}
		if !math.IsNaN(e) {
			out = append(out, e)
		}
	}
	return out
}

// mean is the mean of v, and how far the worst lies off it.
func mean(v []float64) (m, off float64) {
	for _, x := range v {
		m += x / float64(len(v))
	}
	for _, x := range v {
		off = max(off, math.Abs(x-m))
	}
	return m, off
}

// sew is the seam of lead and follow, when it is one in print.
func (f *finder) sew(lead []part, follow part, r room, loose float64) (candidate, bool) {
	all := eases(lead, follow.run)
	if len(all) == 0 {
		return candidate{}, false
	}
	if m, _ := mean(all); len(lead) == 1 && m < r.low && -m <= r.high && r != capRoom {
		lead, follow = []part{follow}, lead[0] // the fuller side follows
		all = eases(lead, follow.run)
	}
	m, off := mean(all)
	if !seamed(lead, follow) {
		r.low, r.high = r.low-loose, r.high+loose
	}
	if m < r.low || m > r.high || off > unsteady {
		return candidate{}, false
	}
	link := model.Link{Kind: model.Sewn, Lead: lead[0].stretch(), Follow: follow.stretch()}
	for _, l := range lead[1:] {
		link.And = append(link.And, l.stretch())
	}
	c := candidate{Proposal{Link: link, Misfit: off, Sure: off <= surelySewn}, math.Abs(m-r.usual) + off}
	c.What, c.How = saySewn(f.p, lead, follow, m)
	return c, true
}

// seamed reports that the stitching line of every part is known.
func seamed(lead []part, follow part) bool {
	for _, l := range lead {
		if !l.s.seamed {
			return false
		}
	}
	return follow.s.seamed
}

// pairs is every two runs of a role on two sheets of one layer that may be
// sewn to each other: front to back, or halves not told. The front's run comes
// first.
func (f *finder) pairs(of role, may func(a, b *sheet) bool) [][2]run {
	var out [][2]run
	for i, a := range f.sheets {
		for _, b := range f.sheets[i+1:] {
			if a.layer != b.layer || a.half != "" && a.half == b.half || !may(a, b) {
				continue
			}
			front, back := a, b
			if a.half == "back" || b.half == "front" {
				front, back = b, a
			}
			for _, x := range front.runs(of) {
				for _, y := range back.runs(of) {
					out = append(out, [2]run{x, y})
				}
			}
		}
	}
	return out
}

// shoulders sews front shoulders to back ones, the back eased in.
func (f *finder) shoulders() {
	var all []candidate
	for _, x := range f.pairs(shoulder, func(a, b *sheet) bool { return a.sort != sleeve && b.sort != sleeve }) {
		reverse, told := against(x[0], x[1])
		if c, ok := f.sew([]part{{x[0], false}}, part{x[1], reverse}, shoulderRoom, unseamed); ok {
			c.Sure = c.Sure && told
			all = append(all, c)
		}
	}
	f.take(all)
}

// sides sews side seams, from the armhole to the waist and from there on where
// both pieces have a waist: waist is to meet waist.
func (f *finder) sides() {
	var all []candidate
	for _, x := range f.pairs(side, func(a, b *sheet) bool { return a.sort == b.sort && a.sort != sleeve }) {
		all = append(all, f.sideSeam(x[1], x[0])...)
	}
	f.take(all)
}

func (f *finder) sideSeam(lead, follow run) []candidate {
	reverse, told := against(lead, follow)
	a, b := lead.atWaist(), follow.atWaist()
	if reverse && len(b) == 2 {
		b[0], b[1] = b[1], b[0]
	}
	if len(a) != len(b) {
		a, b = []run{lead}, []run{follow}
	}
	var out []candidate
	for i := range a {
		c, ok := f.sew([]part{{a[i], false}}, part{b[i], reverse}, evenRoom, unseamed)
		if !ok {
			c, ok = f.sewPastDart(a[i], b[i], reverse)
		}
		if ok {
			c.Sure = c.Sure && told
			out = append(out, c)
		}
	}
	if len(out) < len(a) && len(a) > 1 {
		if c, ok := f.sew([]part{{lead, false}}, part{follow, reverse}, evenRoom, unseamed); ok {
			c.Sure = false
			return []candidate{c}
		}
	}
	return out
}

// sleeveSeams sews a sleeve's two underarm seams to each other.
func (f *finder) sleeveSeams() {
	var all []candidate
	for _, s := range f.sheets {
		runs := s.runs(armSeam)
		if len(runs) != 2 {
			continue
		}
		if half(s.q.Edges[runs[0].edges[0]].Name) == "back" {
			runs[0], runs[1] = runs[1], runs[0]
		}
		reverse, told := against(runs[0], runs[1])
		if c, ok := f.sew([]part{{runs[0], false}}, part{runs[1], reverse}, evenRoom, unseamed); ok {
			c.Sure = c.Sure && told
			all = append(all, c)
		}
	}
	f.take(all)
}

// waists sews a bodice to a skirt, half to half, the skirt perhaps gathered.
func (f *finder) waists() {
	var all []candidate
	for _, a := range f.sheets {
		for _, b := range f.sheets {
			if a.sort != body || b.sort != lower || a.layer != b.layer || a.half != b.half {
				continue
			}
			for _, x := range a.runs(waist) {
				for _, y := range b.runs(waist) {
					reverse, told := against(x, y)
					if c, ok := f.sew([]part{{x, false}}, part{y, reverse}, fullRoom, unseamed); ok {
						c.Sure = c.Sure && told && a.half != "" && c.cost < unseamed
						all = append(all, c)
					}
				}
			}
		}
	}
	f.take(all)
}

// yokes sews pieces to their yoke.
func (f *finder) yokes() {
	var all []candidate
	for _, a := range f.sheets {
		for _, b := range f.sheets {
			if a.sort != yokePiece || b.sort == yokePiece || a.layer != b.layer {
				continue
			}
			for _, x := range a.runs(yoke) {
				for _, y := range b.runs(yoke) {
					h := half(a.q.Edges[x.edges[0]].Name)
					if h == "" {
						h = a.half
					}
					if h != "" && b.half != "" && h != b.half {
						continue
					}
					reverse, told := against(x, y)
					if c, ok := f.sew([]part{{x, false}}, part{y, reverse}, fullRoom, unseamed); ok {
						c.Sure = c.Sure && told && h != "" && c.cost < unseamed
						all = append(all, c)
					}
				}
			}
		}
	}
	f.take(all)
}
