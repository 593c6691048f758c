package draft

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// part is what does not change from size to size in one piece.
type part struct {
	id, name string
	cut      int
	lining   int
	corners  []corner
	lines    []mark
	notches  []notch
	dart     dart
	// along names grade points that go along the grain by another measure than
	// the garment's lengths do.
	along map[string]model.Measure
}

// corner is a grade point and the edge that starts there.
type corner struct {
	point  string
	across model.Measure
	smooth bool
	edge   string
	kind   model.EdgeKind
	seam   float64 // allowance, mm
}

type mark struct {
	name string
	kind model.LineKind
}

type notch struct {
	edge   string
	double bool
}

// dart names the grade points at its two legs; the zero dart is none.
type dart struct{ name, from, to string }

// sheet is one piece drawn for one body, its lists as the part's.
type sheet struct {
	edges   []geom.Path
	lines   []geom.Path
	notches []float64
	apex    geom.Point
}

// id is a name that serves as ID in its piece.
func id(name string) string { return strings.ReplaceAll(name, " ", "-") }

// index is the edge of that name; an edge of another name is a fault here.
func (p part) index(edge string) int {
	i := slices.IndexFunc(p.corners, func(c corner) bool { return c.edge == edge })
	if i < 0 {
		panic(fmt.Sprintf("%s has no edge %q", p.name, edge))
	}
	return i
}

// piece is the part with its printed sizes; sheets are in the order of sizes.
func (p part) piece(along model.Measure, sizes []string, sheets []sheet) model.Piece {
	called := said()
	q := model.Piece{ID: p.id, Name: called[p.name], Cut: p.cut, Lining: p.lining}
	for _, c := range p.corners {
		q.Points = append(q.Points, model.GradePoint{
			ID: id(c.point), Name: called[c.point], Smooth: c.smooth, Across: c.across, Along: cmp.Or(p.along[c.point], along),
		})
		q.Edges = append(q.Edges, model.Edge{ID: id(c.edge), Name: called[c.edge], Kind: c.kind, Allowance: c.seam})
	}
	for i, s := range sheets {
		q.Nest = append(q.Nest, model.Outline{Size: sizes[i], Edges: s.edges})
	}
	for k, m := range p.lines {
		l := model.Line{ID: id(m.name), Name: called[m.name], Kind: m.kind}
		for i, s := range sheets {
			l.Drawn = append(l.Drawn, model.SizedPath{Size: sizes[i], Path: s.lines[k]})
		}
		q.Lines = append(q.Lines, l)
	}
	for k, n := range p.notches {
		m := model.Notch{ID: fmt.Sprintf("notch-%d", k+1), Edge: id(n.edge), Double: n.double}
		for i, s := range sheets {
			m.Spots = append(m.Spots, model.Spot{Size: sizes[i], S: s.notches[k]})
		}
		q.Notches = append(q.Notches, m)
	}
	if p.dart != (dart{}) {
		d := model.Dart{
			ID: id(p.dart.name), Name: called[p.dart.name], From: id(p.dart.from), To: id(p.dart.to),
			Across: model.Bust, Along: along,
		}
		for i, s := range sheets {
			d.Apex = append(d.Apex, model.SizedPoint{Size: sizes[i], At: s.apex})
		}
		q.Darts = []model.Dart{d}
	}
	return q
}
