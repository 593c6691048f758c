package nest

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// laid is how the sizes of a nest were printed on each other, where that was
// not on the centre or fold line: by how much each printed line was moved to
// lie there before anything was read. The movements of a nest laid on its
// underarm, say, are all taken from the underarm, and would each be a sum of
// two measures.
type laid []geom.Vec

// onCentre is q with its sizes laid on its first fold or centre edge, as the
// largest size has it, and by how much each was moved across that edge; q
// itself and nil where they lie there but for a hand's wavering.
func onCentre(q model.Piece, n print) (model.Piece, laid) {
	j := 0
	for j < len(q.Edges) && q.Edges[j].Kind != model.Fold && q.Edges[j].Kind != model.Centre {
		j++
	}
	if j == len(q.Edges) || len(q.Nest) < 2 {
		return q, nil
	}
	last := q.Nest[len(q.Nest)-1].Edges[j]
	across := last.End().Sub(last.Start()).Unit().Perp()
	moves := make(laid, len(q.Nest))
	var drift float64
	for i, o := range q.Nest {
		off := middle(o.Edges[j]).Sub(middle(last)).Dot(across)
		moves[i] = across.Scale(-off)
		drift = math.Max(drift, math.Abs(off))
	}
	if drift <= handDrift*math.Max(1, n.steps()) {
		return q, nil
	}
	return moved(q, moves), moves
}

// handDrift is how far per chart step, in mm, the sizes of a traced nest may
// drift off a line they were laid on.
const handDrift = 0.5

// middle is the mean of places evenly along a path, so that a hand's wavering
// counts little.
func middle(p geom.Path) geom.Point {
	var sum geom.Vec
	pts := p.Flatten(flatWithin)
	var length float64
	for i := 1; i < len(pts); i++ {
		l := pts[i].Dist(pts[i-1])
		sum = sum.Add(geom.Vec(pts[i]).Add(geom.Vec(pts[i-1])).Scale(l / 2))
		length += l
	}
	if length == 0 {
		return p.Start()
	}
	return geom.Point(sum.Scale(1 / length))
}

// flatWithin is how near, in mm, chords keep to a line whose middle is looked
// for.
const flatWithin = 0.01

// moved is q with each printed line and the marks of its sizes moved.
func moved(q model.Piece, by laid) model.Piece {
	of := map[string]geom.Vec{}
	nest := make([]model.Outline, len(q.Nest))
	for i, o := range q.Nest {
		nest[i] = o
		nest[i].Edges = make([]geom.Path, len(o.Edges))
		for j, e := range o.Edges {
			nest[i].Edges[j] = e.Move(by[i])
		}
		for _, size := range o.Sizes() {
			of[size] = by[i]
		}
	}
	lines := make([]model.Line, len(q.Lines))
	for i, l := range q.Lines {
		lines[i] = l
		lines[i].Drawn = make([]model.SizedPath, len(l.Drawn))
		for k, d := range l.Drawn {
			lines[i].Drawn[k] = model.SizedPath{Size: d.Size, Path: d.Path.Move(of[d.Size])}
		}
	}
	darts := make([]model.Dart, len(q.Darts))
	for i, d := range q.Darts {
		darts[i] = d
		darts[i].Apex = make([]model.SizedPoint, len(d.Apex))
		for k, a := range d.Apex {
			darts[i].Apex[k] = model.SizedPoint{Size: a.Size, At: a.At.Add(of[a.Size])}
		}
	}
	q.Nest, q.Lines, q.Darts = nest, lines, darts
	return q
}

// back is how far what is wanted at place t is moved to lie with the print: as
// its nearest printed line was, or between two.
func (fit *Fit) back(t float64) geom.Vec {
	if fit.laid == nil {
		return geom.Vec{}
	}
	if i, ok := fit.print.around(t); ok {
		s := fit.print.share(model.Steps, t, i)
		return fit.laid[i].Scale(s - 1).Sub(fit.laid[i+1].Scale(s))
	}
	return fit.laid[fit.print.nearest(t)].Scale(-1)
}
