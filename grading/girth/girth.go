package girth

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Girths are the girths measured, in the order given out.
func Girths() []model.Measure { return []model.Measure{model.Bust, model.Waist, model.Hip} }

// Girth is the garment and the body at one girth, mm of whole girth.
type Girth struct {
	Measure  model.Measure
	Finished float64 // of the sewn garment, closed
	Body     float64 // of the body it is for
	Ease     float64 // Finished less Body
	Parts    []Part  // what Finished is the sum of
}

// Part is one piece's share of a girth: Times (Width - Allowances - Darts).
type Part struct {
	Piece      string  // piece ID
	Width      float64 // of the line as graded or printed, mm
	Allowances float64 // what seam allowances take of it, mm
	Darts      float64 // what darts take up at the level, mm
	Times      int     // how often it goes into the garment
	// Halves is true where the piece is said to be cut once and ends at a
	// centre line, so that both halves of the body are counted.
	Halves bool
}

// Sewn is what the part gives to the girth, mm.
func (q Part) Sewn() float64 { return float64(q.Times) * (q.Width - q.Allowances - q.Darts) }

// Missing says why a girth has no figure.
type Missing struct {
	Measure model.Measure
	Size    string // printed size; empty for the size wanted
	Piece   string // piece ID; empty where it is not one piece's fault
	Why     string // a plain sentence
}

// Of measures p, graded as r, at its target. Widths are exact within 0.01 mm.
// Girths that cannot be measured are in missing. It fails when r is not a
// result of p.
func Of(p model.Pattern, r grading.Result) (girths []Girth, missing []Missing, err error) {
	return of(p, r, nil)
}

// Stitching is the stitching line of a piece as graded, by its index, edge by
// edge and within 0.001 mm: for a caller who has it already.
type Stitching func(piece int) ([]geom.Path, error)

func of(p model.Pattern, r grading.Result, sewn Stitching) (girths []Girth, missing []Missing, err error) {
	if len(r.Pieces) != len(p.Pieces) {
		return nil, nil, words.Errorf("measuring the girth: the graded pattern has %d pieces, the printed one %d", len(r.Pieces), len(p.Pieces))
	}
	body := func(m model.Measure) (float64, bool) { return p.Target.Value(p.Chart, m) }
	s := survey{p, make([]*sheet, len(p.Pieces))}
	for i, q := range p.Pieces {
		s.sheets[i] = gradedSheet(q, r.Pieces[i])
		if sewn != nil {
			s.sheets[i].known = func() ([]geom.Path, error) { return sewn(i) }
		}
	}
	girths, missing = s.all(body)
	return girths, missing, nil
}

// Printed measures p as it was printed in one size, whatever its target and
// corrections; otherwise as Of. A piece that is the same in all sizes counts in
// each. It fails on a size the chart lacks.
func Printed(p model.Pattern, size string) (girths []Girth, missing []Missing, err error) {
	place, ok := p.Chart.Place(size)
	if !ok {
		return nil, nil, words.Errorf("measuring the girth: the chart %s has no size %s", p.Chart.Name, size)
	}
	body := func(m model.Measure) (float64, bool) { return p.Chart.At(float64(place), m) }
	s := survey{p, make([]*sheet, len(p.Pieces))}
	for i, q := range p.Pieces {
		s.sheets[i] = printedSheet(q, size)
	}
	girths, missing = s.all(body)
	for i := range missing {
		missing[i].Size = size
	}
	return girths, missing, nil
}

// survey is a pattern with each piece as drawn in one size; nil where it was
// not.
type survey struct {
	p      model.Pattern
	sheets []*sheet
}

func (s survey) all(body func(model.Measure) (float64, bool)) (girths []Girth, missing []Missing) {
	for _, m := range Girths() {
		g := Girth{Measure: m}
		var ok bool
		if g.Body, ok = body(m); !ok {
			missing = append(missing, Missing{Measure: m, Why: words.F("The size chart has no %s for this size.", m.Said())})
			continue
		}
		var lacks []Missing
		if g.Parts, lacks = s.round(m); len(lacks) > 0 {
			missing = append(missing, lacks...)
			continue
		}
		for _, q := range g.Parts {
			g.Finished += q.Sewn()
		}
		g.Ease = g.Finished - g.Body
		girths = append(girths, g)
	}
	return girths, missing
}

// round measures the pieces that go round the body at m. Where a garment has
// both upper and lower pieces, the waist is taken on the first that have it
// whole and the hip on the lower ones.
func (s survey) round(m model.Measure) ([]Part, []Missing) {
	upper, lower := bodyPieces(s.p)
	groups := [][]int{upper, lower}
	switch {
	case m == model.Bust:
		groups = groups[:1]
	case m == model.Hip && len(lower) > 0:
		groups = groups[1:]
	}
	var first []Missing
	for _, group := range groups {
		if len(group) == 0 {
			continue
		}
		parts, lacks := s.measure(group, m)
		if len(lacks) == 0 {
			return parts, nil
		}
		if first == nil {
			first = lacks
		}
	}
	if first == nil {
		first = []Missing{{Measure: m, Why: words.F("The pattern has no piece that goes round the body at the %s.", m.Said())}}
	}
	return nil, first
}

func (s survey) measure(group []int, m model.Measure) (parts []Part, lacks []Missing) {
	for _, i := range group {
		q := s.p.Pieces[i]
		part, why := Part{Piece: q.ID}, ""
		part.Times, part.Halves = times(q)
		if s.sheets[i] == nil {
			why = words.F("%s was not printed in this size.", q.Name)
		} else {
			part.Width, part.Allowances, part.Darts, why = s.sheets[i].at(m)
		}
		if why != "" {
			lacks = append(lacks, Missing{Measure: m, Piece: q.ID, Why: why})
			continue
		}
		parts = append(parts, part)
	}
	return parts, lacks
}

// times is how often a piece goes into the garment: as often as it is cut,
// twice that on a fold. One that ends at a centre line and is cut but once goes
// round half of the body, so halves counts it for both, unless its name says
// left or right.
func times(q model.Piece) (n int, halves bool) {
	has := func(k model.EdgeKind) bool {
		return slices.ContainsFunc(q.Edges, func(e model.Edge) bool { return e.Kind == k })
	}
	switch {
	case has(model.Fold):
		return 2 * q.Copies(), false
	case q.Copies() == 1 && has(model.Centre) && !hasWord(q.Name, oneSide):
		return 2, true
	}
	return q.Copies(), false
}
