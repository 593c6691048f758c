package model

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

const (
	ringTol    = 1e-6 // mm between the end of one edge and the start of the next
	spotSlack  = 0.5  // mm a notch may lie beyond its edge
	lengthTol  = 0.01 // mm, for the length of an edge a notch is near the end of
	leastEdges = 2
)

// pieceChecker looks at one piece.
type pieceChecker struct {
	*checker
	q Piece
}

func (c *pieceChecker) all() {
	q := c.q
	if len(q.Points) != len(q.Edges) || len(q.Edges) < leastEdges {
		c.add(4, "", "", words.F("it has %d grade points and %d edges; they must be as many, at least %d", len(q.Points), len(q.Edges), leastEdges))
	}
	if q.Cut < 0 {
		c.add(4, "", "", words.F("it cannot be cut %d times", q.Cut))
	}
	if q.Lining < 0 {
		c.add(4, "", "", words.F("it cannot be cut %d times in lining", q.Lining))
	}
	if !ordinary(q.At.X) || !ordinary(q.At.Y) {
		c.add(4, "", "", words.T("its place on the Table is no number"))
	}
	ids := idSet{}
	for i, g := range q.Points {
		c.id(ids, g.ID, or(g.Name, words.Text("grade point"), i))
	}
	c.edges()
	c.nest()
	c.lines()
	c.notches()
	c.darts()
	c.hand()
	c.growth()
}

func (c *pieceChecker) id(ids idSet, id, place string) {
	if why := ids.refuses(id); why != "" {
		c.add(3, "", place, why)
	}
}

// or is the name, or "edge 3" where there is none.
func or(name string, kind words.Text, i int) string {
	if name != "" {
		return name
	}
	return fmt.Sprintf("%s %d", kind, i+1)
}

func (c *pieceChecker) edgeName(i int) string { return or(c.q.Edges[i].Name, words.Text("edge"), i) }

func (c *pieceChecker) edges() {
	ids := idSet{}
	for i, e := range c.q.Edges {
		c.id(ids, e.ID, c.edgeName(i))
		if !slices.Contains([]EdgeKind{Plain, Fold, Centre, Hem}, e.Kind) {
			c.add(5, "", c.edgeName(i), words.F("%q is no kind of edge", e.Kind))
		}
		if !(e.Allowance >= 0 && e.Allowance < MaxAllowance) {
			c.add(5, "", c.edgeName(i), words.F("a seam allowance of %v mm cannot be: it is from 0 to below %d", e.Allowance, MaxAllowance))
		}
	}
}

func (c *pieceChecker) nest() {
	if len(c.q.Nest) == 0 {
		c.add(6, "", "", words.T("no size of it is printed"))
	}
	before := -1
	for _, o := range c.q.Nest {
		for _, size := range o.Sizes() {
			place, ok := c.p.Chart.Place(size)
			switch {
			case !ok:
				c.add(6, size, "", words.T("the chart has no such size"))
			case place <= before:
				c.add(6, size, "", words.T("printed sizes must go from the smallest up, each once"))
			default:
				before = place
			}
		}
		c.outline(o)
	}
}

func (c *pieceChecker) outline(o Outline) {
	n := len(o.Edges)
	if n != len(c.q.Edges) {
		c.add(7, o.Size, "", words.F("its line has %d edges, the piece %d", n, len(c.q.Edges)))
		return
	}
	whole := true
	for i, e := range o.Edges {
		if !c.path(7, o.Size, c.edgeName(i), e) {
			whole = false
		}
	}
	if !whole {
		return
	}
	for i, e := range o.Edges {
		next := (i + 1) % n
		if gap := e.End().Dist(o.Edges[next].Start()); gap > ringTol {
			c.add(7, o.Size, c.edgeName(i), words.F("it ends %.3g mm from where %s starts", gap, c.edgeName(next)))
		}
	}
}

// path reports whether a path is there and whole, and adds what it lacks.
func (c *pieceChecker) path(rule int, size, place string, path geom.Path) bool {
	if len(path) == 0 {
		c.add(rule, size, place, words.T("there is no line"))
		return false
	}
	if err := path.Validate(); err != nil {
		c.add(rule, size, place, err.Error())
		return false
	}
	return true
}

func (c *pieceChecker) lines() {
	ids := idSet{}
	kinds := []LineKind{Grain, Lengthen, BustLine, WaistLine, HipLine, FoldLine, DartLine, Inner}
	for i, l := range c.q.Lines {
		place := or(l.Name, words.Text("line"), i)
		c.id(ids, l.ID, place)
		if !slices.Contains(kinds, l.Kind) {
			c.add(5, "", place, words.F("%q is no kind of line", l.Kind))
		}
		sizes := sizeSet{}
		for _, d := range l.Drawn {
			c.size(8, sizes, d.Size, place)
			c.path(8, d.Size, place, d.Path)
		}
	}
}

// sizeSet is the sizes met so far.
type sizeSet map[string]bool

// size adds what is wrong with a mark's size: off the chart, or met before.
func (c *pieceChecker) size(rule int, met sizeSet, size, place string) {
	if _, ok := c.p.Chart.Place(size); size != "" && !ok {
		c.add(rule, size, place, words.T("the chart has no such size"))
	}
	if met[size] {
		c.add(rule, size, place, words.T("it is marked twice in this size"))
	}
	met[size] = true
}

func (c *pieceChecker) notches() {
	ids := idSet{}
	for i, n := range c.q.Notches {
		place := words.F("notch %d", i+1)
		c.id(ids, n.ID, place)
		edge := c.q.EdgeIndex(n.Edge)
		if edge < 0 {
			c.add(9, "", place, words.T("the edge it is on is not there"))
			continue
		}
		place = words.F("notch %d on %s", i+1, c.edgeName(edge))
		if len(n.Spots) == 0 {
			c.add(9, "", place, words.T("it is marked in no size"))
		}
		sizes := sizeSet{}
		for _, s := range n.Spots {
			c.size(9, sizes, s.Size, place)
			c.spot(s, edge, place)
		}
	}
}

// spot looks whether s lies on the edge in every printed size it is for.
func (c *pieceChecker) spot(s Spot, edge int, place string) {
	if !ordinary(s.S) || s.S < -spotSlack {
		c.add(9, s.Size, place, words.F("it cannot lie %v mm from the edge's start", s.S))
		return
	}
	for _, o := range c.q.Nest {
		if s.Size != "" && s.Size != o.Size || edge >= len(o.Edges) {
			continue
		}
		if !reaches(o.Edges[edge], s.S-spotSlack) {
			c.add(9, o.Size, place, words.F("it lies %s mm from the edge's start, beyond its end", words.Figure(s.S, 1)))
		}
	}
}

// reaches reports whether path is at least s mm long. The chords are shorter
// than the path, so most answers need no measuring. A path that cannot be
// measured is not this rule's matter.
func reaches(path geom.Path, s float64) bool {
	var chords float64
	for _, k := range path {
		chords += k.P0.Dist(k.P3)
	}
	if s <= chords {
		return true
	}
	length, err := path.Length(lengthTol)
	return err != nil || s <= length
}

func (c *pieceChecker) darts() {
	ids := idSet{}
	for i, d := range c.q.Darts {
		place := or(d.Name, words.Text("dart"), i)
		c.id(ids, d.ID, place)
		if d.From == d.To || c.q.PointIndex(d.From) < 0 || c.q.PointIndex(d.To) < 0 {
			c.add(10, "", place, words.T("its legs must end at two grade points of the piece"))
		}
		if len(d.Apex) == 0 {
			c.add(10, "", place, words.T("it has no point"))
		}
		sizes := sizeSet{}
		for _, a := range d.Apex {
			c.size(10, sizes, a.Size, place)
			if !a.At.Finite() {
				c.add(10, a.Size, place, words.T("the place of its point is no number"))
			}
		}
	}
}
