package ui

import (
	"math"

	"quarterstep/app"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// figures is how one edge of the new line moves, as the mean of its two ends
// in the direction in which it moves most. All in mm; out is away from the
// centre of the piece.
type figures struct {
	along   bool // the direction is along the grain, else across
	sign    float64
	ends    [2]int // grade points
	from    string
	follows model.Measure
	gaps    []float64
	step    float64
	bySteps float64
	byChart float64
	hand    float64
	total   float64
}

// figuresOf reads the figures of edge j of piece i.
func figuresOf(p model.Pattern, r grading.Result, i, j int) figures {
	q, g := p.Pieces[i], r.Pieces[i]
	f := figures{ends: [2]int{j, (j + 1) % len(q.Points)}}
	a, b := g.Points[f.ends[0]], g.Points[f.ends[1]]
	across := math.Abs(a.Across.Step) + math.Abs(b.Across.Step)
	along := math.Abs(a.Along.Step) + math.Abs(b.Along.Step)
	f.along = along > across
	f.from = a.From
	sa, sb := a.Across, b.Across
	f.sign = outward(q, g, f.ends[0])
	if f.along {
		sa, sb, f.sign = a.Along, b.Along, 1
	}
	mean := func(x, y float64) float64 { return f.sign * (x + y) / 2 }
	f.follows = sa.Follows
	for k := range sa.Gaps {
		f.gaps = append(f.gaps, mean(sa.Gaps[k], sb.Gaps[k]))
	}
	f.step = mean(sa.Step, sb.Step)
	f.bySteps = mean(sa.BySteps, sb.BySteps)
	f.byChart = mean(sa.ByChart, sb.ByChart)
	f.hand = mean(sa.Hand, sb.Hand)
	f.total = mean(sa.Total, sb.Total)
	return f
}

// move is the movement on the paper that adds mm to the total of the edge.
func (f figures) move(q model.Piece, mm float64) geom.Vec {
	if f.along {
		return q.FromAcrossAlong(0, mm)
	}
	return q.FromAcrossAlong(f.sign*mm, 0)
}

// outward is app.Outward of grade point k.
func outward(q model.Piece, g grading.Piece, k int) float64 {
	return app.Outward(q, g, g.Edges[k].Start())
}
