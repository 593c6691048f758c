package edit

import (
	"cmp"
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// legReach is how near, in mm, the leg of a dart ends to a corner that was clicked
// for it; farther off the edge is cut there.
const legReach = 4

// legEnd is where a leg of a dart ends on the outline: at the corner where edge
// begins, or share of the way along it.
type legEnd struct {
	edge  int
	share float64
}

func (l legEnd) place() float64 { return float64(l.edge) + l.share }

// slot is what legs of one dart have alike in every size: its edge, and whether it
// is the edge's beginning.
func (l legEnd) slot() [2]int {
	if l.share > 0 {
		return [2]int{l.edge, 1}
	}
	return [2]int{l.edge, 0}
}

// sizedDart is a dart as marked in one size.
type sizedDart struct {
	nest     int // index of the outline it was marked on
	from, to legEnd
	apex     model.SizedPoint
}

// tracedDart is a dart with what was marked of it, size by size.
type tracedDart struct {
	name  string
	marks []sizedDart
}

// tracedDarts stands the darts between their leg ends: the corners that were
// clicked there, else the edge is cut there, in sizes in which the dart was not
// marked at the same share of the edge. One marked in several sizes at the same
// place of the outline is one dart.
func tracedDarts(q *model.Piece, marks []model.TracedDart) error {
	darts, err := gatheredDarts(*q, marks)
	if err != nil {
		return err
	}
	points, err := cutForDarts(q, darts)
	if err != nil {
		return err
	}
	for i, d := range darts {
		out := model.Dart{ID: fmt.Sprintf("d%d", i+1), Name: cmp.Or(d.name, words.T("dart")), From: points[i][0], To: points[i][1]}
		for _, m := range d.marks {
			out.Apex = append(out.Apex, m.apex)
		}
		q.Darts = append(q.Darts, out)
	}
	return nil
}

// gatheredDarts puts together what was marked of each dart.
func gatheredDarts(q model.Piece, marks []model.TracedDart) ([]tracedDart, error) {
	type key struct {
		from, to [2]int
		nth      int
	}
	at, count := map[key]int{}, map[string]int{}
	var out []tracedDart
	for _, m := range marks {
		k := max(slices.IndexFunc(q.Nest, func(o model.Outline) bool { return o.Size == m.Size }), 0)
		o := q.Nest[k]
		from, err := legOn(o, m.From)
		if err != nil {
			return nil, err
		}
		to, err := legOn(o, m.To)
		if err != nil {
			return nil, err
		}
		if from == to {
			return nil, words.Errorf("the two legs of a dart end at one corner of size %s", o.Size)
		}
		if n := float64(len(q.Edges)); around(to.place()-from.place(), n) > n/2 {
			from, to = to, from
		}
		d := sizedDart{nest: k, from: from, to: to, apex: model.SizedPoint{Size: m.Size, At: m.Apex}}
		name := key{from: from.slot(), to: to.slot()}
		where := fmt.Sprint(o.Size, name)
		if from.share > 0 && to.share > 0 { // an edge may have several
			name.nth = count[where]
			count[where]++
		}
		i, ok := at[name]
		if !ok {
			i = len(out)
			at[name] = i
			out = append(out, tracedDart{name: m.Name})
		}
		out[i].marks = append(out[i].marks, d)
	}
	return out, nil
}

// around is v brought to the way once round of length n.
func around(v, n float64) float64 {
	if v < 0 {
		return v + n
	}
	return v
}

// legOn is where on an outline a leg ends.
func legOn(o model.Outline, at geom.Point) (legEnd, error) {
	c := nearestStart(o.Edges, at)
	if o.Edges[c].Start().Dist(at) <= legReach {
		return legEnd{edge: c}, nil
	}
	j, s, off, err := nearestEdge(o.Edges, at)
	if err != nil {
		return legEnd{}, err
	}
	const reach = 15 // mm from its line that a leg's end may be clicked
	if off > reach {
		return legEnd{}, words.Errorf("a leg of a dart ends %.0f mm from the line of size %s; mark it on its line", off, o.Size)
	}
	long, err := o.Edges[j].Length(notchTol)
	if err != nil {
		return legEnd{}, err
	}
	if s < notchTol || s > long-notchTol {
		return legEnd{edge: c}, nil
	}
	return legEnd{edge: j, share: s / long}, nil
}

// nearestStart is the edge that begins nearest to a place.
func nearestStart(edges []geom.Path, at geom.Point) int {
	best := 0
	for j, e := range edges {
		if e.Start().Dist(at) < edges[best].Start().Dist(at) {
			best = j
		}
	}
	return best
}

// cut is a place at which an edge is cut in every size: the end of a leg of a dart.
type cut struct {
	dart, leg int
	edge      int
	shares    []float64 // by the piece's outlines
}

// cutForDarts cuts the edges on which legs end and says at which grade points the
// legs of each dart end then.
func cutForDarts(q *model.Piece, darts []tracedDart) ([][2]string, error) {
	ends := make([][2]string, len(darts))
	var cuts []cut
	for i, d := range darts {
		for leg, l := range []legEnd{d.marks[0].from, d.marks[0].to} {
			if l.share == 0 {
				ends[i][leg] = q.Points[l.edge].ID
				continue
			}
			cuts = append(cuts, cut{dart: i, leg: leg, edge: l.edge, shares: d.shares(leg, len(q.Nest))})
		}
	}
	slices.SortFunc(cuts, func(a, b cut) int {
		return cmp.Or(cmp.Compare(b.edge, a.edge), cmp.Compare(b.shares[0], a.shares[0]))
	})
	for i, c := range cuts { // from the last, so that those before it keep their places
		id, err := cutEdge(q, c, cuts[:i])
		if err != nil {
			return nil, err
		}
		ends[c.dart][c.leg] = id
	}
	return ends, nil
}

// shares are how far along its edge a leg ends in each of n outlines: as marked,
// else as in the nearest one in which it is.
func (d tracedDart) shares(leg, n int) []float64 {
	out := make([]float64, n)
	for k := range out {
		best := d.marks[0]
		for _, m := range d.marks {
			if abs(m.nest-k) < abs(best.nest-k) {
				best = m
			}
		}
		out[k] = []legEnd{best.from, best.to}[leg].share
	}
	return out
}

func abs(n int) int { return max(n, -n) }

// cutEdge cuts an edge in two in every outline and gives the grade point there an
// ID of its own. Later cuts of the same edge were made already.
func cutEdge(q *model.Piece, c cut, made []cut) (string, error) {
	point := model.GradePoint{ID: fmt.Sprintf("p%d", len(q.Points)+1)}
	edge := q.Edges[c.edge]
	edge.ID = fmt.Sprintf("e%d", len(q.Edges)+1)
	for k := range q.Nest {
		upTo := 1.0
		for _, m := range made {
			if m.edge == c.edge {
				upTo = min(upTo, m.shares[k])
			}
		}
		if c.shares[k] >= upTo {
			return "", words.Errorf("the darts of size %s lie in another order than those of size %s", q.Nest[k].Size, q.Nest[0].Size)
		}
		path := q.Nest[k].Edges[c.edge]
		long, err := path.Length(notchTol)
		if err != nil {
			return "", err
		}
		before, after, err := path.SplitAt(long*c.shares[k]/upTo, notchTol)
		if err != nil {
			return "", err
		}
		q.Nest[k].Edges = slices.Replace(slices.Clone(q.Nest[k].Edges), c.edge, c.edge+1, before, after)
	}
	q.Edges = slices.Insert(slices.Clone(q.Edges), c.edge+1, edge)
	q.Points = slices.Insert(slices.Clone(q.Points), c.edge+1, point)
	return point.ID, nil
}
