package nest

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Edges is the piece's line at the size wanted, edge by edge. exact is true
// where it is a printed line, whose paths themselves are returned. The error
// says in plain words why cut lines cannot be spread; the line is then the
// printed one.
func (fit *Fit) Edges(t model.Target) (edges []geom.Path, exact bool, err error) {
	w := fit.aim(t)
	switch place, one := fit.onePlace(w); {
	case fit.piece.OneForAll:
		return fit.printed[0].Edges, true, nil
	case fit.cutting != nil:
		return fit.cutEdges(w)
	case one:
		edges, exact = fit.edgesAt(place, w.method)
	default:
		edges = make([]geom.Path, len(fit.edges))
		for j := range edges {
			edges[j] = fit.blended(j, w)
		}
		fit.steady(edges)
	}
	if !exact && fit.laid != nil {
		by := fit.back(w.place)
		for j, e := range edges {
			edges[j] = e.Move(by)
		}
	}
	return edges, exact, nil
}

// onePlace is the place that every grade point is wanted at; false where they
// go by different sizes of the chart.
func (fit *Fit) onePlace(w aim) (float64, bool) {
	if len(w.own) == 0 {
		return w.place, true
	}
	place := fit.points[0].wants(w)[0]
	for _, p := range fit.points {
		if t := p.wants(w); t[0] != place || t[1] != place {
			return 0, false
		}
	}
	return place, true
}

// edgesAt is the line at one place of the chart.
func (fit *Fit) edgesAt(t float64, method model.Method) ([]geom.Path, bool) {
	if i, ok := fit.print.at(t); ok {
		return fit.printed[i].Edges, true
	}
	if fit.Frozen() {
		return fit.piece.Nest[0].Edges, false
	}
	edges := make([]geom.Path, len(fit.edges))
	for j := range edges {
		edges[j] = fit.edgeAt(j, t, method)
	}
	if _, ok := fit.print.around(t); !ok {
		fit.steady(edges)
	}
	return edges, false
}

// edgeAt is edge j at one place of the chart.
func (fit *Fit) edgeAt(j int, t float64, method model.Method) geom.Path {
	e, a, b := fit.edges[j], fit.points[j], fit.points[(j+1)%len(fit.points)]
	if i, ok := fit.print.at(t); ok {
		return e.printed[i]
	}
	if i, ok := fit.print.around(t); ok {
		return e.among(fit.frame, i, a.shares(fit.print, i, t, method), b.shares(fit.print, i, t, method))
	}
	return e.beyond(fit.print, fit.frame, t, method,
		a.growth(fit.print, fit.frame, t, method), b.growth(fit.print, fit.frame, t, method))
}

// blended is edge j where the measures of its ends are wanted at different
// places of the chart: in each direction a place on the edge takes its share of
// the line at the end's place, and the rest of the line at the start's.
func (fit *Fit) blended(j int, w aim) geom.Path {
	a, b := fit.points[j], fit.points[(j+1)%len(fit.points)]
	from, to := a.wants(w), b.wants(w)
	lines := make([]geom.Path, 0, 4)
	for _, t := range []float64{from[0], from[1], to[0], to[1]} {
		lines = append(lines, fit.edgeAt(j, t, w.method))
	}
	ctl, ok := cutAlike(fit.frame, lines)
	first, last := a.place(fit.print, fit.frame, w), b.place(fit.print, fit.frame, w)
	if !ok || fit.edges[j].straight {
		return geom.Path{geom.Line(fit.frame.point(first), fit.frame.point(last))}
	}
	pts := make([]geom.Point, len(ctl[0]))
	for k := range pts {
		var at axes
		for d := range at {
			s := fit.edges[j].share(fit.print.nearest(from[d]), d, float64(k)/float64(len(pts)-1))
			at[d] = ctl[d][k][d] + s*(ctl[2+d][k][d]-ctl[d][k][d])
		}
		pts[k] = fit.frame.point(at)
	}
	pts[0], pts[len(pts)-1] = fit.frame.point(first), fit.frame.point(last)
	return geom.FromControls(pts)
}

// cutAlike is the control points of lines that draw one edge, cut to the same
// cubics; false where they cannot be.
func cutAlike(f frame, lines []geom.Path) ([][]axes, bool) {
	for i := 1; i < len(lines); i++ {
		for k := range i {
			var err error
			if lines[k], lines[i], err = sameCubics(lines[k], lines[i], arcTol); err != nil {
				return nil, false
			}
		}
	}
	out := make([][]axes, len(lines))
	for i, l := range lines {
		out[i] = f.all(l.Controls())
	}
	for _, c := range out {
		if len(c) != len(out[0]) {
			return nil, false
		}
	}
	return out, true
}
