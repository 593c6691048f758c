package propose

import (
	"slices"

	"quarterstep/assets/words"
)

// caps sews each sleeve's cap into the armholes of back and front: from the
// back underarm over the crown to the front one.
func (f *finder) caps() {
	var all []candidate
	for _, s := range f.sheets {
		runs := s.runs(sleeveCap)
		if s.sort != sleeve || len(runs) != 1 {
			continue
		}
		back, front := f.armhole(s.layer, "back"), f.armhole(s.layer, "front")
		if len(back) == 0 || len(front) == 0 {
			continue
		}
		var lead []part
		for _, p := range slices.Backward(back) {
			lead = append(lead, p.turned())
		}
		lead = append(lead, front...)
		reverse, told := frontFirst(runs[0])
		if c, ok := f.sew(lead, part{runs[0], reverse}, capRoom, unseamedCap); ok {
			c.Sure = told
			if !told {
				c.How += words.T("; which half of the cap is the back one is a guess")
			}
			all = append(all, c)
		}
	}
	f.take(all)
}

// armhole is the armhole of one half of the body from the shoulder down: of one
// piece, or of two, the upper with the shoulder and the lower with the side.
// None when that is not clear.
func (f *finder) armhole(l layer, half string) []part {
	var out []part
	for _, s := range f.sheets {
		if s.layer == l && s.half == half && (s.sort == body || s.sort == yokePiece) {
			for _, r := range s.runs(armhole) {
				out = append(out, part{r, !r.startsUp()})
			}
		}
	}
	switch {
	case len(out) == 1:
		return out
	case len(out) == 2 && out[0].reaches(shoulder) && out[1].reaches(side):
		return out
	case len(out) == 2 && out[1].reaches(shoulder) && out[0].reaches(side):
		return []part{out[1], out[0]}
	}
	return nil
}

// reaches reports that a run goes on as an edge of that role.
func (r run) reaches(to role) bool {
	t := r.tips()
	return t[0].next == to || t[1].next == to
}

// startsUp reports that the run starts at its upper end: the one at the
// shoulder, or away from the side, or higher along the grain.
func (r run) startsUp() bool {
	t := r.tips()
	switch {
	case t[0].next == shoulder && t[1].next != shoulder:
		return true
	case t[1].next == shoulder && t[0].next != shoulder:
		return false
	case t[0].next == side && t[1].next != side:
		return false
	case t[1].next == side && t[0].next != side:
		return true
	}
	return t[0].along <= t[1].along
}

// frontFirst reports that the outline runs over the front half of a cap before
// the back one; told is false where that is a guess. Its halves, their corners
// and the seams below them may say so, or a double notch, which is put at the
// back (common practice).
func frontFirst(r run) (front, told bool) {
	first, last := r.edges[0], r.edges[len(r.edges)-1]
	n := len(r.s.role)
	names := [2][]string{
		{r.s.q.Edges[first].Name, r.s.pointName(first), r.s.q.Edges[r.s.before(first)].Name},
		{r.s.q.Edges[last].Name, r.s.pointName((last + 1) % n), r.s.q.Edges[r.s.next(last)].Name},
	}
	for i := range names[0] {
		a, b := half(names[0][i]), half(names[1][i])
		switch {
		case a == "front" && b != "front" || b == "back" && a != "back":
			return true, true
		case a == "back" && b != "back" || b == "front" && a != "front":
			return false, true
		}
	}
	double := func(j int) bool {
		for _, m := range r.s.q.Notches {
			if m.Double && m.Edge == r.s.q.Edges[j].ID {
				return true
			}
		}
		return false
	}
	if len(r.edges) > 1 && double(first) != double(last) {
		return double(last), true
	}
	return false, false
}
