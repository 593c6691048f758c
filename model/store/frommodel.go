package store

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

func fromPattern(p model.Pattern) patternData {
	return patternData{
		Name: p.Name, Note: p.Note, Unit: string(p.Unit),
		Chart:  fromChart(p.Chart),
		Target: targetData{Place: p.Target.Place, Method: string(p.Target.Method), Wearer: p.Target.Wearer},
		Pieces: each(p.Pieces, fromPiece),
		Links:  each(p.Links, fromLink),
	}
}

func fromChart(c model.SizeChart) chartData {
	return chartData{
		ID: c.ID, Name: c.Name, Source: c.Source, Status: c.Status,
		Measures: each(c.Measures, func(m model.Measure) string { return string(m) }),
		Sizes:    each(c.Sizes, fromSize),
	}
}

func fromSize(s model.ChartSize) sizeData {
	d := sizeData{Name: s.Name, Code: s.Alt, Body: make(map[string]float64, len(s.Body))}
	for m, mm := range s.Body {
		d.Body[string(m)] = mm
	}
	return d
}

func fromPiece(q model.Piece) pieceData {
	return pieceData{
		ID: q.ID, Name: q.Name, Cut: q.Cut, At: fromVec(q.At),
		Points:  each(q.Points, fromPoint),
		Edges:   each(q.Edges, fromEdge),
		Nest:    each(q.Nest, fromOutline),
		Lines:   each(q.Lines, fromLine),
		Notches: each(q.Notches, fromNotch),
		Darts:   each(q.Darts, fromDart),
		Hand: handData{
			Moves:  each(q.Hand.Moves, fromMove),
			Shapes: each(q.Hand.Shapes, fromShape),
		},
	}
}

func fromPoint(g model.GradePoint) pointData {
	return pointData{ID: g.ID, Name: g.Name, Smooth: g.Smooth, Locked: g.Locked, Across: string(g.Across), Along: string(g.Along)}
}

func fromEdge(e model.Edge) edgeData {
	return edgeData{ID: e.ID, Name: e.Name, Kind: string(e.Kind), Allowance: e.Allowance}
}

func fromOutline(o model.Outline) outlineData {
	return outlineData{Size: o.Size, Edges: each(o.Edges, fromPath)}
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
		Apex: each(d.Apex, func(a model.SizedPoint) sizedPointData {
			return sizedPointData{Size: a.Size, At: fromVec(geom.Vec(a.At))}
		}),
	}
}

func fromMove(m model.PointMove) moveData { return moveData{Point: m.Point, By: fromVec(m.By)} }

func fromShape(s model.EdgeShape) shapeData {
	return shapeData{Edge: s.Edge, By: each(s.By, fromVec)}
}

func fromLink(l model.Link) linkData {
	return linkData{
		ID: l.ID, Kind: string(l.Kind), Lead: stretchData(l.Lead), Follow: stretchData(l.Follow),
		Ease: l.Ease, EaseFixed: l.EaseFixed,
	}
}

func fromVec(v geom.Vec) pair { return pair{v.X, v.Y} }

func fromPath(p geom.Path) []curve {
	return each(p, func(c geom.Cubic) curve {
		return curve{c.P0.X, c.P0.Y, c.P1.X, c.P1.Y, c.P2.X, c.P2.Y, c.P3.X, c.P3.Y}
	})
}
