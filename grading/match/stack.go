package match

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// StackOn is where the sizes of a nest are laid on each other: at a grade point
// or, where Point is empty, at a line of the piece. Line model.Centre or
// model.Fold is its centre or fold line, model.Hem its hem.
type StackOn struct {
	Line  model.EdgeKind
	Point string // grade point ID
}

// still is the movement in mm below which a size lies where it should.
const still = 1e-9

// Stack moves every printed size of a piece, with its marks, so that all lie on
// the largest at a line or grade point; nothing changes shape. At a centre or
// fold line sizes go across it only, at a hem along the grain only. A size that
// lies there already is left bit for bit. Marks that serve all sizes become
// marks of each where sizes move, except grain and fold lines, which stay. It
// is an error where the piece has no such line or point.
func Stack(q model.Piece, on StackOn) (model.Piece, error) {
	moves, err := stacking(q, on)
	if err != nil {
		return q, words.Errorf("laying the sizes of %s on each other: %w", q.Name, err)
	}
	return moved(q, moves), nil
}

// Drift is by how much in mm the centre or fold line of a piece goes across
// itself from one step of the chart to the next, at most; 0 for a piece without
// such a line.
func Drift(q model.Piece, chart model.SizeChart) (float64, error) {
	if centreEdge(q) < 0 {
		return 0, nil
	}
	moves, err := stacking(q, StackOn{Line: model.Centre})
	if err != nil {
		return 0, words.Errorf("looking at the centre line of %s: %w", q.Name, err)
	}
	var most float64
	for i := 1; i < len(moves); i++ {
		steps := middlePlace(q.Nest[i].Sizes(), chart) - middlePlace(q.Nest[i-1].Sizes(), chart)
		most = max(most, moves[i].Sub(moves[i-1]).Len()/max(1, steps))
	}
	return most, nil
}

// middlePlace is the place on the chart of a line that serves those sizes: half
// way between the first and the last.
func middlePlace(sizes []string, chart model.SizeChart) float64 {
	a, _ := chart.Place(sizes[0])
	b, _ := chart.Place(sizes[len(sizes)-1])
	return float64(a+b) / 2
}

// stacking is how far each printed line moves.
func stacking(q model.Piece, on StackOn) ([]geom.Vec, error) {
	switch {
	case on.Point != "":
		k := q.PointIndex(on.Point)
		if k < 0 {
			return nil, words.Error("it has no such grade point")
		}
		return movesTo(q, func(o model.Outline) (geom.Vec, error) { return geom.Vec(o.Edges[k].Start()), nil })
	case on.Line == model.Hem:
		return ontoHem(q)
	case on.Line == model.Centre || on.Line == model.Fold:
		return ontoCentre(q)
	}
	return nil, words.Error("choose its centre line, its hem or a grade point")
}

// movesTo is how far each line goes to lie where the largest does, by a place
// of it.
func movesTo(q model.Piece, place func(model.Outline) (geom.Vec, error)) ([]geom.Vec, error) {
	at := make([]geom.Vec, len(q.Nest))
	for i, o := range q.Nest {
		var err error
		if at[i], err = place(o); err != nil {
			return nil, words.Errorf("size %s: %w", o.Size, err)
		}
	}
	out := make([]geom.Vec, len(at))
	for i, v := range at {
		if d := at[len(at)-1].Sub(v); d.Len() > still {
			out[i] = d
		}
	}
	return out, nil
}

// centreEdge is the longest fold edge of the largest size or, without one, the
// longest centre edge; -1 for none.
func centreEdge(q model.Piece) int {
	edges := q.Nest[len(q.Nest)-1].Edges
	for _, kind := range []model.EdgeKind{model.Fold, model.Centre} {
		best := -1
		for k, e := range q.Edges {
			if e.Kind == kind && (best < 0 || chordLength(edges[k]) > chordLength(edges[best])) {
				best = k
			}
		}
		if best >= 0 {
			return best
		}
	}
	return -1
}

func chordLength(p geom.Path) float64 { return p.Start().Dist(p.End()) }

// alongGrain is how far off the grain, as a share of its length, a line may run
// that counts as running along it.
const alongGrain = 0.05

// ontoCentre moves lines across the centre line: across the grain where it runs
// along it.
func ontoCentre(q model.Piece) ([]geom.Vec, error) {
	k := centreEdge(q)
	if k < 0 {
		return nil, words.Error("it has no centre or fold line")
	}
	e := q.Nest[len(q.Nest)-1].Edges[k]
	across := e.End().Sub(e.Start()).Unit().Perp()
	if off, _ := q.AcrossAlong(across.Perp()); math.Abs(off) < alongGrain {
		across = q.GrainDir().Perp()
	}
	return movesTo(q, func(o model.Outline) (geom.Vec, error) {
		at, err := middleOf(o.Edges[k])
		return across.Scale(at.Dot(across)), err
	})
}

// middleOf is the mean of places evenly spaced along a line, which the wobble
// of a hand hardly moves.
func middleOf(p geom.Path) (geom.Vec, error) {
	const places = 32
	m, err := geom.Measure(p, ringTol)
	if err != nil {
		return geom.Vec{}, err
	}
	var sum geom.Vec
	for i := range places + 1 {
		sum = sum.Add(geom.Vec(m.At(m.Length() * float64(i) / places)))
	}
	return sum.Scale(1.0 / (places + 1)), nil
}

// ontoHem moves lines along the grain, so that the hems meet at the centre line
// or, on a piece without one, half way between the hem's ends.
func ontoHem(q model.Piece) ([]geom.Vec, error) {
	var ends []int
	n, centre := len(q.Edges), centreEdge(q)
	for k, e := range q.Edges {
		if e.Kind == model.Hem {
			ends = append(ends, k, (k+1)%n)
		}
	}
	if len(ends) == 0 {
		return nil, words.Error("it has no hem")
	}
	for _, k := range ends {
		if centre >= 0 && (k == centre || k == (centre+1)%n) {
			ends = []int{k}
			break
		}
	}
	g := q.GrainDir()
	return movesTo(q, func(o model.Outline) (geom.Vec, error) {
		var sum float64
		for _, k := range ends {
			sum += geom.Vec(o.Edges[k].Start()).Dot(g)
		}
		return g.Scale(sum / float64(len(ends))), nil
	})
}

// moved is the piece with every printed line and its marks moved.
func moved(q model.Piece, moves []geom.Vec) model.Piece {
	if !slices.ContainsFunc(moves, func(v geom.Vec) bool { return !v.IsZero() }) {
		return q
	}
	by := map[string]geom.Vec{}
	nest := slices.Clone(q.Nest)
	for i, o := range nest {
		for _, size := range o.Sizes() {
			by[size] = moves[i]
		}
		if moves[i].IsZero() {
			continue
		}
		nest[i].Edges = make([]geom.Path, len(o.Edges))
		for k, e := range o.Edges {
			nest[i].Edges[k] = e.Move(moves[i])
		}
	}
	q.Nest = nest
	q.Lines = slices.Clone(q.Lines)
	for i, l := range q.Lines {
		q.Lines[i].Drawn = movedLine(l, nest, by)
	}
	q.Darts = slices.Clone(q.Darts)
	for i, d := range q.Darts {
		q.Darts[i].Apex = movedApex(d, nest, by)
	}
	return q
}

func movedLine(l model.Line, nest []model.Outline, by map[string]geom.Vec) []model.SizedPath {
	var out []model.SizedPath
	for _, d := range l.Drawn {
		switch {
		case d.Size != "":
			out = append(out, model.SizedPath{Size: d.Size, Path: movedPath(d.Path, by[d.Size])})
		case l.Kind == model.Grain || l.Kind == model.FoldLine:
			out = append(out, d)
		default:
			for _, o := range nest {
				out = append(out, model.SizedPath{Size: o.Size, Path: movedPath(d.Path, by[o.Size])})
			}
		}
	}
	return out
}

func movedPath(p geom.Path, v geom.Vec) geom.Path {
	if v.IsZero() {
		return p
	}
	return p.Move(v)
}

func movedApex(d model.Dart, nest []model.Outline, by map[string]geom.Vec) []model.SizedPoint {
	var out []model.SizedPoint
	for _, a := range d.Apex {
		if a.Size != "" {
			out = append(out, model.SizedPoint{Size: a.Size, At: a.At.Add(by[a.Size])})
			continue
		}
		for _, o := range nest {
			out = append(out, model.SizedPoint{Size: o.Size, At: a.At.Add(by[o.Size])})
		}
	}
	return out
}
