package edit

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// smoothBelow is the turn in radians below which a traced corner lies on a
// smooth line, in every size: 8 degrees, more than a hand is off.
const smoothBelow = 8 * math.Pi / 180

// FinishTracing makes a piece of what was traced and puts it on the Shelf, where
// it lies on its picture. The sizes may have been begun at different corners and
// traced either way round. It is an error in plain words, naming the size, where
// a line is still open or has another number of corners than the rest. The first
// piece of a pattern makes its largest size the one that is wanted.
func FinishTracing(id, piece string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.TracingIndex(id)
		if i < 0 {
			return p, words.Error("nothing of that name is being traced")
		}
		t := p.Tracings[i]
		q, err := pieceOf(p, t, piece)
		if err != nil {
			return p, words.Errorf("finishing %s: %w", cmp.Or(t.Name, words.T("the piece")), err)
		}
		p.Tracings = without(p.Tracings, func(o model.Tracing) bool { return o.ID == id })
		if len(p.Pieces) == 0 { // nobody has asked for another size yet
			place, _ := p.Chart.Place(q.Nest[len(q.Nest)-1].Size)
			p.Target.Place = float64(place)
		}
		p.Pieces = append(slices.Clone(p.Pieces), q)
		return p, p.Validate()
	}
}

func pieceOf(p model.Pattern, t model.Tracing, id string) (model.Piece, error) {
	if len(t.Sizes) == 0 {
		return model.Piece{}, words.Error("no size is traced yet")
	}
	first := t.Sizes[0]
	lines := make([]model.TracedSize, len(t.Sizes))
	for k, s := range t.Sizes {
		if !s.Closed {
			return model.Piece{}, words.Errorf("the line of size %s is still open", s.Size)
		}
		if len(s.Corners) != len(first.Corners) {
			return model.Piece{}, words.Errorf("size %s has %d corners and size %s has %d; click the same ones in each", s.Size, len(s.Corners), first.Size, len(first.Corners))
		}
		lines[k] = Alike(s, first)
	}
	slices.SortFunc(lines, func(a, b model.TracedSize) int {
		x, _ := p.Chart.Place(a.Size)
		y, _ := p.Chart.Place(b.Size)
		return cmp.Compare(x, y)
	})
	q := model.Piece{ID: id, Name: cmp.Or(t.Name, words.T("Piece")), Cut: t.Cut, Picture: t.Picture, Lines: t.Lines}
	if k := p.PictureIndex(t.Picture); k >= 0 {
		q.At = p.Pictures[k].At
	}
	for j := range first.Corners {
		e := model.Edge{ID: fmt.Sprintf("e%d", j+1)}
		if j < len(t.Edges) {
			e.Name, e.Kind, e.Allowance = t.Edges[j].Name, t.Edges[j].Kind, t.Edges[j].Allowance
		}
		q.Edges = append(q.Edges, e)
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", j+1), Smooth: smoothAt(lines, j)})
	}
	for _, s := range lines {
		q.Nest = append(q.Nest, model.Outline{Size: s.Size, Edges: s.Edges})
	}
	if err := tracedDarts(&q, t.Darts); err != nil { // first, for it may cut edges in two
		return q, err
	}
	return q, tracedNotches(&q, t.Notches)
}

// Alike is a traced line begun at the corner, and run the way, that the first
// size was: the way round by its area, the corner by the least distances of all
// corners to the first size's.
func Alike(s, first model.TracedSize) model.TracedSize {
	if s.Line().Area()*first.Line().Area() < 0 {
		s = turnedRound(s)
	}
	n := len(s.Corners)
	best, at := math.Inf(1), 0
	for shift := range n {
		var sum float64
		for k := range n {
			d := s.Corners[(k+shift)%n].Dist(first.Corners[k])
			sum += d * d
		}
		if sum < best {
			best, at = sum, shift
		}
	}
	out := model.TracedSize{Size: s.Size, Closed: true}
	for k := range n {
		out.Corners = append(out.Corners, s.Corners[(k+at)%n])
		out.Edges = append(out.Edges, s.Edges[(k+at)%n])
	}
	return out
}

// turnedRound is a traced line run the other way.
func turnedRound(s model.TracedSize) model.TracedSize {
	n := len(s.Corners)
	out := model.TracedSize{Size: s.Size, Closed: true}
	for k := range n {
		out.Corners = append(out.Corners, s.Corners[(n-k)%n])
		out.Edges = append(out.Edges, s.Edges[n-1-k].Reverse())
	}
	return out
}

// smoothAt reports that the line runs smoothly through corner j in every size.
func smoothAt(lines []model.TracedSize, j int) bool {
	for _, s := range lines {
		n := len(s.Edges)
		u, v := s.Edges[(j+n-1)%n].EndDir(), s.Edges[j].StartDir()
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > smoothBelow {
			return false
		}
	}
	return true
}

// tracedNotches puts the notches on the edges they are nearest to. One marked in
// several sizes on the same edge, in the same order, is one notch.
func tracedNotches(q *model.Piece, marks []model.TracedNotch) error {
	const reach = 15 // mm from its line that a notch may be clicked
	type key struct {
		edge, nth int
		double    bool
	}
	at := map[key]int{}
	count := map[string]int{} // of one size on one edge
	for _, m := range marks {
		for _, o := range q.Nest {
			if m.Size != "" && m.Size != o.Size {
				continue
			}
			j, s, off, err := nearestEdge(o.Edges, m.At)
			if err != nil {
				return err
			}
			if off > reach {
				return words.Errorf("a notch lies %.0f mm from the line of size %s; mark it on its line", off, o.Size)
			}
			where := fmt.Sprint(o.Size, " ", j, " ", m.Double)
			k := key{j, count[where], m.Double}
			count[where]++
			n, ok := at[k]
			if !ok {
				n = len(q.Notches)
				at[k] = n
				q.Notches = append(q.Notches, model.Notch{ID: fmt.Sprintf("n%d", n+1), Edge: q.Edges[j].ID, Double: m.Double})
			}
			q.Notches[n].Spots = append(q.Notches[n].Spots, model.Spot{Size: o.Size, S: s})
		}
	}
	return nil
}

// nearestEdge is the edge nearest to a place, how far along it, and how far off.
func nearestEdge(edges []geom.Path, at geom.Point) (j int, s, off float64, err error) {
	off = math.Inf(1)
	for k, e := range edges {
		along, d, err := e.NearestS(at, notchTol)
		if err != nil {
			return 0, 0, 0, err
		}
		if d < off {
			j, s, off = k, along, d
		}
	}
	return j, s, off, nil
}
