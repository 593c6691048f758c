package model

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// What a pattern may hold at most: many times what any garment has, and little
// enough to be graded, checked and laid on pages without waiting. A spoilt or
// hostile file could else keep the program busy for hours.
const (
	mostSizes   = 200
	mostPieces  = 500
	mostLinks   = 5000
	mostOthers  = 1000 // lengthenings, pictures, tracings
	mostPoints  = 300  // of a piece; what it has of anything else is bounded by mostMarks
	mostMarks   = 500
	mostLines   = 20_000  // on a piece: a drawing may have its words as lines
	mostInAll   = 3000    // grade points of all pieces
	mostDrawn   = 40_000  // edges of all pieces in all their printed sizes
	mostCurves  = 200_000 // of all lines together
	mostOfEdge  = 2000    // of an edge in one size
	mostOfPath  = 20_000  // of one other line
	longestWord = 1000    // bytes of a name or an ID
	longestNote = 100_000
	mostCut     = 1000

	// farthest is how far in mm from the corner of the Table anything may lie, and
	// the most that a number of a pattern may be.
	farthest = 1e6
)

// sizes looks whether the pattern is of a size that can be worked with. It
// reports false where it is not: the other rules are then not looked at.
func (c *checker) sizes() bool {
	p := c.p
	c.atMost("", len(p.Chart.Sizes), mostSizes, words.T("sizes on its chart"))
	c.atMost("", len(p.Chart.Measures), mostSizes, words.T("measures on its chart"))
	c.atMost("", len(p.Target.Body), mostSizes, words.T("measurements of the wearer"))
	c.atMost("", len(p.Limits), mostSizes, words.T("limits of checks"))
	c.atMost("", len(p.Pieces), mostPieces, words.T("pieces"))
	c.atMost("", len(p.Links), mostLinks, words.T("links"))
	c.atMost("", len(p.Lengths), mostOthers, words.T("lengthenings"))
	c.atMost("", len(p.Pictures), mostOthers, words.T("pictures"))
	c.atMost("", len(p.Tracings), mostOthers, words.T("tracings"))
	if len(c.found) > 0 {
		return false
	}
	c.words("", p.Name, p.Chart.ID, p.Chart.Name, p.Target.Wearer)
	if len(p.Note)+len(p.Chart.Source)+len(p.Chart.Status) > longestNote {
		c.add(17, "", "", words.F("its note is longer than %d letters; shorten it", longestNote))
	}
	for _, s := range p.Chart.Sizes {
		c.atMost("", len(s.Body), mostSizes, words.F("measures in size %s", c.shown(s.Name)))
		c.words(words.T("size chart"), s.Name, s.Alt)
	}
	curves, points, drawn := 0, 0, 0
	for _, q := range p.Pieces {
		points += len(q.Points)
		drawn += len(q.Edges) * len(q.Nest)
		c.pieceSize(q, &curves)
	}
	for _, l := range p.Links {
		c.stretchSizes(append(l.Leads(), l.Follow)...)
	}
	for _, l := range p.Lengths {
		c.atMost(c.shown(l.Name), len(l.Lines), mostMarks, words.T("lines"))
		c.stretchSizes(l.Hems...)
		c.words(words.T("lengthening"), l.ID, l.Name)
	}
	for _, q := range p.Pictures {
		c.words(words.T("picture"), q.ID, q.Name)
	}
	for _, t := range p.Tracings {
		c.tracingSize(t, &curves)
	}
	c.atMost("", points, mostInAll, words.T("grade points"))
	c.atMost("", drawn, mostDrawn, words.T("edges in all printed sizes"))
	if curves > mostCurves {
		c.add(17, "", "", words.F("its lines have %d curves, at most %d can be worked with; draw them with fewer", curves, mostCurves))
	}
	return len(c.found) == 0
}

// atMost adds where there are more of something than may be.
func (c *checker) atMost(place string, n, most int, what string) {
	if n > most {
		c.add(17, "", place, words.F("it has %d %s, more than the %d that can be worked with", n, what, most))
	}
}

// words adds where a name is longer than any.
func (c *checker) words(place string, names ...string) {
	for _, s := range names {
		if len(s) > longestWord {
			c.add(17, "", place, words.F("the name “%s” is longer than %d letters; shorten it", c.shown(s), longestWord))
		}
	}
}

// shown is the beginning of a name, short enough to be told.
func (c *checker) shown(s string) string {
	const most = 60
	if r := []rune(s[:min(len(s), 4*most)]); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

func (c *checker) stretchSizes(all ...Stretch) {
	c.atMost("", len(all), mostPoints, words.T("ends of a link"))
	for _, s := range all {
		c.atMost("", len(s.Edges), mostPoints, words.T("edges in a link"))
	}
}

func (c *checker) pieceSize(q Piece, curves *int) {
	c.piece = c.shown(q.Name)
	defer func() { c.piece = "" }()
	c.words("", q.ID, q.Name)
	c.atMost("", max(len(q.Points), len(q.Edges)), mostPoints, words.T("grade points"))
	c.atMost("", len(q.Nest), mostSizes, words.T("printed lines"))
	c.atMost("", len(q.Lines), mostLines, words.T("lines"))
	h := q.Hand
	for _, n := range []int{len(q.Notches), len(q.Darts), len(q.Cuts), len(q.Gaps), len(h.Moves), len(h.Shifts), len(h.Shapes), len(h.Curves), len(h.Through)} {
		c.atMost("", n, mostMarks, words.T("marks or corrections of one kind"))
	}
	if q.Cut > mostCut || q.Lining > mostCut {
		c.add(17, "", "", words.F("it cannot be cut more than %d times", mostCut))
	}
	for i, e := range q.Edges[:min(len(q.Edges), mostPoints)] {
		c.words("", e.ID, e.Name)
		if i < len(q.Points) {
			c.words("", q.Points[i].ID, q.Points[i].Name)
		}
	}
	for _, o := range q.Nest {
		c.atMost("", len(o.Also), mostSizes, words.T("sizes on one line"))
		c.pathSizes("", o.Size, mostOfEdge, o.Edges, curves)
	}
	for _, l := range q.Lines {
		c.words("", l.ID, l.Name)
		c.atMost("", len(l.Drawn), mostSizes, words.T("sizes of a line"))
		for _, d := range l.Drawn {
			c.pathSizes("", d.Size, mostOfPath, []geom.Path{d.Path}, curves)
		}
	}
	for _, n := range q.Notches {
		c.atMost("", len(n.Spots), mostSizes, words.T("sizes of a notch"))
	}
	for _, d := range q.Darts {
		c.words("", d.ID, d.Name)
		c.atMost("", len(d.Apex), mostSizes, words.T("sizes of a dart"))
		for _, a := range d.Apex {
			c.within("", a.Size, a.At)
		}
	}
	for _, cut := range q.Cuts {
		c.within("", "", cut.From, cut.To)
	}
	for _, s := range h.Shapes {
		c.atMost("", len(s.By), 3*mostOfEdge+1, words.T("places of a correction"))
	}
}

func (c *checker) tracingSize(t Tracing, curves *int) {
	place := c.shown(t.Name)
	c.words(place, t.ID, t.Name)
	c.atMost(place, len(t.Sizes), mostSizes, words.T("sizes"))
	for _, n := range []int{len(t.Edges), len(t.Notches), len(t.Darts)} {
		c.atMost(place, n, mostMarks, words.T("marks of one kind"))
	}
	c.atMost(place, len(t.Lines), mostLines, words.T("lines"))
	for _, e := range t.Edges {
		c.words(place, e.ID, e.Name)
	}
	for _, s := range t.Sizes {
		c.atMost(place, len(s.Corners), mostPoints, words.T("corners"))
		c.within(place, s.Size, s.Corners...)
		c.pathSizes(place, s.Size, mostOfEdge, s.Edges, curves)
	}
	for _, l := range t.Lines {
		for _, d := range l.Drawn {
			c.pathSizes(place, d.Size, mostOfPath, []geom.Path{d.Path}, curves)
		}
	}
	for _, n := range t.Notches {
		c.within(place, n.Size, n.At)
	}
	for _, d := range t.Darts {
		c.within(place, d.Size, d.From, d.Apex, d.To)
	}
}

// pathSizes counts the curves of lines, at most so many each, and looks where
// they run.
func (c *checker) pathSizes(place, size string, most int, paths []geom.Path, curves *int) {
	c.atMost(place, len(paths), mostPoints, words.T("edges in a line"))
	for _, p := range paths {
		c.atMost(place, len(p), most, words.T("curves in a line"))
		if *curves += len(p); *curves > mostCurves {
			return
		}
		for _, k := range p {
			if !c.within(place, size, k.P0, k.P1, k.P2, k.P3) {
				break
			}
		}
	}
}

// within adds where a place is farther away than any paper. What is no number
// is told by the other rules.
func (c *checker) within(place, size string, at ...geom.Point) bool {
	for _, p := range at {
		if math.Abs(p.X) > farthest || math.Abs(p.Y) > farthest {
			c.add(17, size, place, words.F("something on it lies at (%.3g, %.3g) mm, where no paper is", p.X, p.Y))
			return false
		}
	}
	return true
}
