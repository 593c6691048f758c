package dart

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// areaTol is how exactly it need be known on which side of a line a place lies,
// mm.
const areaTol = 0.1

// foldsOnto is the side the dart is folded onto: a dart that opens along the
// grain is folded towards the hem, one that opens across it towards the centre
// line, or the middle of the piece where it has none. Common practice.
func (d Dart) foldsOnto(q model.Piece, edges []geom.Path) Side {
	a, b := d.legs(edges)
	mouth := b.Sub(a)
	across, along := q.AcrossAlong(mouth)
	onto := along > 0
	if math.Abs(across) > math.Abs(along) {
		onto = centreOf(q, edges).Sub(a.Lerp(b, 0.5)).Dot(mouth) > 0
	}
	if onto {
		return After
	}
	return Before
}

// centreOf is the middle of the piece's fold or centre line, else of the piece.
func centreOf(q model.Piece, edges []geom.Path) geom.Point {
	for j, e := range q.Edges {
		if still(e) {
			return edges[j].Start().Lerp(edges[j].End(), 0.5)
		}
	}
	return geom.Join(edges...).Bounds().Centre()
}

// still reports whether an edge lies on a fold or centre line.
func still(e model.Edge) bool { return e.Kind == model.Fold || e.Kind == model.Centre }

// part is the run of edges on one side of a dart that can turn.
type part struct {
	edges []int
	tear  int // grade point at the far end of the run
	grain bool
	area  float64
}

// turns chooses which side of the dart turns: the one without the grain line,
// else the smaller.
func (d Dart) turns(q model.Piece, edges []geom.Path) (turned []bool, tear int, side Side) {
	best := part{}
	for _, s := range []Side{Before, After} {
		p := d.run(q, edges, s)
		if len(p.edges) == 0 {
			continue
		}
		better := len(best.edges) == 0 || best.grain && !p.grain || best.grain == p.grain && p.area < best.area
		if better {
			best, side = p, s
		}
	}
	if len(best.edges) == 0 {
		return nil, 0, side
	}
	turned = make([]bool, len(edges))
	for _, j := range best.edges {
		turned[j] = true
	}
	return turned, best.tear, side
}

// run is the edges from a leg on, as far as the first corner a quarter turn
// round the apex from the dart's mouth, and never over a fold or centre line.
func (d Dart) run(q model.Piece, edges []geom.Path, s Side) part {
	n := len(edges)
	step, first, last := 1, d.To, d.before(n)
	if s == Before {
		step, first, last = n-1, last, first
	}
	a, b := d.legs(edges)
	mouth := a.Lerp(b, 0.5).Sub(d.Apex)
	var out part
	for j := first; j != last && !still(q.Edges[j]); j = (j + step) % n {
		out.edges = append(out.edges, j)
		out.tear = j
		if s == After {
			out.tear = (j + 1) % n
		}
		if !q.Points[out.tear].Smooth && edges[out.tear].Start().Sub(d.Apex).Dot(mouth) <= 0 {
			break
		}
	}
	if len(out.edges) > 0 {
		out.area, out.grain = d.covers(q, edges, out.edges)
	}
	return out
}

// covers is the area between the apex and a run of edges, and whether the grain
// line lies in it.
func (d Dart) covers(q model.Piece, edges []geom.Path, run []int) (area float64, grain bool) {
	if len(run) > 1 && run[1] != (run[0]+1)%len(edges) {
		run = reversed(run)
	}
	apex := geom.Path{geom.Line(d.Apex, d.Apex)}
	ring := []geom.Path{apex}
	for _, j := range run {
		ring = append(ring, edges[j])
	}
	whole := geom.Join(append(ring, apex)...)
	for _, l := range q.Lines {
		if l.Kind != model.Grain || len(l.Drawn) == 0 {
			continue
		}
		g := l.Drawn[len(l.Drawn)-1].Path
		grain = grain || whole.Contains(g.Start().Lerp(g.End(), 0.5), areaTol)
	}
	return math.Abs(whole.Area()), grain
}

func reversed(run []int) []int {
	out := make([]int, len(run))
	for i, j := range run {
		out[len(run)-1-i] = j
	}
	return out
}
