package edit

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
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
		t.Lines = append(t.Lines, model.Line{ID: freeLine(t), Kind: kind, Drawn: []model.SizedPath{drawn}})
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

// RemoveTracedMark takes a mark of a piece being traced away: the lines, notches
// and darts count on from one another in this order.
func RemoveTracedMark(id string, nth int) func(model.Pattern) (model.Pattern, error) {
	return onTracing(id, func(t model.Tracing) (model.Tracing, error) {
		l, n, d := len(t.Lines), len(t.Notches), len(t.Darts)
		switch {
		case nth < 0 || nth >= l+n+d:
			return t, words.Error("there is no such mark")
		case nth < l:
			t.Lines = slices.Delete(slices.Clone(t.Lines), nth, nth+1)
		case nth < l+n:
			t.Notches = slices.Delete(slices.Clone(t.Notches), nth-l, nth-l+1)
		default:
			t.Darts = slices.Delete(slices.Clone(t.Darts), nth-l-n, nth-l-n+1)
		}
		return t, nil
	})
}

// freeLine is an ID that no line of a tracing has.
func freeLine(t model.Tracing) string {
	for n := 1; ; n++ {
		id := fmt.Sprintf("line-%d", n)
		if !slices.ContainsFunc(t.Lines, func(l model.Line) bool { return l.ID == id }) {
			return id
		}
	}
}
