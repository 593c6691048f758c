package length

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"quarterstep/assets/words"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// slantMost is the sine of how far off square to the centre line a lengthen
// line may run: 30 degrees, as package spread has it.
const slantMost = 0.5

// onLine is how near in mm two places are one.
const onLine = 1e-6

// Change is one lengthen line as it lies on the piece, and what is put in
// there, mm; below 0 is folded out.
type Change struct {
	Line geom.Path // straight from its start to its end
	By   float64
	Name string // where it is, for what is said: "Above the waist"; may be empty
}

// Laid is a piece once it was lengthened. The zero Laid is one that was not: At
// and Along give back what they are given.
type Laid struct {
	Edges   []geom.Path
	spread  *spread.Spread
	grow    func(model.Measure) float64
	crossed [][]crossing // per edge, in its order
	was     []float64    // edge lengths before, mm
	is      []float64    // and now
}

// crossing is where a lengthen line crosses an edge, mm from the edge's start.
type crossing struct{ at, by float64 }

// Lay puts changes into piece q, drawn as edges, with the apexes of its darts in
// their order. What is not possible is an error that says the piece, the line
// and why, in plain words: a line that does not run across, runs more than 30
// degrees aslant, runs out in the mouth of a dart or crosses another, or more
// folded out than there is paper for. Changes by 0 are left out; without any,
// Edges are the very ones given.
func Lay(q model.Piece, edges []geom.Path, apexes []geom.Point, changes []Change) (Laid, error) {
	kept := together(changes)
	if len(kept) == 0 {
		return Laid{Edges: edges}, nil
	}
	l := layer{q, edges, apexes, kept}
	s, err := l.cut()
	if err != nil {
		return Laid{}, err
	}
	open := make(map[model.Measure]float64, len(kept))
	for i, c := range kept {
		open[measureOf(i)] = c.By / s.Travel(i).Len()
	}
	out := Laid{spread: s, grow: func(m model.Measure) float64 { return open[m] }}
	if err := l.refuse(s); err != nil {
		return Laid{}, err
	}
	if out.Edges, err = s.Edges(out.grow); err != nil {
		return Laid{}, words.Errorf("%s cannot be made so short: there is not that much paper to fold out", q.Name)
	}
	for j := range out.Edges {
		out.Edges[j] = bender{s.Down()}.keep(edges[j], out.Edges[j], l.runsOn(j), l.runsOn((j+1)%len(edges)))
	}
	return out, out.measure(l, s)
}

// together is the changes with those at one and the same line as one, and those
// by 0 left out.
func together(changes []Change) []Change {
	var sum []Change
	for _, c := range changes {
		i := slices.IndexFunc(sum, func(d Change) bool { return slices.Equal(c.Line, d.Line) })
		if i < 0 {
			sum = append(sum, c)
			continue
		}
		sum[i].By += c.By
	}
	return slices.DeleteFunc(sum, func(c Change) bool { return c.By == 0 })
}

// layer is a piece about to be lengthened.
type layer struct {
	q       model.Piece
	edges   []geom.Path
	apexes  []geom.Point
	changes []Change
}

// runsOn reports that the line runs on smoothly at grade point k, on the paper or
// over a dart that is closed there.
func (l layer) runsOn(k int) bool {
	g := l.q.Points[k]
	return g.Smooth || slices.ContainsFunc(l.q.Darts, func(d model.Dart) bool { return d.From == g.ID || d.To == g.ID })
}

// measureOf stands for the amount of change i where package spread asks for a
// body measure.
func measureOf(i int) model.Measure { return model.Measure("change " + strconv.Itoa(i)) } // words: none

// cut carries every line on to the outline.
func (l layer) cut() (*spread.Spread, error) {
	one := model.Piece{Name: l.q.Name, Points: l.q.Points, Edges: l.q.Edges, Nest: []model.Outline{{Edges: l.edges}}}
	for _, line := range l.q.Lines {
		if line.Kind == model.Grain {
			one.Lines = append(one.Lines, line)
		}
	}
	whole, err := spread.Read(one)
	if err != nil {
		return nil, err
	}
	for i, c := range l.changes {
		if len(c.Line) == 0 || c.Line.Start().Dist(c.Line.End()) <= onLine {
			return nil, words.Errorf("a lengthen line of %s has no length", l.q.Name)
		}
		if dir := c.Line.End().Sub(c.Line.Start()).Unit(); math.Abs(dir.Dot(whole.Down())) > slantMost {
			return nil, words.Errorf("%s runs too far aslant; draw it square to the grain, or within 30 degrees of that", l.name(i))
		}
		one.Cuts = append(one.Cuts, model.Cut{From: c.Line.Start(), To: c.Line.End(), Measure: measureOf(i), Share: 1})
		alone := one
		alone.Cuts = one.Cuts[i:]
		if _, err := spread.Read(alone); err != nil {
			return nil, fmt.Errorf("%s %w", l.name(i), reason(err))
		}
	}
	s, err := spread.Read(one)
	if err != nil {
		return nil, words.Errorf("two lengthen lines of %s cross each other; move one of them", l.q.Name)
	}
	return s, nil
}

// reason is what package spread says of a cut, without the cut's own name.
func reason(err error) error {
	if why := errors.Unwrap(err); why != nil {
		return why
	}
	return err
}

// where says where on its piece change i is.
func (l layer) where(i int) string {
	if where, ok := Where(l.changes[i].Name); ok {
		return where
	}
	return words.T("at its lengthen line")
}

// name says which line change i is of.
func (l layer) name(i int) string {
	if where, ok := Where(l.changes[i].Name); ok {
		return words.F("the lengthen line %s of %s", where, l.q.Name)
	}
	return words.F("the lengthen line of %s", l.q.Name)
}

// measure finds where the lines cross the edges, and how long those were and
// are.
func (out *Laid) measure(l layer, s *spread.Spread) error {
	n := len(l.edges)
	out.crossed, out.was, out.is = make([][]crossing, n), make([]float64, n), make([]float64, n)
	for j := range l.edges {
		before, err := geom.Measure(l.edges[j], onLine)
		if err == nil {
			out.is[j], err = out.Edges[j].Length(onLine)
		}
		if err != nil {
			return words.Errorf("measuring edge %d of %s: %w", j+1, l.q.Name, err)
		}
		out.was[j] = before.Length()
		for i, c := range l.changes {
			from, to := s.Reach(i)
			for _, end := range [2]geom.Point{from, to} {
				if k, t, d := l.edges[j].Nearest(end, onLine); d <= 10*onLine {
					out.crossed[j] = append(out.crossed[j], crossing{before.To(k, t), c.By})
				}
			}
		}
	}
	return nil
}

// At is where a place of the piece, as it was before, lies now: with the paper
// it lies on, half way where a line runs through it.
func (out Laid) At(p geom.Point) geom.Point {
	if out.spread == nil {
		return p
	}
	return p.Add(out.spread.At(p, out.grow))
}

// Along is how far from the edge's start a place now lies that lay s mm from it
// before: as far as it did from the end on its own side of each line. Where
// amounts cancel out, it keeps its share of the edge.
func (out Laid) Along(edge int, s float64) float64 {
	if out.spread == nil || out.was[edge] == out.is[edge] {
		return s
	}
	var before, all float64
	for _, c := range out.crossed[edge] {
		all += c.by
		switch {
		case math.Abs(c.at-s) <= 10*onLine:
			before += c.by / 2
		case c.at < s:
			before += c.by
		}
	}
	if math.Abs(all) <= onLine {
		return s * out.is[edge] / out.was[edge]
	}
	return s + (out.is[edge]-out.was[edge])*before/all
}
