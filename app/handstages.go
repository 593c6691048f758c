package app

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// mostSteps is how many chart steps are drawn in one go, neckSteps how many
// where there is a neckline, which soonest loses its line. Common practice of
// drawing a size by hand.
const (
	mostSteps = 3
	neckSteps = 1
)

// handStage is one of the lines drawn on the way to the size wanted.
type handStage struct {
	name    string
	pattern model.Pattern // with that size as its target
	last    bool
}

// stages are the lines to draw one after the other, the size wanted last.
func (h hand) stages() []handStage {
	last := handStage{name: h.all.Size, pattern: h.p, last: true}
	if h.p.Target.Own() {
		last.name = words.C("of the way", "whole")
	}
	from, ok := h.p.Chart.Place(h.name)
	if h.stays() || !ok {
		return []handStage{last}
	}
	far := h.farthest(float64(from))
	n := int(math.Ceil(math.Abs(far)/mostSteps - 1e-9))
	if h.hasNeckline() && math.Abs(far) > neckSteps {
		n = max(n, 2)
	}
	var out []handStage
	for k := 1; k < n; k++ {
		out = append(out, h.part(float64(from), far, k, n))
	}
	return append(out, last)
}

// farthest is how many chart steps the size wanted is from the printed one, by
// the measure that is farthest.
func (h hand) farthest(from float64) float64 {
	far := h.p.Target.Place - from
	for m := range h.p.Target.Body {
		if d := h.p.Target.PlaceFor(h.p.Chart, m) - from; math.Abs(d) > math.Abs(far) {
			far = d
		}
	}
	return far
}

// part is the stage k of n: a whole size of the chart, or, for the wearer's own
// measurements, the same share of each.
func (h hand) part(from, far float64, k, n int) handStage {
	share := float64(k) / float64(n)
	s := handStage{pattern: h.p}
	t := &s.pattern.Target
	if !h.p.Target.Own() {
		t.Place = from + math.Copysign(math.Round(math.Ceil(math.Abs(far))*share), far)
		s.name = h.p.Chart.NameAt(t.Place)
		return s
	}
	t.Place = from + share*(t.Place-from)
	t.Body = make(map[model.Measure]float64, len(h.p.Target.Body))
	for m, v := range h.p.Target.Body {
		if base, ok := h.p.Chart.At(from, m); ok {
			v = base + share*(v-base)
		}
		t.Body[m] = v
	}
	s.name = fmt.Sprintf("%d/%d", k, n)
	if 2*k == n {
		s.name = words.C("of the way", "half")
	}
	return s
}

func (h hand) hasNeckline() bool {
	return slices.ContainsFunc(h.q.Edges, func(e model.Edge) bool {
		return strings.Contains(glossary.English(e.Name), "neck")
	})
}
