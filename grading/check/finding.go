package check

import (
	"maps"
	"slices"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Finding is one thing the check found.
type Finding struct {
	Code  string // stable short name of the check, for programs
	Piece string // piece ID; empty for the whole pattern
	Edge  string // edge ID, may be empty
	Point string // grade point ID, may be empty
	// Measure is the girth a finding about a girth speaks of; else empty.
	Measure model.Measure
	Where   geom.Point
	Say     string  // what, and by how much, in plain words
	By      float64 // the amount in mm; 0 where there is none
	Help    string  // what would help
	Look    bool    // something to look at; false: for information
}

// Thresholds.
const (
	// seamsDiffer is by how much two seams sewn together may differ from their
	// printed ease: 1/16 in, the closer of the two figures in Threads no. 200
	// (2018) that home sewers true to.
	seamsDiffer = 25.4 / 16
	// farSteps is how many steps past the printed sizes neck and shoulder are
	// taken on trust; beyond, the frame of the body no longer grows like its
	// girth. Common practice.
	farSteps = 3
	// followsWithin is how far a follower may lie from its leader, mm.
	followsWithin = 0.05
	// kinkDegrees is the turn at a smooth point that the eye sees; by our own
	// trial, no source.
	kinkDegrees = 5.0
	// shortEdge is an edge too short to sew, mm; by our own trial.
	shortEdge = 3.0
	// arcTol and lineTol are how exactly lengths and lines are measured, mm.
	arcTol  = 1e-3
	lineTol = 0.01
)

// Checker looks patterns over and remembers what it measured of their print,
// so that looking again for a new target or after a correction is quick. The
// zero Checker is ready; it is not safe for use from two goroutines at once.
type Checker struct {
	Tape  girth.Tape
	bends printedBends
}

// Findings is Checker.Findings for once.
func Findings(p model.Pattern, r grading.Result) []Finding {
	return new(Checker).Findings(p, r)
}

// Findings looks over result r of pattern p, graded for p's target.
func (c *Checker) Findings(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	if c.bends == nil {
		c.bends = printedBends{}
	}
	maps.DeleteFunc(c.bends, func(nest *model.Outline, _ []int) bool {
		return !slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return len(q.Nest) > 0 && &q.Nest[0] == nest })
	})
	out = append(out, shortfall(p, r)...)
	out = append(out, ease(&c.Tape, p, r)...)
	out = append(out, reach(p, r)...)
	out = append(out, unlaid(p, r)...)
	for i, q := range p.Pieces {
		out = append(out, crossing(q, r.Pieces[i])...)
		out = append(out, lostEdges(q, r.Pieces[i])...)
		out = append(out, turnedEdges(q, r.Pieces[i])...)
		out = append(out, kinks(q, r.Pieces[i])...)
		most := c.bends.of(q)
		out = append(out, newBends(q, r.Pieces[i], most)...)
		out = append(out, crossesPrint(p, q, r.Pieces[i])...)
	}
	lines := newStitching(p, r)
	out = append(out, lines.seamless()...)
	out = append(out, links(p, r, lines)...)
	return out
}
