package ui

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// The ways a piece printed once can grow, as the panel lists them.
const (
	growGaps = iota
	growSpread
	growNever
)

// printedOnce reports that a piece has a single printed line, so that something
// else must say how it grows.
func printedOnce(q model.Piece) bool { return len(q.Nest) == 1 }

// growth is the piece printed once that the How it grows panel shows.
type growth struct {
	p      model.Pattern
	q      model.Piece
	g      grading.Piece
	spread bool   // cut lines are asked for though there are none yet
	cut    int    // the cut line in hand, -1 for none
	point  string // the grade point in hand
}

// view is the panel's view.
func (h growth) view() panel.GrowthView {
	v := panel.GrowthView{Piece: h.printed(), Note: h.g.Unlaid, Choice: h.choice()}
	v.Choices = []panel.ChoiceView{
		{Name: words.T("Gaps I type"), Figure: figureOf(len(h.q.Gaps), "gap")},
		{Name: words.T("Cut and spread"), Figure: figureOf(len(h.q.Cuts), "cut line")}, // words: none
		{Name: words.T("Same in all sizes")},
	}
	switch v.Choice {
	case growGaps:
		v.Gaps = h.gaps()
	case growSpread:
		v.Spread = h.cutLines()
	}
	return v
}

// printed is "Front was printed in size 38 only."
func (h growth) printed() string {
	if sizes := h.q.Nest[0].Sizes(); len(sizes) > 1 {
		return words.F("%s was printed with one line for sizes %s.", h.q.Name, strings.Join(sizes, ", "))
	}
	return words.F("%s was printed in size %s only.", h.q.Name, h.q.Nest[0].Size)
}

func (h growth) choice() int {
	switch {
	case h.q.OneForAll:
		return growNever
	case h.spread || len(h.q.Cuts) > 0:
		return growSpread
	}
	return growGaps
}

func figureOf(n int, word string) string {
	if n == 0 {
		return ""
	}
	return count(n, word)
}

// state is the folded panel's line, and whether it asks to be looked at.
func (h growth) state() (string, bool) {
	switch {
	case h.g.Unlaid != "" && h.choice() == growSpread:
		return words.T("cannot be spread"), true
	case h.g.Frozen:
		return words.T("say how"), true
	case h.choice() == growNever:
		return words.T("same in all sizes"), false
	case h.choice() == growSpread:
		return count(len(h.q.Cuts), "cut line"), false // words: none
	}
	return count(len(h.q.Gaps), "typed gap"), false // words: none
}

// gaps is every grade point with the gap typed for it.
func (h growth) gaps() *panel.GapsView {
	v := &panel.GapsView{Point: h.q.PointIndex(h.point)}
	unit := smallUnit(h.p.Unit)
	if h.p.Unit == model.Inches {
		unit = words.T("inches")
	}
	v.Say = words.F("How far each grade point moves %s, in %s. One left at 0 stays. Press a figure to type it; Tab goes on to the next.", h.nextSize(), unit)
	for k, pt := range h.q.Points {
		row := panel.PointView{Name: pointName(h.q, k), Out: "0", Down: "0"}
		if i := slices.IndexFunc(h.q.Gaps, func(g model.Gap) bool { return g.Point == pt.ID }); i >= 0 {
			row.Out = amount(outward(h.q, h.g, k)*h.q.Gaps[i].Across, h.p.Unit)
			row.Down = amount(h.q.Gaps[i].Along, h.p.Unit)
		}
		v.Points = append(v.Points, row)
	}
	return v
}

// nextSize is "from 38 to 40", where there is a next size.
func (h growth) nextSize() string {
	sizes := h.q.Nest[0].Sizes()
	last := sizes[len(sizes)-1]
	if place, ok := h.p.Chart.Place(last); ok && place+1 < len(h.p.Chart.Sizes) {
		return words.F("from %s to %s", last, h.p.Chart.Sizes[place+1].Name)
	}
	return words.T("to the next size up")
}

// cutLines is the cut lines of the piece, what each opens by, and the one in
// hand.
func (h growth) cutLines() *panel.SpreadView {
	v := &panel.SpreadView{Cut: min(h.cut, len(h.q.Cuts)-1)}
	if len(h.q.Cuts) == 0 {
		v.Say = words.T("Lay the usual cut lines, or add some of your own. Each is drawn on the piece; drag its ends to where you want it.")
		return v
	}
	v.Title = words.F("Cut lines, opened for %s", h.p.Target.NameOn(h.p.Chart))
	usual := usualCuts(h.q, h.p.Chart)
	for i, c := range h.q.Cuts {
		row := panel.ChoiceView{Name: fmt.Sprintf("%d %s", i+1, cutName(h.q, usual, c)), How: shareWords(h.p, c)}
		if i < len(h.g.Opens) {
			row.Figure = amount(h.g.Opens[i], h.p.Unit) + " " + smallUnit(h.p.Unit)
		}
		v.Cuts = append(v.Cuts, row)
	}
	if v.Cut >= 0 {
		h.cutInHand(v, usual)
	}
	return v
}

// cutInHand fills in what the cut line in hand goes by.
func (h growth) cutInHand(v *panel.SpreadView, usual []spread.Default) {
	c := h.q.Cuts[v.Cut]
	for i, m := range followMeasures(h.p.Chart) {
		v.Follows = append(v.Follows, capital(m.Said()))
		if m == c.Measure {
			v.Follow = i
		}
	}
	v.Share = shareText(h.p, c)
	v.Asks = words.T("Opens each size by")
	if c.Measure == model.Steps {
		v.Unit = smallUnit(h.p.Unit)
	} else {
		v.Asks = words.T("Share of its growth")
		v.Means = words.F("That is %s %s %s. A share like 1/16 or a length can be typed.",
			amount(c.Share*growth1(h.p.Chart, h.q, c.Measure), h.p.Unit), smallUnit(h.p.Unit), h.nextSize())
	}
	if d, ok := usualCut(usual, c); ok {
		v.Status = words.F("Its share: %s.", d.Status)
	}
}

// growth1 is by how much a measure grows from the print to the next size up, in
// mm; 1 for steps.
func growth1(c model.SizeChart, q model.Piece, m model.Measure) float64 {
	if m == model.Steps {
		return 1
	}
	sizes := q.Nest[0].Sizes()
	place, _ := c.Place(sizes[len(sizes)-1])
	from, _ := c.Beyond(float64(place), m)
	to, _ := c.Beyond(float64(place)+1, m)
	return to - from
}

// usualCuts is the cut lines proposed for a piece; none where it is not a piece
// that any are usual for.
func usualCuts(q model.Piece, c model.SizeChart) []spread.Default {
	all, err := spread.Defaults(q, c)
	if err != nil {
		return nil
	}
	return all
}

// usualCut is the proposal that a cut line still lies and opens as.
func usualCut(usual []spread.Default, c model.Cut) (spread.Default, bool) {
	const moved = 0.05 // mm
	i := slices.IndexFunc(usual, func(d spread.Default) bool {
		return d.Cut.Measure == c.Measure && d.Cut.Share == c.Share && d.Cut.From.Dist(c.From) < moved && d.Cut.To.Dist(c.To) < moved
	})
	if i < 0 {
		return spread.Default{}, false
	}
	return usual[i], true
}

// cutName is what a cut line is called: as proposed, else by how it runs.
func cutName(q model.Piece, usual []spread.Default, c model.Cut) string {
	if d, ok := usualCut(usual, c); ok {
		name, _, _ := strings.Cut(d.Name, ",")
		return capital(name)
	}
	across, along := q.AcrossAlong(c.To.Sub(c.From))
	if math.Abs(along) >= math.Abs(across) {
		return words.T("Lengthwise")
	}
	return words.T("Crosswise")
}

// shareWords is a cut's share in words: "1/16 of bust", "3 mm a size".
func shareWords(p model.Pattern, c model.Cut) string {
	if c.Measure == model.Steps {
		return words.F("%s %s a size", amount(c.Share, p.Unit), smallUnit(p.Unit))
	}
	return words.F("%s of %s", shareText(p, c), c.Measure.Said())
}

// shareText is a cut's share as it is typed: a simple fraction, or a length for
// each size.
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
	return strings.TrimRight(words.Figure(c.Share, 4), "0")
}

// cutIndex is the index of the cut line with that ID, or -1.
func cutIndex(q model.Piece, id string) int {
	return slices.IndexFunc(q.Cuts, func(c model.Cut) bool { return c.ID == id })
}
