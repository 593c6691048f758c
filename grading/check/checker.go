package check

import (
	"maps"
	"slices"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
)

// Checker looks patterns over and remembers what it measured of their print,
// so that looking again for a new target or after a correction is quick. The
// zero Checker is ready; it is not safe for use from two goroutines at once.
type Checker struct {
	Tape   girth.Tape
	bends  printedBends
	print  printedLines
	walks  seamPrints
	girths measured
	// pieces is what was found on each piece's line, by the piece's ID.
	pieces map[string]*remembered
}

// Findings is Checker.Findings for once.
func Findings(p model.Pattern, r grading.Result) []Finding {
	return new(Checker).Findings(p, r)
}

// Findings looks over result r of pattern p, graded for p's target.
func (c *Checker) Findings(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	for _, k := range c.Look(p, r) {
		out = append(out, k.Findings...)
	}
	return out
}

// Look looks over result r of pattern p, graded for p's target: every check
// that applies to it, whether it found something or not.
func (c *Checker) Look(p model.Pattern, r grading.Result) []Checked {
	l := c.over(p, r)
	outlines := l.outlines()
	l.leaveOut(outlines.Findings)
	out := l.seams()
	c.girths = l.measure(&c.Tape)
	out = append(out, l.girths(c.girths)...)
	for _, look := range []func() Checked{
		l.smooth, l.joins, l.square, l.centre, l.hems, l.notches, l.lengths, l.darts, func() Checked { return outlines }, l.againstPrint, l.reach,
	} {
		if k := look(); k.Title != "" || len(k.Findings) > 0 {
			out = append(out, k)
		}
	}
	return out
}

// measured is the girths of the pattern looked over last, as girth.Tape.Table has them.
type measured struct {
	rows    []girth.Row
	missing []girth.Missing
	err     error
}

// Girths is what Tape.Table says of the pattern looked over last, without measuring
// it again.
func (c *Checker) Girths() (rows []girth.Row, missing []girth.Missing, err error) {
	return c.girths.rows, c.girths.missing, c.girths.err
}

// looking is one looking over: a pattern, its result, and the lines found.
type looking struct {
	p     model.Pattern
	r     grading.Result
	lines *stitching
	most  printedBends
	walks seamPrints
	seen  []*remembered // by piece
	// broken is the pieces whose outline cannot be cut: what else is wrong with
	// them comes of that.
	broken map[string]bool
	told   map[model.Measure]bool // the girths whose shortfall by steps is said
	shared map[edgeOf]bool        // the edges that follow another piece's line
}

// edgeOf names an edge of a piece by their IDs.
type edgeOf struct{ piece, edge string }

// over begins a looking over, and forgets the print of pieces that are gone.
func (c *Checker) over(p model.Pattern, r grading.Result) *looking {
	if c.bends == nil {
		c.bends, c.print, c.walks = printedBends{}, printedLines{}, seamPrints{}
	}
	maps.DeleteFunc(c.bends, func(nest *model.Outline, _ []int) bool {
		return !slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return len(q.Nest) > 0 && &q.Nest[0] == nest })
	})
	c.print.forget(p)
	maps.DeleteFunc(c.walks, func(id string, _ seamPrint) bool {
		return !slices.ContainsFunc(p.Links, func(k model.Link) bool { return k.ID == id })
	})
	seen := c.recall(p, r)
	return &looking{
		p: p, r: r, seen: seen, lines: newStitching(p, r, seen, c.print), most: c.bends, walks: c.walks,
		broken: map[string]bool{}, told: map[model.Measure]bool{}, shared: sharedEdges(p, r),
	}
}

// limit is how far the pattern lets a limit go.
func (l *looking) limit(name string) float64 { return LimitOf(l.p, name) }

// sharedEdges is every edge that follows another piece's line, of links that are
// kept: what is wrong with it is its leader's.
func sharedEdges(p model.Pattern, r grading.Result) map[edgeOf]bool {
	out := map[edgeOf]bool{}
	for _, k := range p.Links {
		left := slices.ContainsFunc(r.Unlinked, func(u grading.Unlinked) bool { return u.Link == k.ID })
		if k.Kind != model.SameLine || left {
			continue
		}
		for _, id := range k.Follow.Edges {
			out[edgeOf{k.Follow.Piece, id}] = true
		}
	}
	return out
}

// follows reports that edge j of a piece follows another piece's line.
func (l *looking) follows(q model.Piece, j int) bool { return l.shared[edgeOf{q.ID, q.Edges[j].ID}] }

// own is the findings that are not of an edge which follows another piece's.
func (l *looking) own(found []Finding) []Finding {
	return slices.DeleteFunc(found, func(f Finding) bool { return l.shared[edgeOf{f.Piece, f.Edge}] })
}

// leaveOut notes which pieces have a broken outline.
func (l *looking) leaveOut(found []Finding) {
	for _, f := range found {
		l.broken[f.Piece] = l.broken[f.Piece] || f.Code != "unlaid"
	}
}

// brokenLink reports that a link is of a piece whose outline is broken.
func (l *looking) brokenLink(k model.Link) bool {
	for _, s := range append(k.Leads(), k.Follow) {
		if l.broken[s.Piece] {
			return true
		}
	}
	return false
}

// each gathers what a look at one piece finds, over all pieces that are whole.
func (l *looking) each(look func(model.Piece, grading.Piece) []Finding) []Finding {
	var out []Finding
	for i, q := range l.p.Pieces {
		if !l.broken[q.ID] {
			out = append(out, look(q, l.r.Pieces[i])...)
		}
	}
	return out
}
