package model

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// key tells the corrections of one thing apart.
type key struct{ of, stage, style string }

func (c *pieceChecker) hand() {
	h := c.q.Hand
	c.curves()
	met := map[key]bool{}
	for _, m := range h.Moves {
		c.correction(met, key{m.Point, m.Stage, m.Style}, c.q.PointIndex(m.Point), pointKind, finiteVec(m.By))
	}
	met = map[key]bool{}
	for _, s := range h.Shifts {
		c.correction(met, key{s.Edge, s.Stage, ""}, c.q.EdgeIndex(s.Edge), edgeKind, ordinary(s.Out))
	}
	met = map[key]bool{}
	for _, s := range h.Shapes {
		whole := !slices.ContainsFunc(s.By, func(v geom.Vec) bool { return !finiteVec(v) })
		c.correction(met, key{s.Edge, s.Stage, ""}, c.q.EdgeIndex(s.Edge), edgeKind, whole)
	}
	met = map[key]bool{}
	for _, p := range h.Through {
		c.correction(met, key{of: p}, c.q.PointIndex(p), pointKind, true)
	}
}

func (c *pieceChecker) curves() {
	met := map[key]bool{}
	for _, e := range c.q.Hand.Curves {
		_, printed := c.q.Printed(e.Size)
		known := e.Kind == NearestCurve || e.Kind == StraightCurve || e.Kind == PrintedCurve && printed
		c.correction(met, key{of: e.Edge}, c.q.EdgeIndex(e.Edge), edgeKind, known)
	}
}

// The two kinds of thing a hand corrects.
const (
	pointKind words.Text = "grade point"
	edgeKind  words.Text = "edge"
)

// correction adds what is wrong with one correction of the i-th point or edge;
// below 0 it is not there.
func (c *pieceChecker) correction(met map[key]bool, k key, i int, kind words.Text, whole bool) {
	if i < 0 {
		say := words.T("a corrected grade point is not there")
		if kind == edgeKind {
			say = words.T("a corrected edge is not there")
		}
		c.add(11, "", words.T("hand corrections"), say)
		return
	}
	place := ""
	if kind == edgeKind { // a piece may have more edges than points
		place = or(c.q.Edges[i].Name, kind, i)
	} else {
		place = or(c.q.Points[i].Name, kind, i)
	}
	if _, ok := c.p.Chart.Place(k.stage); k.stage != "" && !ok {
		c.add(11, k.stage, place, words.T("it was corrected at a size the chart does not have"))
	}
	if met[k] || !whole {
		c.add(11, "", place, words.T("its correction must be one, by an ordinary amount"))
	}
	met[k] = true
}

// growth looks at the typed gaps and the cuts.
func (c *pieceChecker) growth() {
	met := map[string]bool{}
	for _, g := range c.q.Gaps {
		i := c.q.PointIndex(g.Point)
		if i < 0 {
			c.add(13, "", words.T("typed gaps"), words.T("a grade point one is of is not there"))
			continue
		}
		if met[g.Point] || !ordinary(g.Across) || !ordinary(g.Along) {
			c.add(13, "", or(c.q.Points[i].Name, pointKind, i), words.T("its typed gap must be one, by an ordinary amount"))
		}
		met[g.Point] = true
	}
	ids := idSet{}
	for i, cut := range c.q.Cuts {
		place := or("", words.Text("cut line"), i)
		c.id(ids, cut.ID, place)
		if !cut.From.Finite() || !cut.To.Finite() || cut.From.Dist(cut.To) < cutLeast || cut.Measure == "" || !ordinary(cut.Share) {
			c.add(13, "", place, words.F("it must have a length of at least %v mm, a measure and a share", cutLeast))
		}
	}
}

// cutLeast is how long, in mm, a cut line is at least.
const cutLeast = 1.0

func finiteVec(v geom.Vec) bool { return ordinary(v.X) && ordinary(v.Y) }
