package edit

import (
	"fmt"
	"slices"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// AddTracedLine marks a line on the piece being traced: grain, lengthen line,
// bust, waist or hip. Size is empty for all sizes.
func AddTracedLine(id string, kind model.LineKind, size string, from, to geom.Point) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		drawn := model.SizedPath{Size: size, Path: geom.Path{geom.Line(from, to)}}
		t.Lines = slices.Clone(t.Lines)
		if i := slices.IndexFunc(t.Lines, func(l model.Line) bool { return l.Kind == kind && kind != model.Lengthen && kind != model.Inner }); i >= 0 {
			all := without(t.Lines[i].Drawn, func(d model.SizedPath) bool { return d.Size == size })
			t.Lines[i].Drawn = append(slices.Clone(all), drawn)
			return t, nil
		}
		t.Lines = append(t.Lines, model.Line{ID: fmt.Sprintf("line-%d", len(t.Lines)+1), Kind: kind, Drawn: []model.SizedPath{drawn}})
		return t, nil
	})
}

// AddTracedNotch marks a notch where it is printed.
func AddTracedNotch(id, size string, at geom.Point, double bool) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		t.Notches = append(slices.Clone(t.Notches), model.TracedNotch{At: at, Size: size, Double: double})
		return t, nil
	})
}

// AddTracedDart marks a dart by its two leg ends and its point.
func AddTracedDart(id, name, size string, from, apex, to geom.Point) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		t.Darts = append(slices.Clone(t.Darts), model.TracedDart{Name: name, From: from, Apex: apex, To: to, Size: size})
		return t, nil
	})
}

// UndoTracedMark takes back the last line, notch or dart of the kind named
// "line", "notch" or "dart".
func UndoTracedMark(id, what string) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		switch {
		case what == "line" && len(t.Lines) > 0:
			t.Lines = t.Lines[: len(t.Lines)-1 : len(t.Lines)-1]
		case what == "notch" && len(t.Notches) > 0:
			t.Notches = t.Notches[: len(t.Notches)-1 : len(t.Notches)-1]
		case what == "dart" && len(t.Darts) > 0:
			t.Darts = t.Darts[: len(t.Darts)-1 : len(t.Darts)-1]
		default:
			return t, fmt.Errorf("there is no %s to take back", what)
		}
		return t, nil
	})
}
