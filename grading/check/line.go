package check

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

func edgeName(q model.Piece, j int) string {
	if n := q.Edges[j].Name; n != "" {
		return n
	}
	return words.F("edge %d", j+1)
}

func pointName(q model.Piece, k int) string {
	if n := q.Points[k].Name; n != "" {
		return n
	}
	return words.F("start of the %s", edgeName(q, k))
}

// crossing finds where the new outline runs across itself.
func crossing(q model.Piece, r grading.Piece) []Finding {
	var out []Finding
	for _, c := range geom.SelfCrossings(r.Outline(), lineTol) {
		out = append(out, Finding{
			Code: "crosses-itself", Piece: q.ID, Where: c.At, Look: true,
			What: words.F("Outline of %s crosses itself", q.Name),
			Say:  words.F("The outline of %s crosses itself.", q.Name),
			Help: words.T("Choose a size nearer the printed ones, or move the points apart."),
		})
	}
	return out
}

// lostEdges finds edges that have shrunk to nearly nothing.
func lostEdges(q model.Piece, r grading.Piece) []Finding {
	var out []Finding
	for j, e := range r.Edges {
		l, err := e.Length(arcTol)
		if err != nil || l >= shortEdge {
			continue
		}
		if was, err := q.Nest[0].Edges[j].Length(arcTol); err == nil && was < shortEdge {
			continue // it was printed that short
		}
		out = append(out, Finding{
			Code: "edge-lost", Piece: q.ID, Edge: q.Edges[j].ID, Where: e.Start(), By: l, Look: true,
			What: words.F("%s of %s is nearly gone", opening(edgeName(q, j)), q.Name),
			Much: words.F("only %s mm long", words.Figure(l, 1)),
			Say:  words.F("The %s of %s is only %s mm long.", edgeName(q, j), q.Name, words.Figure(l, 1)),
			Help: words.T("Choose a size nearer the printed ones."),
		})
	}
	return out
}

// turnedEdges finds edges whose ends have passed each other: the straight way
// from one to the other points back against the printed one.
func turnedEdges(q model.Piece, r grading.Piece) []Finding {
	var out []Finding
	printed := q.Nest[len(q.Nest)-1]
	for j, e := range r.Edges {
		was, now := printed.Edges[j].End().Sub(printed.Edges[j].Start()), e.End().Sub(e.Start())
		if was.Len() < shortEdge || now.Len() < shortEdge || was.Dot(now) > 0 {
			continue
		}
		out = append(out, Finding{
			Code: "edge-turned", Piece: q.ID, Edge: q.Edges[j].ID, Where: middle(e), By: now.Len(), Look: true,
			What: words.F("%s of %s is turned about", opening(edgeName(q, j)), q.Name),
			Much: words.T("its ends have changed places"),
			Say:  words.F("The ends of the %s of %s have changed places.", edgeName(q, j), q.Name),
			Help: words.T("Choose a size nearer the printed ones, or move the points back."), Action: takeBack(q, []int{j}, []int{j, (j + 1) % len(q.Points)}),
		})
	}
	return out
}

// kinks finds smooth points where the new line turns by more than limit degrees
// more than any printed line does.
func kinks(q model.Piece, r grading.Piece, limit float64) []Finding {
	var out []Finding
	n := len(r.Edges)
	for k, g := range q.Points {
		if !g.Smooth {
			continue
		}
		before := (k + n - 1) % n
		turn, printed := turnAt(r.Edges, before, k), 0.0
		for _, o := range q.Nest {
			printed = math.Max(printed, turnAt(o.Edges, before, k))
		}
		if turn > printed+limit {
			out = append(out, Finding{
				Code: "kink", Piece: q.ID, Edge: q.Edges[k].ID, Point: g.ID, Where: r.Edges[k].Start(), Look: true,
				By:   turn,
				What: words.F("%s of %s has a kink", opening(edgeName(q, k)), q.Name),
				Much: words.F("%.0f° at the %s", turn, pointName(q, k)),
				Say:  words.F("The line of %s has a kink of %.0f degrees between %s and %s.", q.Name, turn, edgeName(q, before), edgeName(q, k)),
				Help: words.T("Drag the curve handles beside it into one line."), Action: Action{Do: RunSmooth, Label: words.T("Run it smoothly"), Piece: q.ID, Points: []string{g.ID}},
			})
		}
	}
	return out
}

// turnAt is the angle in degrees between the end of one edge and the start of
// the next.
func turnAt(edges []geom.Path, a, b int) float64 {
	u, v := edges[a].EndDir(), edges[b].StartDir()
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) * 180 / math.Pi
}

// printedBends is the most times each edge of a piece bends in any printed
// size, remembered by the nest they were counted on.
type printedBends map[*model.Outline][]int

func (m printedBends) of(q model.Piece) []int {
	if len(q.Nest) == 0 {
		return nil
	}
	most, ok := m[&q.Nest[0]]
	if ok {
		return most
	}
	most = make([]int, len(q.Edges))
	for _, o := range q.Nest {
		for j, e := range o.Edges {
			most[j] = max(most[j], bends(e))
		}
	}
	m[&q.Nest[0]] = most
	return most
}

// newBends finds edges that bend one way more often than any printed size; most
// is how often those do.
func newBends(q model.Piece, r grading.Piece, most []int) []Finding {
	if r.Printed {
		return nil
	}
	var out []Finding
	for j, e := range r.Edges {
		if got := bends(e); got > most[j] {
			out = append(out, Finding{
				Code: "new-bend", Piece: q.ID, Edge: q.Edges[j].ID, Where: middle(e), Look: true,
				What: words.F("%s of %s has a new bend", opening(edgeName(q, j)), q.Name),
				Much: words.T("no printed size has it"),
				Say:  words.F("The %s of %s has a bend that no printed size has.", edgeName(q, j), q.Name),
				Help: words.T("Look at it up close and drag its curve handles."), Action: takeBack(q, []int{j}, nil),
			})
		}
	}
	return out
}

// bends counts how often a path changes the way it curves, not counting
// changes too slight to see.
func bends(p geom.Path) int {
	const places, slight = 48, 0.15 // degrees of turn between neighbouring places
	m, err := geom.Measure(p, arcTol)
	if err != nil || m.Length() == 0 {
		return 0
	}
	count, way := 0, 0.0
	before := m.Tangent(0)
	for i := 1; i <= places; i++ {
		now := m.Tangent(m.Length() * float64(i) / places)
		turn := math.Atan2(before.Cross(now), before.Dot(now)) * 180 / math.Pi
		before = now
		if math.Abs(turn) < slight {
			continue
		}
		if way*turn < 0 {
			count++
		}
		way = turn
	}
	return count
}

func middle(p geom.Path) geom.Point {
	m, err := geom.Measure(p, arcTol)
	if err != nil {
		return p.Start()
	}
	return m.At(m.Length() / 2)
}

// crossesPrint finds an edge beyond the printed sizes that still crosses the
// nearest printed line.
func crossesPrint(p model.Pattern, q model.Piece, r grading.Piece) []Finding {
	first, last, ok := span(p.Chart, q)
	t := p.Target.Place
	if !ok || len(q.Nest) < 2 || t >= first && t <= last {
		return nil
	}
	near := q.Nest[len(q.Nest)-1]
	before := q.Nest[len(q.Nest)-2]
	if t < first {
		near, before = q.Nest[0], q.Nest[1]
	}
	var out []Finding
	for j, e := range r.Unlengthened() {
		at, crosses := crossInside(e, near.Edges[j])
		if !crosses {
			continue
		}
		if _, printed := crossInside(near.Edges[j], before.Edges[j]); printed {
			continue // the nest itself crosses here
		}
		out = append(out, Finding{
			Code: "crosses-print", Piece: q.ID, Edge: q.Edges[j].ID, Where: at, Look: true,
			What: words.F("%s of %s crosses the print", opening(edgeName(q, j)), q.Name),
			Much: words.F("the line of size %s", near.Size),
			Say:  words.F("The new %s of %s crosses the printed line of size %s.", edgeName(q, j), q.Name, near.Size),
			Help: words.T("Look whether the curve still does what the printed ones do."), Action: takeBack(q, []int{j}, []int{j, (j + 1) % len(q.Points)}),
		})
	}
	return out
}

// crossInside finds a crossing of two edges away from their ends.
func crossInside(a, b geom.Path) (geom.Point, bool) {
	const clear = 3.0 // mm from an end that still counts as meeting there
	for _, c := range geom.Intersect(a, b, lineTol) {
		near := math.Min(math.Min(c.At.Dist(a.Start()), c.At.Dist(a.End())), math.Min(c.At.Dist(b.Start()), c.At.Dist(b.End())))
		if near > clear {
			return c.At, true
		}
	}
	return geom.Point{}, false
}
