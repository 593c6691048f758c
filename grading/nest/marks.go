package nest

import (
	"sort"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// track is one point of a mark with the printed sizes it was drawn in.
type track struct {
	print print
	point point
}

// lineFit is a line of the piece: one track per control point, or a path that
// serves all sizes.
type lineFit struct {
	line   model.Line
	fixed  geom.Path
	tracks []track
}

// notchFit is a notch: its share of the edge's length per printed size.
type notchFit struct {
	notch  model.Notch
	edge   int
	print  print
	shares []float64
}

// dartFit is a dart: its apex.
type dartFit struct {
	dart     model.Dart
	from, to int
	apex     track
}

// sized pairs a value with its size's place on the chart.
type sized[T any] struct {
	place int
	value T
}

// bySize orders values by their size's place and leaves out sizes the chart
// lacks; the value for size "" is returned apart.
func bySize[T any](chart model.SizeChart, n int, at func(i int) (string, T)) (out []sized[T], all *T) {
	for i := range n {
		size, v := at(i)
		if size == "" {
			all = &v
			continue
		}
		if place, ok := chart.Place(size); ok {
			out = append(out, sized[T]{place, v})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].place < out[j].place })
	return out, all
}

func (fit *Fit) readMarks() error {
	for _, l := range fit.piece.Lines {
		fit.lines = append(fit.lines, fit.readLine(l))
	}
	for _, m := range fit.piece.Notches {
		read, err := fit.readNotch(m)
		if err != nil {
			return err
		}
		fit.notches = append(fit.notches, read)
	}
	for _, d := range fit.piece.Darts {
		read, err := fit.readDart(d)
		if err != nil {
			return err
		}
		fit.darts = append(fit.darts, read)
	}
	return nil
}

func (fit *Fit) readLine(l model.Line) lineFit {
	chart := fit.print.chart
	drawn, all := bySize(chart, len(l.Drawn), func(i int) (string, geom.Path) { return l.Drawn[i].Size, l.Drawn[i].Path })
	out := lineFit{line: l}
	for _, d := range drawn {
		if len(d.value) != len(drawn[0].value) {
			drawn = drawn[:1] // drawn differently from size to size: nothing to carry on
			break
		}
	}
	switch {
	case all != nil:
		out.fixed = *all
	case len(drawn) == 1:
		out.fixed = drawn[0].value
	case len(drawn) > 1:
		n := print{chart: chart}
		for _, d := range drawn {
			n.lines = append(n.lines, fit.lineOf(d.place))
		}
		follow := Follows{available(chart, lineMeasure(l.Kind)), available(chart, model.BackWaist)}
		for k := range drawn[0].value.Controls() {
			at := make([]axes, len(drawn))
			for i, d := range drawn {
				at[i] = fit.frame.of(d.value.Controls()[k])
			}
			out.tracks = append(out.tracks, track{n, newPoint(n, at, follow)})
		}
	}
	return out
}

// lineOf is the printed line of the size at place, with all sizes that share it.
func (fit *Fit) lineOf(place int) span {
	if i, ok := fit.print.at(float64(place)); ok {
		return fit.print.lines[i]
	}
	return span{float64(place), float64(place)}
}

func lineMeasure(k model.LineKind) model.Measure {
	switch k {
	case model.WaistLine, model.Lengthen:
		return model.Waist
	case model.HipLine:
		return model.Hip
	case model.Grain, model.FoldLine:
		return model.Steps
	}
	return model.Bust
}

func (fit *Fit) readNotch(m model.Notch) (notchFit, error) {
	edge := fit.piece.EdgeIndex(m.Edge)
	if edge < 0 {
		return notchFit{}, words.Errorf("%s: a notch lies on an edge that is not there", fit.piece.Name)
	}
	spots, all := bySize(fit.print.chart, len(m.Spots), func(i int) (string, float64) { return m.Spots[i].Size, m.Spots[i].S })
	out := notchFit{notch: m, edge: edge, print: print{chart: fit.print.chart}}
	if all != nil {
		for _, l := range fit.print.lines {
			spots = append(spots, sized[float64]{int(l.lo), *all})
		}
	}
	for _, s := range spots {
		i, ok := fit.print.at(float64(s.place))
		if !ok {
			continue
		}
		l, err := fit.piece.Nest[i].Edges[edge].Length(arcTol)
		if err != nil {
			return notchFit{}, err
		}
		out.print.lines = append(out.print.lines, fit.print.lines[i])
		out.shares = append(out.shares, min(1, s.value/l))
	}
	if len(out.shares) == 0 {
		return notchFit{}, words.Errorf("%s: a notch is marked in no printed size", fit.piece.Name)
	}
	return out, nil
}

func (fit *Fit) readDart(d model.Dart) (dartFit, error) {
	out := dartFit{dart: d, from: fit.piece.PointIndex(d.From), to: fit.piece.PointIndex(d.To)}
	if out.from < 0 || out.to < 0 || len(d.Apex) == 0 {
		return out, words.Errorf("%s: dart %s lacks a leg or its apex", fit.piece.Name, d.Name)
	}
	chart := fit.print.chart
	apex, all := bySize(chart, len(d.Apex), func(i int) (string, geom.Point) { return d.Apex[i].Size, d.Apex[i].At })
	if all != nil {
		apex = []sized[geom.Point]{{int(fit.print.lines[0].lo), *all}}
	}
	n := print{chart: chart}
	var at []axes
	for _, s := range apex {
		n.lines = append(n.lines, fit.lineOf(s.place))
		at = append(at, fit.frame.of(s.value))
	}
	f := Follows{d.Across, d.Along}
	if f.Across == "" {
		f.Across = model.Bust
	}
	if f.Along == "" {
		f.Along = model.BackWaist
	}
	out.apex = track{n, newPoint(n, at, Follows{available(chart, f.Across), available(chart, f.Along)})}
	return out, nil
}

// Lines is every line of the piece as wanted, in the piece's order.
func (fit *Fit) Lines(t model.Target) []geom.Path {
	w := fit.aim(t)
	out := make([]geom.Path, len(fit.lines))
	for i, l := range fit.lines {
		out[i] = l.fixed
		if fit.cutting != nil {
			out[i] = fit.cutPath(l.fixed, w)
		}
		if l.tracks == nil {
			continue
		}
		pts := make([]geom.Point, len(l.tracks))
		for k, tr := range l.tracks {
			pts[k] = fit.frame.point(tr.point.place(tr.print, fit.frame, w)).Add(fit.back(w.place))
		}
		out[i] = geom.FromControls(pts)
	}
	return out
}

// NotchShare is where notch i lies as wanted: its edge and its share, 0 to 1,
// of that edge's length. Beyond the printed sizes the nearest one's share
// holds; between two it goes from one to the other.
func (fit *Fit) NotchShare(i int, t model.Target) (edge int, share float64) {
	m := fit.notches[i]
	place := fit.aim(t).at(fit.points[m.edge].rates[0].measure)
	if j, ok := m.print.around(place); ok {
		s := m.print.share(model.Steps, place, j)
		return m.edge, m.shares[j] + s*(m.shares[j+1]-m.shares[j])
	}
	return m.edge, m.shares[m.print.nearest(place)]
}

// Apex is the apex of dart i as wanted, and the indices of the grade points at
// its two legs.
func (fit *Fit) Apex(i int, t model.Target) (apex geom.Point, from, to int) {
	d := fit.darts[i]
	if fit.cutting != nil {
		at := fit.frame.point(d.apex.point.at[0])
		return at.Add(fit.cutMoves(at, fit.aim(t))), d.from, d.to
	}
	w := fit.aim(t)
	return fit.frame.point(d.apex.point.place(d.apex.print, fit.frame, w)).Add(fit.back(w.place)), d.from, d.to
}
