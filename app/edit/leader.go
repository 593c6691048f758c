package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Spot is a handle of the Table: a grade point, inner control point number
// Control (1 up) of an edge, or with Control 0 the edge as a whole.
type Spot struct {
	Piece   string
	Point   string // "" for a curve handle
	Edge    string
	Control int
}

// Leader is the place that moves when a place on a follower's line is taken:
// the line belongs to the leader.
type Leader struct {
	Spot
	Link string       // the link that leads there
	turn *geom.Affine // from the follower's directions to the leader's; nil for none
}

// Move shifts the leader by v, which is as seen on the follower.
func (l Leader) Move(v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	if l.turn != nil {
		v = l.turn.ApplyVec(v)
	}
	switch {
	case l.Point != "":
		return MovePoint(l.Piece, l.Point, v)
	case l.Control == 0:
		return MoveEdge(l.Piece, l.Edge, v)
	}
	return MoveControl(l.Piece, l.Edge, l.Control, v)
}

// LeaderOf is what leads a place of p, graded as r, at the end of the chain of
// leaders. It is false for a place on no line that follows another. It is an
// error in plain words where the line is led but the leader has no handle
// there.
func LeaderOf(p model.Pattern, r grading.Result, at Spot) (Leader, bool, error) {
	out := Leader{Spot: at}
	for range len(p.Links) + 1 {
		l, i, ok := leads(p, r, out.Spot)
		if !ok {
			return out, out.Link != "", nil
		}
		next, err := across(p, l, i, out.Spot)
		if err != nil {
			return Leader{}, true, err
		}
		turn := lieBack(p, r, l)
		if out.turn != nil {
			turn = turn.Mul(*out.turn)
		}
		out = Leader{Spot: next, Link: l.ID, turn: &turn}
	}
	return Leader{}, false, nil
}

// leads is the same-line link whose follower's stretch has the place, and which
// of its edges.
func leads(p model.Pattern, r grading.Result, at Spot) (model.Link, int, bool) {
	i := p.PieceIndex(at.Piece)
	if i < 0 {
		return model.Link{}, 0, false
	}
	q := p.Pieces[i]
	for _, l := range p.Links {
		broken := slices.ContainsFunc(r.Unlinked, func(u grading.Unlinked) bool { return u.Link == l.ID })
		if l.Kind != model.SameLine || l.Follow.Piece != at.Piece || broken {
			continue
		}
		for n, id := range l.Follow.Edges {
			j := q.EdgeIndex(id)
			if j < 0 {
				continue
			}
			onIt := at.Point == "" && id == at.Edge
			if at.Point != "" {
				onIt = q.Points[j].ID == at.Point || q.Points[(j+1)%len(q.Points)].ID == at.Point
			}
			if onIt {
				return l, n, true
			}
		}
	}
	return model.Link{}, 0, false
}

// across is the place on the leader of a place on the nth edge of the
// follower's stretch.
func across(p model.Pattern, l model.Link, n int, at Spot) (Spot, error) {
	a, b := p.Pieces[p.PieceIndex(l.Lead.Piece)], p.Pieces[p.PieceIndex(l.Follow.Piece)]
	last := len(l.Follow.Edges) - 1
	if len(l.Lead.Edges) == len(l.Follow.Edges) {
		lead := a.EdgeIndex(l.Lead.Edges[n])
		if at.Point != "" {
			return Spot{Piece: a.ID, Point: endPoint(a, lead, l.Lead.Reverse, startsAt(b, l, n, at.Point))}, nil
		}
		k := at.Control
		if k > 0 && l.Lead.Reverse != l.Follow.Reverse {
			k = 3*len(a.Nest[len(a.Nest)-1].Edges[lead]) - k
		}
		return Spot{Piece: a.ID, Edge: a.Edges[lead].ID, Control: k}, nil
	}
	if at.Point != "" {
		start := startsAt(b, l, n, at.Point)
		switch {
		case n == 0 && start:
			return Spot{Piece: a.ID, Point: endPoint(a, a.EdgeIndex(l.Lead.Edges[0]), l.Lead.Reverse, true)}, nil
		case n == last && !start:
			return Spot{Piece: a.ID, Point: endPoint(a, a.EdgeIndex(l.Lead.Edges[len(l.Lead.Edges)-1]), l.Lead.Reverse, false)}, nil
		}
	}
	return Spot{}, words.Errorf("this line is the %s of %s, which has no handle there; move it on that piece, or unlink the two", edgeName(a, a.EdgeIndex(l.Lead.Edges[0])), a.Name)
}

// startsAt reports that the nth edge of the follower's stretch is walked from
// that grade point.
func startsAt(b model.Piece, l model.Link, n int, point string) bool {
	j := b.EdgeIndex(l.Follow.Edges[n])
	if l.Follow.Reverse {
		j = (j + 1) % len(b.Points)
	}
	return b.Points[j].ID == point
}

// endPoint is the ID of the grade point at which edge j, walked, starts or ends.
func endPoint(a model.Piece, j int, reverse, start bool) string {
	if start == reverse {
		j = (j + 1) % len(a.Points)
	}
	return a.Points[j].ID
}

// lieBack is how directions on the follower lie on its leader.
func lieBack(p model.Pattern, r grading.Result, l model.Link) geom.Affine {
	const places = 16
	along := func(s model.Stretch) []geom.Point {
		i := p.PieceIndex(s.Piece)
		var line geom.Path
		for _, id := range s.Edges {
			e := r.Pieces[i].Edges[p.Pieces[i].EdgeIndex(id)]
			if s.Reverse {
				e = e.Reverse()
			}
			line = append(line, e...)
		}
		m, err := geom.Measure(line, 1e-3)
		if err != nil {
			return make([]geom.Point, places+1)
		}
		out := make([]geom.Point, places+1)
		for k := range out {
			out[k] = m.At(m.Length() * float64(k) / places)
		}
		return out
	}
	lay, _ := geom.RigidFit(along(l.Follow), along(l.Lead))
	return lay
}
