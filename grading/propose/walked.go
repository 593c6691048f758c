package propose

import "quarterstep/model"

// Walked is two sides of a link that were picked by hand, each side's edges put
// in the order they are walked and both sides walked so that the ends that meet
// come together: as their names, their notches and what goes on there tell,
// else as two sheets of paper lie side by side. A side of several pieces is
// taken in the order picked. A stretch that names something gone stays as it is.
func Walked(p model.Pattern, kind model.LinkKind, leads []model.Stretch, follow model.Stretch) ([]model.Stretch, model.Stretch) {
	b, ok := runOf(p, follow)
	if !ok {
		return leads, follow
	}
	out := make([]model.Stretch, len(leads))
	for k, lead := range leads {
		a, ok := runOf(p, lead)
		if !ok {
			return leads, follow
		}
		part := b
		if len(leads) == len(b.edges) && len(leads) > 1 {
			part.edges = b.edges[k : k+1]
		}
		reverse, _ := against(part, a)
		if kind == model.SameLine {
			reverse = a.s.clockwise() != b.s.clockwise()
		}
		out[k] = a.stretch(reverse)
	}
	return out, b.stretch(false)
}

// runOf is a stretch's edges as a run along the outline, whatever the order
// they were picked in; false where something of it is gone.
func runOf(p model.Pattern, s model.Stretch) (run, bool) {
	i := p.PieceIndex(s.Piece)
	if i < 0 || len(s.Edges) == 0 {
		return run{}, false
	}
	r := run{s: newSheet(p, i)}
	picked := make([]bool, len(r.s.role))
	for _, id := range s.Edges {
		j := r.s.q.EdgeIndex(id)
		if j < 0 {
			return run{}, false
		}
		picked[j] = true
	}
	first := 0
	for j := range picked {
		if picked[j] && !picked[r.s.before(j)] {
			first = j
			break
		}
	}
	for k := range picked {
		if j := (first + k) % len(picked); picked[j] {
			r.edges = append(r.edges, j)
		}
	}
	return r, true
}
