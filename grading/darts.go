package grading

import (
	"slices"

	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// laidDarts is what keeping and truing did to the darts of a piece: by how many
// mm the leg ends of each went, and why one could not be kept or trued.
type laidDarts struct {
	moved []float64
	why   []string
}

// layDarts keeps and trues the darts of q that are to be on the line that the
// hand left, dart by dart; without any the line is the very same. apexes are
// the tips of its darts.
func layDarts(q model.Piece, c model.SizeChart, place float64, hand *laid, apexes []geom.Point) laidDarts {
	out := laidDarts{make([]float64, len(q.Darts)), make([]string, len(q.Darts))}
	for i, d := range q.Darts {
		if !d.TakeUpKept && !d.Trued {
			continue
		}
		was := hand.edges
		at, edges, err := layDart(q, c, place, d, was, apexes[i])
		if err != nil {
			out.why[i] = err.Error()
			continue
		}
		hand.edges = edges
		out.moved[i] = max(was[at.From].Start().Dist(edges[at.From].Start()), was[at.To].Start().Dist(edges[at.To].Start()))
		hand.handles = dartHandles(hand.handles, was, edges, at)
	}
	return out
}

// layDart keeps the width of dart d as the nearest printed size has it, and
// trues it, as it asks.
func layDart(q model.Piece, c model.SizeChart, place float64, d model.Dart, edges []geom.Path, apex geom.Point) (dart.Dart, []geom.Path, error) {
	at, err := dart.Read(q, d, apex)
	if err != nil {
		return at, nil, err
	}
	if d.TakeUpKept {
		o := nearestPrinted(q, c, place)
		if edges, err = at.Keep(edges, at.Printed(d, o).Width(o.Edges)); err != nil {
			return at, nil, err
		}
	}
	if d.Trued {
		edges, err = at.True(edges)
	}
	return at, edges, err
}

// dartHandles is handles with none left on a cap that was drawn anew, and the
// ends of those beside it where their edges now end.
func dartHandles(handles [][]geom.Point, was, now []geom.Path, d dart.Dart) [][]geom.Point {
	n := len(now)
	if handles == nil {
		handles = make([][]geom.Point, n)
	}
	out := slices.Clone(handles)
	for j := range out {
		if isCap := (j-d.From+n)%n < (d.To-d.From+n)%n; isCap && !slices.Equal(was[j], now[j]) {
			out[j] = []geom.Point{now[j].Start(), now[j].End()}
		} else if h := out[j]; h != nil {
			out[j] = slices.Clone(h)
			out[j][0], out[j][len(h)-1] = now[j].Start(), now[j].End()
		}
	}
	return out
}

// darts measures the darts of q on its line, their tips where they lie now.
func (l laidDarts) darts(q model.Piece, r *Piece, apexes []geom.Point) []Dart {
	out := make([]Dart, 0, len(q.Darts))
	for i, d := range q.Darts {
		g := Dart{ID: d.ID, Name: d.Name, Apex: apexes[i], Moved: l.moved[i], Why: l.why[i]}
		at, err := dart.Read(q, d, apexes[i])
		if err == nil {
			g.Leg1, g.Leg2 = r.Edges[at.From].Start(), r.Edges[at.To].Start()
			g.TakeUp = at.TakeUp(r.Edges)
			g.Kink, g.LegsDiffer = at.Kink(r.Edges)
			if sewn, err := at.LegsDiffer(r.Edges); err == nil {
				g.LegsDiffer = sewn
			}
		}
		out = append(out, g)
	}
	return out
}
