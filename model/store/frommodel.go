package store

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

func fromPattern(p model.Pattern) patternData {
	return patternData{
		Name: p.Name, Note: p.Note, Unit: string(p.Unit),
		Chart:    fromChart(p.Chart),
		Target:   fromTarget(p.Target),
		Pieces:   each(p.Pieces, fromPiece),
		Links:    each(p.Links, fromLink),
		Lengths:  each(p.Lengths, fromLength),
		Limits:   p.Limits,
		Pictures: each(p.Pictures, fromPicture),
		Tracings: each(p.Tracings, fromTracing),
	}
}

func fromTarget(t model.Target) targetData {
	return targetData{Place: t.Place, Method: string(t.Method), Wearer: t.Wearer, Body: fromBody(t.Body), Stages: t.Stages}
}

// fromBody is body measures by plain name; none gives nothing.
func fromBody(body map[model.Measure]float64) map[string]float64 {
	if len(body) == 0 {
		return nil
	}
	out := make(map[string]float64, len(body))
	for m, mm := range body {
		out[string(m)] = mm
	}
	return out
}

func fromChart(c model.SizeChart) chartData {
	return chartData{
		ID: c.ID, Name: c.Name, Source: c.Source, Status: c.Status,
		Measures: each(c.Measures, func(m model.Measure) string { return string(m) }),
		Sizes:    each(c.Sizes, fromSize),
	}
}

func fromSize(s model.ChartSize) sizeData {
	return sizeData{Name: s.Name, Code: s.Alt, Body: fromBody(s.Body)}
}

func fromPiece(q model.Piece) pieceData {
	return pieceData{
		ID: q.ID, Name: q.Name, Cut: q.Cut, Lining: q.Lining, At: fromVec(q.At),
		Points:    each(q.Points, fromPoint),
		Edges:     each(q.Edges, fromEdge),
		Nest:      each(q.Nest, fromOutline),
		Lines:     each(q.Lines, fromLine),
		Notches:   each(q.Notches, fromNotch),
		Darts:     each(q.Darts, fromDart),
		OneForAll: q.OneForAll,
		Gaps:      each(q.Gaps, func(g model.Gap) gapData { return gapData(g) }),
		Cuts:      each(q.Cuts, fromCut),
		Hand:      fromHand(q.Hand),
		Picture:   q.Picture,
	}
}

func fromCut(c model.Cut) cutData {
	return cutData{ID: c.ID, From: fromVec(geom.Vec(c.From)), To: fromVec(geom.Vec(c.To)), Measure: string(c.Measure), Share: c.Share}
}

func fromHand(h model.Hand) handData {
	return handData{
		Curves: each(h.Curves, func(c model.EdgeCurve) curveData {
			return curveData{Edge: c.Edge, Kind: string(c.Kind), Size: c.Size}
		}),
		Moves:   each(h.Moves, fromMove),
		Shifts:  each(h.Shifts, func(s model.EdgeShift) shiftData { return shiftData(s) }),
		Shapes:  each(h.Shapes, fromShape),
		Through: h.Through,
	}
}

func fromPoint(g model.GradePoint) pointData {
	return pointData{ID: g.ID, Name: g.Name, Smooth: g.Smooth, Locked: g.Locked, Across: string(g.Across), Along: string(g.Along)}
}

func fromEdge(e model.Edge) edgeData {
	return edgeData{ID: e.ID, Name: e.Name, Kind: string(e.Kind), Allowance: e.Allowance}
}

func fromOutline(o model.Outline) outlineData {
	return outlineData{Size: o.Size, Also: o.Also, Edges: each(o.Edges, fromPath)}
}

func fromLine(l model.Line) lineData {
	return lineData{ID: l.ID, Name: l.Name, Kind: string(l.Kind), Drawn: each(l.Drawn, fromSizedPath)}
}

func fromSizedPath(s model.SizedPath) sizedPathData {
	return sizedPathData{Size: s.Size, Path: fromPath(s.Path)}
}

func fromNotch(n model.Notch) notchData {
	return notchData{ID: n.ID, Edge: n.Edge, Double: n.Double, Spots: each(n.Spots, func(s model.Spot) spotData { return spotData(s) })}
}

func fromDart(d model.Dart) dartData {
	return dartData{
		ID: d.ID, Name: d.Name, From: d.From, To: d.To, Across: string(d.Across), Along: string(d.Along),
		TakeUpKept: d.TakeUpKept, Trued: d.Trued,
		Apex: each(d.Apex, func(a model.SizedPoint) sizedPointData {
			return sizedPointData{Size: a.Size, At: fromVec(geom.Vec(a.At))}
		}),
	}
}

func fromMove(m model.PointMove) moveData {
	return moveData{Point: m.Point, By: fromVec(m.By), Stage: m.Stage, Style: m.Style}
}

func fromShape(s model.EdgeShape) shapeData {
	return shapeData{Edge: s.Edge, By: each(s.By, fromVec), Stage: s.Stage}
}

func fromLink(l model.Link) linkData {
	return linkData{
		ID: l.ID, Kind: string(l.Kind), Lead: stretchData(l.Lead), Follow: stretchData(l.Follow),
		And: each(l.And, fromStretch), Ease: l.Ease, Room: l.Room, EaseFixed: l.EaseFixed, Refit: string(l.Refit),
	}
}

func fromStretch(s model.Stretch) stretchData { return stretchData(s) }

func fromLength(l model.Lengthening) lengthData {
	return lengthData{
		ID: l.ID, Name: l.Name, By: l.By, Hems: each(l.Hems, fromStretch),
		Lines: each(l.Lines, func(at model.PieceLine) pieceLineData { return pieceLineData(at) }),
	}
}

func fromVec(v geom.Vec) pair { return pair{v.X, v.Y} }

func fromPath(p geom.Path) []curve {
	return each(p, func(c geom.Cubic) curve {
		return curve{c.P0.X, c.P0.Y, c.P1.X, c.P1.Y, c.P2.X, c.P2.Y, c.P3.X, c.P3.Y}
	})
}

func fromPicture(q model.Picture) pictureData {
	return pictureData{ID: q.ID, Name: q.Name, File: q.File, PerMM: q.PerMM, At: fromVec(q.At), Faded: q.Faded, Off: q.Off}
}

func fromTracing(t model.Tracing) tracingData {
	return tracingData{
		ID: t.ID, Picture: t.Picture, Name: t.Name, Cut: t.Cut, From: t.Printed[0], To: t.Printed[1],
		Edges: each(t.Edges, fromEdge),
		Sizes: each(t.Sizes, func(s model.TracedSize) tracedSizeData {
			return tracedSizeData{Size: s.Size, Corners: each(s.Corners, fromPlace), Edges: each(s.Edges, fromPath), Closed: s.Closed}
		}),
		Lines: each(t.Lines, fromLine),
		Notches: each(t.Notches, func(n model.TracedNotch) tracedNotchData {
			return tracedNotchData{At: fromPlace(n.At), Size: n.Size, Double: n.Double}
		}),
		Darts: each(t.Darts, func(d model.TracedDart) tracedDartData {
			return tracedDartData{Name: d.Name, From: fromPlace(d.From), Apex: fromPlace(d.Apex), To: fromPlace(d.To), Size: d.Size}
		}),
	}
}

func fromPlace(p geom.Point) pair { return fromVec(geom.Vec(p)) }
