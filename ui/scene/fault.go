package scene

import (
	"strconv"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Fault is a place to look at: on an edge, or somewhere on a piece. Number is
// its number in the list of checks; 0 for none.
type Fault struct {
	Ref    Ref
	At     geom.Point // in the piece's own coordinates
	Number int
	// Along is what is hatched, on one edge or several; empty for all of Ref's edge,
	// or for what lies near Ref's point.
	Along []Along
}

// Along is part of an edge's line, in the piece's own coordinates.
type Along struct {
	Edge string
	Line geom.Path
}

const (
	// faultReach is how far along an edge, in mm to either side, the fault of a
	// grade point is hatched.
	faultReach = 25
	// faultAside is how far from the line its diamond stands, px.
	faultAside = 29
)

// look marks what to look at on a piece, outside its line: a hatched band and a
// numbered diamond.
func (l *Layer) look(in Input, q model.Piece, edges []geom.Path) {
	outside := -1.0
	if geom.Join(edges...).Area() < 0 {
		outside = 1
	}
	var taken []geom.Point
	for _, f := range in.Look {
		if f.Ref.Piece != q.ID {
			continue
		}
		at, aside := in.PlaceOf(f.Ref).Apply(f.At), geom.Vec{}
		if k := q.EdgeIndex(f.Ref.Edge); k >= 0 {
			for _, band := range in.bandsOf(f, edges[k], at) {
				l.Lines = append(
					l.Lines,
					Line{Path: band, Width: 10, Ink: InkLookFill, Alpha: 0.55, Shift: 11 * outside},
					Line{Path: band, Width: 10, Dash: []float64{1.5, 5}, Ink: InkLookLine, Alpha: 1, Shift: 11 * outside},
				)
			}
			var dir geom.Vec
			at, dir = nearestOn(edges[k], at)
			aside = dir.Perp().Scale(faultAside * outside)
		}
		for _, t := range taken { // beside one that stands there already
			if t.Dist(at)*in.Scale < 1 {
				aside = aside.Add(geom.Vec{X: 24})
			}
		}
		taken = append(taken, at)
		l.diamond(at, aside, f.Number)
	}
}

func (l *Layer) diamond(at geom.Point, aside geom.Vec, number int) {
	d := Dot{At: at, DX: aside.X, DY: aside.Y, Radius: 12, Ink: InkLookFill, Mark: LookAt}
	if number > 0 {
		d.Mark = Numbered
		l.Texts = append(l.Texts, Text{
			Words: strconv.Itoa(number), At: at, DX: aside.X, DY: aside.Y, Size: 13, Bold: true, Ink: InkOnLook,
		})
	}
	l.Dots = append(l.Dots, d)
}

// nearestOn is the place of a path nearest to at, and its direction there.
func nearestOn(e geom.Path, at geom.Point) (geom.Point, geom.Vec) {
	const tol = 0.1
	i, t, _ := e.Nearest(at, tol)
	return e[i].At(t), e[i].Tangent(t)
}

// bandsOf is what is hatched for a fault at a place of edge e, both on the Table.
func (in Input) bandsOf(f Fault, e geom.Path, at geom.Point) []geom.Path {
	if len(f.Along) == 0 {
		return []geom.Path{bandOf(e, at, f.Ref.Point != "")}
	}
	var out []geom.Path
	for _, a := range f.Along {
		out = append(out, a.Line.Transform(in.PlaceOf(Ref{Piece: f.Ref.Piece, Edge: a.Edge})))
	}
	return out
}

// bandOf is the stretch of an edge that is hatched: all of it, or what lies near
// a grade point.
func bandOf(e geom.Path, at geom.Point, nearPoint bool) geom.Path {
	const tol = 0.1
	m, err := geom.Measure(e, tol)
	if err != nil || !nearPoint {
		return e
	}
	if at.Dist(e.Start()) < at.Dist(e.End()) {
		return m.Between(0, faultReach)
	}
	return m.Between(m.Length()-faultReach, m.Length())
}
