package store

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// each is f of every item of in; nothing gives nothing.
func each[A, B any](in []A, f func(A) B) []B {
	if len(in) == 0 {
		return nil
	}
	out := make([]B, len(in))
	for i, a := range in {
		out[i] = f(a)
	}
	return out
}

func (d patternData) pattern() model.Pattern {
	return model.Pattern{
		Name: d.Name, Note: d.Note, Unit: model.Unit(d.Unit),
		Chart:  d.Chart.chart(),
		Target: model.Target{Place: d.Target.Place, Method: model.Method(d.Target.Method), Wearer: d.Target.Wearer},
		Pieces: each(d.Pieces, pieceData.piece),
		Links:  each(d.Links, linkData.link),
	}
}

func (d chartData) chart() model.SizeChart {
	return model.SizeChart{
		ID: d.ID, Name: d.Name, Source: d.Source, Status: d.Status,
		Measures: each(d.Measures, func(m string) model.Measure { return model.Measure(m) }),
		Sizes:    each(d.Sizes, sizeData.size),
	}
}

func (d sizeData) size() model.ChartSize {
	s := model.ChartSize{Name: d.Name, Alt: d.Code}
	if len(d.Body) > 0 {
		s.Body = make(map[model.Measure]float64, len(d.Body))
	}
	for m, mm := range d.Body {
		s.Body[model.Measure(m)] = mm
	}
	return s
}

func (d pieceData) piece() model.Piece {
	return model.Piece{
		ID: d.ID, Name: d.Name, Cut: d.Cut, At: d.At.vec(),
		Points:  each(d.Points, pointData.point),
		Edges:   each(d.Edges, edgeData.edge),
		Nest:    each(d.Nest, outlineData.outline),
		Lines:   each(d.Lines, lineData.line),
		Notches: each(d.Notches, notchData.notch),
		Darts:   each(d.Darts, dartData.dart),
		Hand: model.Hand{
			Moves:  each(d.Hand.Moves, moveData.move),
			Shapes: each(d.Hand.Shapes, shapeData.shape),
		},
	}
}

func (d pointData) point() model.GradePoint {
	return model.GradePoint{
		ID: d.ID, Name: d.Name, Smooth: d.Smooth, Locked: d.Locked,
		Across: model.Measure(d.Across), Along: model.Measure(d.Along),
	}
}

func (d edgeData) edge() model.Edge {
	return model.Edge{ID: d.ID, Name: d.Name, Kind: model.EdgeKind(d.Kind), Allowance: d.Allowance}
}

func (d outlineData) outline() model.Outline {
	return model.Outline{Size: d.Size, Edges: each(d.Edges, path)}
}

func (d lineData) line() model.Line {
	return model.Line{ID: d.ID, Name: d.Name, Kind: model.LineKind(d.Kind), Drawn: each(d.Drawn, sizedPathData.sizedPath)}
}

func (d sizedPathData) sizedPath() model.SizedPath {
	return model.SizedPath{Size: d.Size, Path: path(d.Path)}
}

func (d notchData) notch() model.Notch {
	return model.Notch{ID: d.ID, Edge: d.Edge, Double: d.Double, Spots: each(d.Spots, func(s spotData) model.Spot { return model.Spot(s) })}
}

func (d dartData) dart() model.Dart {
	return model.Dart{
		ID: d.ID, Name: d.Name, From: d.From, To: d.To,
		Across: model.Measure(d.Across), Along: model.Measure(d.Along),
		Apex: each(d.Apex, func(a sizedPointData) model.SizedPoint {
			return model.SizedPoint{Size: a.Size, At: geom.Point(a.At.vec())}
		}),
	}
}

func (d moveData) move() model.PointMove { return model.PointMove{Point: d.Point, By: d.By.vec()} }

func (d shapeData) shape() model.EdgeShape {
	return model.EdgeShape{Edge: d.Edge, By: each(d.By, pair.vec)}
}

func (d linkData) link() model.Link {
	return model.Link{
		ID: d.ID, Kind: model.LinkKind(d.Kind), Lead: model.Stretch(d.Lead), Follow: model.Stretch(d.Follow),
		Ease: d.Ease, EaseFixed: d.EaseFixed,
	}
}

func (p pair) vec() geom.Vec { return geom.Vec{X: p[0], Y: p[1]} }

func path(curves []curve) geom.Path {
	return each(curves, func(c curve) geom.Cubic {
		return geom.Cubic{P0: geom.Pt(c[0], c[1]), P1: geom.Pt(c[2], c[3]), P2: geom.Pt(c[4], c[5]), P3: geom.Pt(c[6], c[7])}
	})
}
