package propose

import "quarterstep/model"

// taken is what edges do already. An edge follows one line and is sewn to one
// partner; an edge that follows is sewn as its leader is.
type taken struct{ follows, leads, sewn map[end]bool }

// end is one edge of one piece.
type end struct{ piece, edge string }

func takenIn(links []model.Link) taken {
	t := taken{map[end]bool{}, map[end]bool{}, map[end]bool{}}
	for _, l := range links {
		t.add(l)
	}
	return t
}

func (t taken) add(l model.Link) {
	for _, e := range ends(l.Follow) {
		if l.Kind == model.SameLine {
			t.follows[e] = true
		} else {
			t.sewn[e] = true
		}
	}
	for _, s := range l.Leads() {
		for _, e := range ends(s) {
			if l.Kind == model.SameLine {
				t.leads[e] = true
			} else {
				t.sewn[e] = true
			}
		}
	}
}

// has reports that l asks of an edge what it does already.
func (t taken) has(l model.Link) bool {
	if l.Kind == model.SameLine {
		return t.any(l.Follow, t.follows, t.leads, t.sewn) || t.any(l.Lead, t.follows)
	}
	for _, s := range append(l.Leads(), l.Follow) {
		if t.any(s, t.sewn, t.follows) {
			return true
		}
	}
	return false
}

func (taken) any(s model.Stretch, in ...map[end]bool) bool {
	for _, e := range ends(s) {
		for _, m := range in {
			if m[e] {
				return true
			}
		}
	}
	return false
}

func ends(s model.Stretch) []end {
	out := make([]end, len(s.Edges))
	for i, id := range s.Edges {
		out[i] = end{s.Piece, id}
	}
	return out
}
