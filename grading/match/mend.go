package match

import (
	"fmt"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const (
	// grip is how near in mm to a drawn corner a point put by hand is set on
	// it; corners turn by at least gripTurn.
	grip     = 4.0
	gripTurn = 5 * degree
	// tooNear is how near in mm two grade points of a line may not lie.
	tooNear = 1.0
	// offLine is how far in mm from a size's line a place may be pointed at.
	offLine = 25.0
)

// AddPoint gives a piece a grade point where the line of one printed size is
// nearest to at (mm, the piece's own coordinates), on the drawn corner there if
// one is within 4 mm. In the other sizes it is put at the same share of its
// edge. The edge's first part keeps its name and ID; notches stay where they
// are; hand corrections are carried as splitHand says. It is an error where the
// size is not printed, at lies further than 25 mm from its line, or a grade
// point is there already.
//
// Links name edges, so they must be brought in line: see Relink.
func AddPoint(q model.Piece, size string, at geom.Point) (model.Piece, error) {
	o, ok := q.Printed(size)
	if !ok {
		return q, words.Errorf("%s is not printed in size %s", q.Name, size)
	}
	k, s, err := nearestEdge(o, at)
	if err != nil {
		return q, words.Errorf("adding a grade point to %s, size %s: %w", q.Name, size, err)
	}
	s, corner, err := gripped(o.Edges[k], s)
	if err != nil {
		return q, words.Errorf("adding a grade point to %s, size %s: %w", q.Name, size, err)
	}
	whole, err := o.Edges[k].Length(ringTol)
	if err != nil {
		return q, words.Errorf("adding a grade point to %s, size %s: %w", q.Name, size, err)
	}
	cuts := make([]cutAt, len(q.Nest))
	for i, other := range q.Nest {
		c, err := cutShare(other.Edges[k], s/whole, corner)
		if other.Size == o.Size {
			c, err = cutPlace(other.Edges[k], s)
		}
		if err != nil {
			return q, words.Errorf("adding a grade point to %s, size %s: %w", q.Name, other.Size, err)
		}
		cuts[i] = c
	}
	return split(q, k, cuts, !corner), nil
}

// cutAt is an edge in two parts; s is the length of the first in mm.
type cutAt struct {
	s, whole float64
	a, b     geom.Path
}

func nearestEdge(o model.Outline, at geom.Point) (k int, s float64, err error) {
	least := math.Inf(1)
	for i, e := range o.Edges {
		place, d, err := e.NearestS(at, ringTol)
		if err != nil {
			return 0, 0, err
		}
		if d < least {
			k, s, least = i, place, d
		}
	}
	if least > offLine {
		return 0, 0, words.Errorf("point at the line itself; this place is %.0f mm away", least)
	}
	return k, s, nil
}

// gripped is s, or the drawn corner near it.
func gripped(e geom.Path, s float64) (at float64, corner bool, err error) {
	m, err := geom.Measure(e, ringTol)
	if err != nil {
		return 0, false, err
	}
	at, least := s, grip
	for i := 1; i < len(e); i++ {
		turn := math.Abs(turnOf(e[i-1:i].EndDir(), e[i:i+1].StartDir()))
		if d := math.Abs(m.To(i, 0) - s); d < least && turn >= gripTurn {
			at, least, corner = m.To(i, 0), d, true
		}
	}
	return at, corner, nil
}

func cutShare(e geom.Path, share float64, corner bool) (cutAt, error) {
	whole, err := e.Length(ringTol)
	if err != nil {
		return cutAt{}, err
	}
	s := share * whole
	if corner {
		if s, _, err = gripped(e, s); err != nil {
			return cutAt{}, err
		}
	}
	return cutPlace(e, s)
}

func cutPlace(e geom.Path, s float64) (cutAt, error) {
	whole, err := e.Length(ringTol)
	if err != nil {
		return cutAt{}, err
	}
	if s < tooNear || whole-s < tooNear {
		return cutAt{}, words.Error("there is a grade point here already")
	}
	a, b, err := e.SplitAt(s, ringTol)
	return cutAt{s: s, whole: whole, a: a, b: b}, err
}

// split puts a grade point on edge k of every size.
func split(q model.Piece, k int, cuts []cutAt, smooth bool) model.Piece {
	old := q.Edges[k]
	fresh := old
	fresh.ID = freshID("e", func(id string) bool { return q.EdgeIndex(id) >= 0 })
	if old.Name != "" {
		fresh.Name = old.Name + " 2"
	}
	point := model.GradePoint{ID: freshID("p", func(id string) bool { return q.PointIndex(id) >= 0 }), Smooth: smooth}
	q.Edges = slices.Insert(slices.Clone(q.Edges), k+1, fresh)
	q.Points = slices.Insert(slices.Clone(q.Points), k+1, point)
	q.Nest = slices.Clone(q.Nest)
	for i, c := range cuts {
		q.Nest[i].Edges = slices.Insert(slices.Clone(q.Nest[i].Edges), k+1, c.b)
		q.Nest[i].Edges[k] = c.a
	}
	q.Notches = splitNotches(q, old.ID, fresh.ID, cuts)
	q.Hand = splitHand(q.Hand, old.ID, fresh.ID)
	return q
}

func freshID(letter string, used func(string) bool) string {
	for n := 1; ; n++ {
		if id := fmt.Sprintf("%s%d", letter, n); !used(id) {
			return id
		}
	}
}

// RemovePoint takes a grade point out of a piece: the edges on its two sides
// become one with the name and ID of the first. Notches stay where they are;
// typed gaps of the point are dropped, hand corrections carried as mergeHand
// says. It is an error for a dart's leg and where only two grade points are left.
func RemovePoint(q model.Piece, point string) (model.Piece, error) {
	k := q.PointIndex(point)
	if k < 0 {
		return q, words.Errorf("%s has no such grade point", q.Name)
	}
	if len(q.Points) <= 2 {
		return q, words.Errorf("%s needs at least two grade points", q.Name)
	}
	for _, d := range q.Darts {
		if d.From == point || d.To == point {
			return q, words.Errorf("a dart of %s ends at this grade point; it must stay", q.Name)
		}
	}
	n := len(q.Edges)
	before := (k + n - 1) % n
	kept, gone := q.Edges[before], q.Edges[k]
	if kept.Kind != gone.Kind {
		kept.Kind = model.Plain
	}
	var err error
	if q.Notches, err = mergeNotches(q, before, k); err != nil {
		return q, words.Errorf("removing a grade point of %s: %w", q.Name, err)
	}
	q.Nest = slices.Clone(q.Nest)
	for i, o := range q.Nest {
		edges := slices.Clone(o.Edges)
		edges[before] = geom.Join(o.Edges[before], o.Edges[k])
		q.Nest[i].Edges = slices.Delete(edges, k, k+1)
	}
	q.Edges = slices.Clone(q.Edges)
	q.Edges[before] = kept
	q.Edges = slices.Delete(q.Edges, k, k+1)
	q.Points = slices.Delete(slices.Clone(q.Points), k, k+1)
	q.Gaps = slices.DeleteFunc(slices.Clone(q.Gaps), func(g model.Gap) bool { return g.Point == point })
	q.Hand = mergeHand(q.Hand, point, kept.ID, gone.ID)
	return q, nil
}

// MovePoint moves a grade point of one printed size along that size's line to
// where it is nearest to at (mm, the piece's own coordinates), on the drawn
// corner there if one is within 4 mm. It cannot pass the grade points beside
// it. The other sizes stay as they are; so do notches, except that one the
// point has passed is put at the point.
func MovePoint(q model.Piece, point, size string, at geom.Point) (model.Piece, error) {
	k := q.PointIndex(point)
	i := slices.IndexFunc(q.Nest, func(o model.Outline) bool { return slices.Contains(o.Sizes(), size) })
	if k < 0 || i < 0 {
		return q, words.Errorf("%s has no such grade point in size %s", q.Name, size)
	}
	n := len(q.Edges)
	before := (k + n - 1) % n
	old := q.Nest[i].Edges
	was, err := old[before].Length(ringTol)
	if err != nil {
		return q, words.Errorf("moving a grade point of %s, size %s: %w", q.Name, size, err)
	}
	both := geom.Join(old[before], old[k])
	_, s, err := nearestEdge(model.Outline{Edges: []geom.Path{both}}, at)
	if err == nil {
		s, _, err = gripped(both, s)
	}
	var c cutAt
	if err == nil {
		c, err = cutPlace(both, s)
	}
	if err != nil {
		return q, words.Errorf("moving a grade point of %s, size %s: %w", q.Name, size, err)
	}
	q.Nest = slices.Clone(q.Nest)
	q.Nest[i].Edges = slices.Clone(old)
	q.Nest[i].Edges[before], q.Nest[i].Edges[k] = c.a, c.b
	q.Notches = shiftNotches(q, before, k, q.Nest[i].Size, was, c)
	return q, nil
}
