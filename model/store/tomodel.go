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

// listed is in; nothing gives nil, as the model has it.
func listed(in []string) []string {
	return each(in, func(s string) string { return s })
}

func (d patternData) pattern() model.Pattern {
	return model.Pattern{
		Name: d.Name, Note: d.Note, Unit: model.Unit(d.Unit),
		Chart:    d.Chart.chart(),
		Target:   d.Target.target(),
		Pieces:   each(d.Pieces, pieceData.piece),
		Links:    each(d.Links, linkData.link),
		Lengths:  each(d.Lengths, lengthData.lengthening),
		Limits:   limits(d.Limits),
		Pictures: each(d.Pictures, pictureData.picture),
		Tracings: each(d.Tracings, tracingData.tracing),
	}
}

func (d targetData) target() model.Target {
	return model.Target{
		Place: d.Place, Method: model.Method(d.Method), Wearer: d.Wearer, Body: toBody(d.Body), Stages: d.Stages,
	}
}

// toBody is the inverse of fromBody.
func toBody(body map[string]float64) map[model.Measure]float64 {
	if len(body) == 0 {
		return nil
	}
	out := make(map[model.Measure]float64, len(body))
	for m, mm := range body {
		out[model.Measure(m)] = mm
	}
	return out
}

func (d chartData) chart() model.SizeChart {
	return model.SizeChart{
		ID: d.ID, Name: d.Name, Source: d.Source, Status: d.Status,
		Measures: each(d.Measures, func(m string) model.Measure { return model.Measure(m) }),
		Sizes:    each(d.Sizes, sizeData.size),
	}
}

func (d sizeData) size() model.ChartSize {
	return model.ChartSize{Name: d.Name, Alt: d.Code, Body: toBody(d.Body)}
}

func (d pieceData) piece() model.Piece {
	return model.Piece{
		ID: d.ID, Name: d.Name, Cut: d.Cut, Lining: d.Lining, At: d.At.vec(),
		Points:    each(d.Points, pointData.point),
		Edges:     each(d.Edges, edgeData.edge),
		Nest:      each(d.Nest, outlineData.outline),
		Lines:     each(d.Lines, lineData.line),
		Notches:   each(d.Notches, notchData.notch),
		Darts:     each(d.Darts, dartData.dart),
		OneForAll: d.OneForAll,
		Gaps:      each(d.Gaps, func(g gapData) model.Gap { return model.Gap(g) }),
		Cuts:      each(d.Cuts, cutData.cut),
		Hand:      d.Hand.hand(),
		Picture:   d.Picture,
	}
}

func (d cutData) cut() model.Cut {
	return model.Cut{ID: d.ID, From: geom.Point(d.From.vec()), To: geom.Point(d.To.vec()), Measure: model.Measure(d.Measure), Share: d.Share}
}

func (d handData) hand() model.Hand {
	return model.Hand{
		Curves: each(d.Curves, func(c curveData) model.EdgeCurve {
			return model.EdgeCurve{Edge: c.Edge, Kind: model.CurveKind(c.Kind), Size: c.Size}
		}),
		Moves:   each(d.Moves, moveData.move),
		Shifts:  each(d.Shifts, func(s shiftData) model.EdgeShift { return model.EdgeShift(s) }),
		Shapes:  each(d.Shapes, shapeData.shape),
		Through: listed(d.Through),
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
	return model.Outline{Size: d.Size, Also: listed(d.Also), Edges: each(d.Edges, path)}
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
		TakeUpKept: d.TakeUpKept, Trued: d.Trued,
		Apex: each(d.Apex, func(a sizedPointData) model.SizedPoint {
			return model.SizedPoint{Size: a.Size, At: geom.Point(a.At.vec())}
		}),
	}
}

func (d moveData) move() model.PointMove {
	return model.PointMove{Point: d.Point, By: d.By.vec(), Stage: d.Stage, Style: d.Style}
}

func (d shapeData) shape() model.EdgeShape {
	return model.EdgeShape{Edge: d.Edge, By: each(d.By, pair.vec), Stage: d.Stage}
}

func (d linkData) link() model.Link {
	return model.Link{
		ID: d.ID, Kind: model.LinkKind(d.Kind), Lead: d.Lead.stretch(), Follow: d.Follow.stretch(),
		And: each(d.And, stretchData.stretch), Ease: d.Ease, Room: d.Room, EaseFixed: d.EaseFixed, Refit: model.Refit(d.Refit),
	}
}

func (d stretchData) stretch() model.Stretch {
	return model.Stretch{Piece: d.Piece, Edges: listed(d.Edges), Reverse: d.Reverse}
}

func (d lengthData) lengthening() model.Lengthening {
	return model.Lengthening{
		ID: d.ID, Name: d.Name, By: d.By, Hems: each(d.Hems, stretchData.stretch),
		Lines: each(d.Lines, func(at pieceLineData) model.PieceLine { return model.PieceLine(at) }),
	}
}

// limits is nil where none is set, as the model has it.
func limits(set map[string]float64) map[string]float64 {
	if len(set) == 0 {
		return nil
	}
	return set
}

func (p pair) vec() geom.Vec { return geom.Vec{X: p[0], Y: p[1]} }

func path(curves []curve) geom.Path {
	return each(curves, func(c curve) geom.Cubic {
		return geom.Cubic{P0: geom.Pt(c[0], c[1]), P1: geom.Pt(c[2], c[3]), P2: geom.Pt(c[4], c[5]), P3: geom.Pt(c[6], c[7])}
	})
}

func (d pictureData) picture() model.Picture {
	return model.Picture{ID: d.ID, Name: d.Name, File: d.File, PerMM: d.PerMM, At: d.At.vec(), Faded: d.Faded, Off: d.Off}
}

func (d tracingData) tracing() model.Tracing {
	return model.Tracing{
		ID: d.ID, Picture: d.Picture, Name: d.Name, Cut: d.Cut, Printed: [2]string{d.From, d.To},
		Edges: each(d.Edges, edgeData.edge),
		Sizes: each(d.Sizes, func(s tracedSizeData) model.TracedSize {
			return model.TracedSize{Size: s.Size, Corners: each(s.Corners, pair.place), Edges: each(s.Edges, path), Closed: s.Closed}
		}),
		Lines: each(d.Lines, lineData.line),
		Notches: each(d.Notches, func(n tracedNotchData) model.TracedNotch {
			return model.TracedNotch{At: n.At.place(), Size: n.Size, Double: n.Double}
		}),
		Darts: each(d.Darts, func(t tracedDartData) model.TracedDart {
			return model.TracedDart{Name: t.Name, From: t.From.place(), Apex: t.Apex.place(), To: t.To.place(), Size: t.Size}
		}),
	}
}

func (p pair) place() geom.Point { return geom.Point(p.vec()) }
