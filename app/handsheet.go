package app

import (
	"io"
	"math"
	"slices"
	"strings"

	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
	"quarterstep/model/measure"
	"quarterstep/printing/handsheet"
	"quarterstep/printing/tile"
)

// HandSheets works out the increment sheets of p at its target: one for each
// piece named by its ID, in the pattern's order; for all pieces where none is
// named. The date is shown as given. It fails on a piece that is not there and
// on a pattern that cannot be graded.
func HandSheets(g *grading.Grader, p model.Pattern, pieces []string, date string) ([]handsheet.Sheet, error) {
	for _, id := range pieces {
		if p.PieceIndex(id) < 0 {
			return nil, words.Errorf("the pattern has no piece %q", id)
		}
	}
	r, err := g.Grade(p)
	if err != nil {
		return nil, err
	}
	var out []handsheet.Sheet
	for i, q := range p.Pieces {
		if len(pieces) > 0 && !slices.Contains(pieces, q.ID) {
			continue
		}
		s, err := handSheet(g, p, r, i)
		if err != nil {
			return nil, err
		}
		s.Date = date
		out = append(out, s)
	}
	return out, nil
}

// WriteHandSheets writes the sheets as a PDF on upright paper, amounts in u.
func WriteHandSheets(w io.Writer, sheets []handsheet.Sheet, paper tile.Paper, u model.Unit) error {
	return handsheet.Write(w, sheets, handsheet.Options{
		Paper: paper, Unit: measure.Unit(u), Regular: assets.LatoRegular, Bold: assets.LatoBold,
	})
}

// hand is the sheet of one piece being worked out.
type hand struct {
	p    model.Pattern
	q    model.Piece
	r    grading.Piece
	all  grading.Result
	from model.Outline // the printed line measured from
	name string        // its size
}

func handSheet(g *grading.Grader, p model.Pattern, r grading.Result, i int) (handsheet.Sheet, error) {
	h := hand{p: p, q: p.Pieces[i], r: r.Pieces[i], all: r}
	h.measureFrom()
	stages := h.stages()
	drawn := make([]grading.Piece, len(stages))
	for k, s := range stages {
		if s.last {
			drawn[k] = h.r
			continue
		}
		at, err := g.Grade(s.pattern)
		if err != nil {
			return handsheet.Sheet{}, words.Errorf("working out stage %s of %s: %w", s.name, h.q.Name, err)
		}
		drawn[k] = at.Pieces[i]
	}
	out := handsheet.Sheet{
		Pattern: p.Name, Piece: h.q.Name, Cut: h.q.CutWords(), From: h.name, To: h.wanted(),
		For: p.Target.Wearer, Method: methodWords(p.Target.Method),
		Printed: h.upright(h.from.Edges), Wanted: h.upright(h.r.Edges), Marks: h.upright(h.marks()),
		Gaps: h.gapNames(), Notes: h.notes(stages),
	}
	for _, s := range stages {
		out.Stages = append(out.Stages, s.name)
	}
	for k := range h.q.Points {
		out.Points = append(out.Points, h.point(k, drawn))
	}
	for k, d := range h.q.Darts {
		if was, ok := apexAt(d, h.name); ok {
			out.Points = append(out.Points, h.dartPoint(k, was, drawn))
		}
	}
	for j := range h.q.Edges {
		e, err := h.edge(j)
		if err != nil {
			return handsheet.Sheet{}, err
		}
		out.Edges = append(out.Edges, e)
	}
	return out, nil
}

// measureFrom chooses the printed line to measure from: the one that most
// points are counted from.
func (h *hand) measureFrom() {
	votes := map[string]int{}
	for _, inc := range h.r.Points {
		votes[inc.Across.From]++
		votes[inc.Along.From]++
	}
	h.from = h.q.Nest[0]
	h.name = h.from.Size
	best := 0
	for _, o := range h.q.Nest {
		for _, s := range o.Sizes() {
			if votes[s] > best {
				h.from, h.name, best = o, s, votes[s]
			}
		}
	}
}

// wanted says what the piece is drawn to; empty where it stays as printed.
func (h hand) wanted() string {
	if h.stays() {
		return ""
	}
	return WearerLine(h.p)
}

// stays reports that the piece is the same in the size wanted as on paper.
func (h hand) stays() bool {
	return h.r.Frozen || h.q.OneForAll || h.r.Printed
}

// turn turns the piece so that its grain runs down.
func (h hand) turn() geom.Affine {
	down := h.q.GrainDir()
	right := down.Perp().Scale(-1)
	return geom.Affine{A: right.X, B: down.X, C: right.Y, D: down.Y}
}

func (h hand) upright(lines []geom.Path) []geom.Path {
	out := make([]geom.Path, len(lines))
	for j, l := range lines {
		out[j] = l.Transform(h.turn())
	}
	return out
}

// marks are the lines, darts and notches inside the new line.
func (h hand) marks() []geom.Path {
	const notch = 12 // mm
	var out []geom.Path
	for _, l := range h.r.Lines {
		out = append(out, l.Path)
	}
	for _, d := range h.r.Darts {
		out = append(out, geom.Polyline(d.Leg1, d.Apex, d.Leg2))
	}
	for _, n := range h.r.Notches {
		out = append(out, geom.Path{geom.Line(n.At, n.At.Add(n.In.Scale(notch)))})
	}
	return slices.DeleteFunc(out, func(l geom.Path) bool { return len(l) == 0 })
}

// gapNames says between which printed sizes each gap lies.
func (h hand) gapNames() []string {
	if len(h.r.Points) == 0 || h.q.OneForAll {
		return nil
	}
	out := make([]string, 0, len(h.q.Nest))
	for i := range h.r.Points[0].Across.Gaps {
		out = append(out, h.q.Nest[i].Size+"–"+h.q.Nest[i+1].Size)
	}
	return out
}

// point says how far grade point k goes, by where it is on each line drawn.
func (h hand) point(k int, drawn []grading.Piece) handsheet.Point {
	inc := h.r.Points[k]
	var gaps, stages []geom.Vec
	for i := range h.gapNames() {
		gaps = append(gaps, h.q.FromAcrossAlong(inc.Across.Gaps[i], inc.Along.Gaps[i]))
	}
	for _, r := range drawn {
		stages = append(stages, r.Edges[k].Start().Sub(h.from.Edges[k].Start()))
	}
	return h.moved(inc.Name, h.r.Edges[k].Start(), gaps, stages)
}

// dartPoint says how far the point of dart k goes from where it was printed.
func (h hand) dartPoint(k int, was geom.Point, drawn []grading.Piece) handsheet.Point {
	d := h.q.Darts[k]
	var gaps, stages []geom.Vec
	for i := range h.gapNames() {
		a, okA := apexAt(d, h.q.Nest[i].Size)
		b, okB := apexAt(d, h.q.Nest[i+1].Size)
		gap := b.Sub(a)
		if !okA || !okB {
			gap = geom.Vec{X: math.NaN(), Y: math.NaN()}
		}
		gaps = append(gaps, gap)
	}
	for _, r := range drawn {
		stages = append(stages, r.Darts[k].Apex.Sub(was))
	}
	name := strings.TrimSpace(d.Name)
	if !strings.Contains(glossary.English(name), "dart") {
		if name == "" {
			name = words.T("dart")
		} else {
			name = words.F("%s dart", name)
		}
	}
	return h.moved(words.F("point of %s", name), h.r.Darts[k].Apex, gaps, stages)
}

// apexAt is where the point of a dart was printed in a size.
func apexAt(d model.Dart, size string) (geom.Point, bool) {
	for _, a := range d.Apex {
		if a.Size == size || a.Size == "" {
			return a.At, true
		}
	}
	return geom.Point{}, false
}

// moved splits the movements of a point into out and down.
func (h hand) moved(name string, at geom.Point, gaps, stages []geom.Vec) handsheet.Point {
	right := Outward(h.q, h.r, at)
	out := handsheet.Point{Name: name, At: h.turn().Apply(at), Right: right > 0}
	split := func(all []geom.Vec) (outs, downs []float64) {
		for _, v := range all {
			across, along := h.q.AcrossAlong(v)
			outs, downs = append(outs, right*across), append(downs, along)
		}
		return outs, downs
	}
	out.Out.Gaps, out.Down.Gaps = split(gaps)
	out.Out.Stages, out.Down.Stages = split(stages)
	return out
}

func methodWords(m model.Method) string {
	if m == model.BySteps {
		return words.T("by steps")
	}
	return words.T("by chart")
}

// notes are what is to be said of this piece alone.
func (h hand) notes(stages []handStage) []string {
	switch {
	case h.q.OneForAll:
		return []string{words.T("This piece is the same in all sizes: trace it.")}
	case h.r.Frozen:
		return []string{words.T("This piece was printed in one size and nothing says how it grows: it is drawn as printed.")}
	case h.r.Printed:
		return []string{words.F("Size %s is printed: trace its line; there is nothing to add.", h.name)}
	}
	if len(stages) < 2 {
		return nil
	}
	goes := words.T("one column after the other")
	if !h.p.Target.Own() {
		goes = words.F("draw %s", stages[0].name)
		for _, s := range stages[1:] {
			goes = words.F("%s, then %s", goes, s.name)
		}
	}
	return []string{words.F("Go in %d goes: %s. Look at each line before the next.", len(stages), goes)}
}
