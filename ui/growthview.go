package ui

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/panel"
)

// The ways a piece printed once can grow, as the panel lists them.
const (
	growGaps = iota
	growSpread
	growNever
)

// printedOnce reports that a piece has the line of one size only, so that
// something else must say how it grows.
func printedOnce(q model.Piece) bool { return len(q.Nest) == 1 && len(q.Nest[0].Also) == 0 }

// growthView is the How it grows panel of a piece printed once; spread is that
// cut lines are asked for though there are none yet, cut the one in hand.
func growthView(p model.Pattern, q model.Piece, g grading.Piece, spread bool, cut int) panel.GrowthView {
	size := q.Nest[0].Label()
	v := panel.GrowthView{Piece: fmt.Sprintf("%s was printed in size %s only.", q.Name, size), Point: -1, Note: g.Unlaid}
	v.Choices = []panel.ChoiceView{
		{Name: "Gaps I type", How: "to the next size up"},
		{Name: "Cut and spread", How: "a share at each line"},
		{Name: "Same in all sizes"},
	}
	switch {
	case q.OneForAll:
		v.Choice = growNever
		return v
	case spread || len(q.Cuts) > 0:
		v.Choice, v.Spread = growSpread, true
		cutRows(&v, p, q, cut)
		return v
	}
	for k, pt := range q.Points {
		row := panel.PointView{Name: pointName(q, k), Out: "0", Down: "0"}
		for _, gap := range q.Gaps {
			if gap.Point == pt.ID {
				row.Out = amount(outward(q, g, k)*gap.Across, p.Unit)
				row.Down = amount(gap.Along, p.Unit)
			}
		}
		v.Points = append(v.Points, row)
	}
	return v
}

// cutRows lists the cut lines of q and what each opens by at the size wanted.
func cutRows(v *panel.GrowthView, p model.Pattern, q model.Piece, cut int) {
	place, _ := p.Chart.Place(q.Nest[0].Size)
	for i, c := range q.Cuts {
		was, okA := p.Chart.Beyond(float64(place), c.Measure)
		now, okB := p.Target.Value(p.Chart, c.Measure)
		if c.Measure == model.Steps {
			now, okB = p.Target.Place, true
		}
		opens := ""
		if okA && okB {
			opens = ", opens " + amount(c.Share*(now-was), p.Unit) + " " + smallUnit(p.Unit)
		}
		v.Names = append(v.Names, fmt.Sprintf("Cut line %d", i+1))
		v.Cuts = append(v.Cuts, fmt.Sprintf("%d: %s%s", i+1, shareWords(p, c), opens))
	}
	v.Cut = min(cut, len(q.Cuts)-1)
	if v.Cut < 0 {
		return
	}
	c := q.Cuts[v.Cut]
	for i, m := range followMeasures(p.Chart) {
		v.Follows = append(v.Follows, capital(string(m)))
		if m == c.Measure {
			v.Follow = i
		}
	}
	v.Share = shareText(p, c)
}

// shareWords is a cut's share in words: "1/16 of bust", "3 mm a step".
func shareWords(p model.Pattern, c model.Cut) string {
	if c.Measure == model.Steps {
		return amount(c.Share, p.Unit) + " " + smallUnit(p.Unit) + " a step"
	}
	return shareText(p, c) + " of " + string(c.Measure)
}

// shareText is a cut's share as it is typed: a simple fraction, or a length for
// each step.
func shareText(p model.Pattern, c model.Cut) string {
	if c.Measure == model.Steps {
		return amount(c.Share, p.Unit)
	}
	const most = 64
	for d := int64(1); d <= most; d *= 2 {
		if n := math.Round(c.Share * float64(d)); math.Abs(c.Share*float64(d)-n) < 1e-9 {
			return big.NewRat(int64(n), d).RatString()
		}
	}
	return strings.TrimRight(fmt.Sprintf("%.4f", c.Share), "0")
}

// withCuts is r with the cut lines of pieces printed once drawn on them.
func withCuts(p model.Pattern, r grading.Result) grading.Result {
	out := r
	for i, q := range p.Pieces {
		if !printedOnce(q) || len(q.Cuts) == 0 {
			continue
		}
		if &out.Pieces[0] == &r.Pieces[0] {
			out.Pieces = slices.Clone(r.Pieces)
		}
		out.Pieces[i].Lines = slices.Clone(out.Pieces[i].Lines)
		for n, c := range q.Cuts {
			out.Pieces[i].Lines = append(out.Pieces[i].Lines, grading.Line{
				ID: c.ID, Name: fmt.Sprintf("cut line %d", n+1), Kind: model.Inner, Path: geom.Polyline(c.From, c.To),
			})
		}
	}
	return out
}
