package scene

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// End is one end of a seam as it is walked.
type End uint8

// The two ends of a seam, and Leads for laying the pieces of its leader's side
// together, where there are several, with the follower beside them.
const (
	From End = iota
	To
	Leads
)

// Joined is pieces laid together at a seam, stitching line on stitching line.
type Joined struct {
	// Placement takes each piece's own coordinates to the Table's; a piece may
	// be turned over.
	Placement map[string]geom.Affine
	At        geom.Point // where the two seams' ends meet, on the Table
	// Runs says which lines run on across the join: "neckline". Bend is by how
	// many degrees they bend there, 0 where they run on flat.
	Runs  string
	Bend  float64
	Apart float64 // how far apart the far ends of two lines that are one lie, mm
}

// pin is how much of a seam, in mm from its end, is laid line on line: what a
// sewist would pin first.
const pin = 10

// joinTol is how far, in mm, a stitching line may be from its place.
const joinTol = 0.005

var errNoSeam = words.Fault("the seam names a piece or an edge that is not there")

// Join lays the pieces of link l together at one end of its seam: the leader
// lies where it is, and the follower's stitching line runs on the leader's for
// the first 10 mm, the two pieces on opposite sides of the seam; of a link on
// the same line one piece lies upon the other. With Leads the leader's pieces
// are laid together one after the other, at the seam that joins them where there
// is one, else so that the line runs straight on; the follower lies beside them.
// It fails where both sides are of one piece, or where a seam allowance does not
// fit its piece.
func Join(in Input, l model.Link, end End) (Joined, error) {
	leads := l.Leads()
	if end == Leads && len(leads) > 1 {
		return in.joinLeads(leads, l.Follow)
	}
	lead, at := leads[0], From
	if end == To {
		lead, at = leads[len(leads)-1], To
	}
	if l.Kind == model.SameLine {
		return in.layUpon(lead, l.Follow, at)
	}
	return in.joinAt(lead, l.Follow, at)
}

// layUpon lays stretch b's piece upon stretch a's, line on line from one end.
func (in Input) layUpon(a, b model.Stretch, end End) (Joined, error) {
	var ends [4]seamEnd
	for k, s := range []model.Stretch{a, b} {
		for n, e := range []End{end, From + To - end} {
			var err error
			if ends[2*k+n], err = in.seamEnd(s, e); err != nil {
				return Joined{}, err
			}
		}
	}
	still := in.Place(a.Piece)
	m := ends[2].onto(ends[0].placed(still), 1)
	return Joined{
		Placement: map[string]geom.Affine{a.Piece: still, b.Piece: m},
		At:        still.Apply(ends[0].at),
		Apart:     still.Apply(ends[1].at).Dist(m.Apply(ends[3].at)),
	}, nil
}

// joinAt lays stretch b's piece on stretch a's at an end of both.
func (in Input) joinAt(a, b model.Stretch, end End) (Joined, error) {
	if a.Piece == b.Piece {
		return Joined{}, words.Error("both sides are of one piece: fold it along the middle and look")
	}
	lead, err := in.seamEnd(a, end)
	if err != nil {
		return Joined{}, err
	}
	follow, err := in.seamEnd(b, end)
	if err != nil {
		return Joined{}, err
	}
	still := in.Place(a.Piece)
	m := follow.onto(lead.placed(still), -1)
	out := Joined{Placement: map[string]geom.Affine{a.Piece: still, b.Piece: m}, At: still.Apply(lead.at)}
	out.Runs, out.Bend = across(lead.placed(still), follow.placed(m))
	return out, nil
}

// joinLeads lays the pieces of the leader's side together, each on the one
// before, and the follower to the right of them all.
func (in Input) joinLeads(leads []model.Stretch, follow model.Stretch) (Joined, error) {
	out := Joined{Placement: map[string]geom.Affine{leads[0].Piece: in.Place(leads[0].Piece)}}
	for k := 1; k < len(leads); k++ {
		before, next := leads[k-1], leads[k]
		if _, laid := out.Placement[next.Piece]; laid {
			continue
		}
		one, other, side, err := in.meeting(before, next)
		if err != nil {
			return Joined{}, err
		}
		still := out.Placement[before.Piece]
		m := other.onto(one.placed(still), side)
		out.Placement[next.Piece] = m
		if k == 1 {
			out.At = still.Apply(one.at)
			out.Runs, out.Bend = across(one.placed(still), other.placed(m))
		}
	}
	if _, laid := out.Placement[follow.Piece]; !laid {
		m := in.besideAll(follow.Piece, out.Placement)
		level := in.runBox(leads, out.Placement).Centre().Y - in.runBox([]model.Stretch{follow}, map[string]geom.Affine{follow.Piece: m}).Centre().Y
		out.Placement[follow.Piece] = geom.Translate(geom.Vec{Y: level}).Mul(m)
	}
	return out, nil
}

// meeting is the two seam ends at which two stretches of one leader's side are
// laid together: those of the seam that joins their pieces there. Without such
// a seam they are the stretches' own, the second walked backwards so that the
// line runs straight on; side says on which side of the line the second piece
// then lies, -1 opposite the first.
func (in Input) meeting(before, next model.Stretch) (one, other seamEnd, side float64, err error) {
	a, okA := in.cornerOf(before, To)
	b, okB := in.cornerOf(next, From)
	if !okA || !okB {
		return one, other, 0, errNoSeam
	}
	for _, k := range in.Pattern.Links {
		if k.Kind != model.Sewn || len(k.And) > 0 {
			continue
		}
		for _, end := range []End{From, To} {
			s, t := k.Lead, k.Follow
			if s.Piece != before.Piece {
				s, t = t, s
			}
			if s.Piece != before.Piece || t.Piece != next.Piece || s.Piece == t.Piece {
				continue
			}
			sa, _ := in.cornerOf(s, end)
			tb, _ := in.cornerOf(t, end)
			if sa != a || tb != b {
				continue
			}
			if one, err = in.seamEnd(s, end); err == nil {
				other, err = in.seamEnd(t, end)
			}
			return one, other, -1, err
		}
	}
	if one, err = in.seamEnd(before, To); err == nil {
		other, err = in.seamEnd(next, From)
	}
	one.dir, one.side = one.dir.Scale(-1), -one.side
	return one, other, 1, err
}

// besideAll lays a piece to the right of those laid already, level with them.
func (in Input) besideAll(piece string, laid map[string]geom.Affine) geom.Affine {
	const apart = 60 // mm
	var box geom.Box
	for id, m := range laid {
		box = box.Union(in.boxOf(id, m))
	}
	m := in.Place(piece)
	own := in.boxOf(piece, m)
	return geom.Translate(geom.Vec{X: box.Max.X + apart - own.Min.X, Y: box.Min.Y - own.Min.Y}).Mul(m)
}

// InARow lays pieces beside each other, in the order named and level at their
// heads with the first, which lies where it is.
func (in Input) InARow(pieces []string) map[string]geom.Affine {
	out := map[string]geom.Affine{}
	for _, id := range pieces {
		if len(out) == 0 {
			out[id] = in.Place(id)
			continue
		}
		out[id] = in.besideAll(id, out)
	}
	return out
}

// runBox is the box around stretches on pieces as laid.
func (in Input) runBox(of []model.Stretch, laid map[string]geom.Affine) geom.Box {
	var box geom.Box
	for _, s := range of {
		i := in.Pattern.PieceIndex(s.Piece)
		if i < 0 {
			continue
		}
		r, _ := in.graded(i)
		for _, id := range s.Edges {
			if j := in.Pattern.Pieces[i].EdgeIndex(id); j >= 0 && j < len(r.Edges) {
				box = box.Union(r.Edges[j].Transform(laid[s.Piece]).Bounds())
			}
		}
	}
	return box
}

func (in Input) boxOf(piece string, m geom.Affine) geom.Box {
	var box geom.Box
	if i := in.Pattern.PieceIndex(piece); i >= 0 {
		if r, ok := in.graded(i); ok {
			for _, e := range r.Edges {
				box = box.Union(e.Transform(m).Bounds())
			}
		}
	}
	return box
}

// seamEnd is one end of a stretch on the stitching line: where, in which
// direction the seam leaves it, on which side of the seam the piece lies (1 to
// the right of dir as it is walked, -1 to the left), and which line goes on
// round the corner in which direction.
type seamEnd struct {
	at      geom.Point
	dir     geom.Vec
	side    float64
	next    string
	nextDir geom.Vec
}

// seamEnd is that end of a stretch, in its piece's own coordinates.
func (in Input) seamEnd(s model.Stretch, end End) (seamEnd, error) {
	i := in.Pattern.PieceIndex(s.Piece)
	if i < 0 || len(s.Edges) == 0 {
		return seamEnd{}, errNoSeam
	}
	q := in.Pattern.Pieces[i]
	ring, err := in.stitched(i)
	if err != nil {
		return seamEnd{}, err
	}
	id, forward := s.Edges[0], !s.Reverse
	if end == To {
		id, forward = s.Edges[len(s.Edges)-1], s.Reverse
	}
	j := q.EdgeIndex(id)
	if j < 0 {
		return seamEnd{}, errNoSeam
	}
	n := len(ring)
	line, k := ring[j], (j+n-1)%n
	round := ring[k].Reverse()
	if !forward {
		line, k = ring[j].Reverse(), (j+1)%n
		round = ring[k]
	}
	out := seamEnd{at: line.Start(), next: q.Edges[k].Name, nextDir: round.StartDir()}
	if out.dir, err = firstChord(line); err != nil {
		return seamEnd{}, err
	}
	out.side = math.Copysign(1, geom.Join(ring...).Area())
	if !forward {
		out.side = -out.side
	}
	return out, nil
}

// firstChord is the direction from a line's start to its place a pin on.
func firstChord(line geom.Path) (geom.Vec, error) {
	m, err := geom.Measure(line, joinTol)
	if err != nil {
		return geom.Vec{}, err
	}
	return m.At(math.Min(pin, m.Length())).Sub(line.Start()).Unit(), nil
}

// stitched is the stitching line of piece i, edge by edge, in its own
// coordinates.
func (in Input) stitched(i int) ([]geom.Path, error) {
	q := in.Pattern.Pieces[i]
	r, ok := in.graded(i)
	if !ok {
		return nil, errNoSeam
	}
	inwards := make([]float64, len(q.Edges))
	seamed := false
	for k, e := range q.Edges {
		inwards[k] = -e.Allowance
		seamed = seamed || e.Allowance > 0
	}
	if !seamed {
		return r.Edges, nil
	}
	ring, err := geom.OffsetOutline(r.Edges, inwards, joinTol)
	if err != nil {
		return nil, words.Errorf("the seam allowances of %s do not fit its line", q.Name)
	}
	return ring, nil
}

// cornerOf is the grade point at an end of a stretch.
func (in Input) cornerOf(s model.Stretch, end End) (int, bool) {
	i := in.Pattern.PieceIndex(s.Piece)
	if i < 0 || len(s.Edges) == 0 {
		return 0, false
	}
	q := in.Pattern.Pieces[i]
	id, forward := s.Edges[0], !s.Reverse
	if end == To {
		id, forward = s.Edges[len(s.Edges)-1], s.Reverse
	}
	j := q.EdgeIndex(id)
	if j < 0 {
		return 0, false
	}
	if !forward {
		j = (j + 1) % len(q.Points)
	}
	return j, true
}

// placed takes an end through m, which may turn the piece over.
func (e seamEnd) placed(m geom.Affine) seamEnd {
	e.at, e.dir, e.nextDir = m.Apply(e.at), m.ApplyVec(e.dir), m.ApplyVec(e.nextDir)
	if m.A*m.D-m.B*m.C < 0 {
		e.side = -e.side
	}
	return e
}

// onto is the placement that brings e to the placed end still, line on line;
// side -1 lays its piece on the other side of the seam, 1 on the same.
func (e seamEnd) onto(still seamEnd, side float64) geom.Affine {
	m := geom.Identity()
	if e.side != side*still.side {
		m = geom.ScaleXY(1, -1)
	}
	from := m.ApplyVec(e.dir)
	m = geom.Rotate(math.Atan2(still.dir.Y, still.dir.X) - math.Atan2(from.Y, from.X)).Mul(m)
	return geom.Translate(still.at.Sub(m.Apply(e.at))).Mul(m)
}

// across is the line that runs on over the join of two placed ends, and by how
// many degrees it bends there.
func across(a, b seamEnd) (string, float64) {
	on := b.nextDir.Scale(-1)
	bend := math.Abs(math.Atan2(a.nextDir.Cross(on), a.nextDir.Dot(on))) * 180 / math.Pi
	name := a.next
	if name == "" {
		name = b.next
	}
	return name, bend
}
