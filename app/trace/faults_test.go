package trace_test

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// ring is a closed line of straight edges.
func ring(size string, corners ...geom.Point) model.TracedSize {
	s := model.TracedSize{Size: size, Corners: corners, Closed: true}
	for i, c := range corners {
		s.Edges = append(s.Edges, geom.Polyline(c, corners[(i+1)%len(corners)]))
	}
	return s
}

func box(size string, grown float64) model.TracedSize {
	return ring(size, geom.Pt(0, -grown), geom.Pt(100+grown, -grown), geom.Pt(100+grown, 60+grown), geom.Pt(0, 60+grown))
}

func TestLinesThatCannotBeRight(t *testing.T) {
	_, chart := printed(t)
	spur := box("36", 4)
	spur.Edges[1] = geom.Polyline(geom.Pt(104, -4), geom.Pt(104, 70), geom.Pt(104, 64))
	for _, c := range []struct {
		what  string
		sizes []model.TracedSize
		say   string // empty for nothing
		at    geom.Point
	}{
		{"a nest", []model.TracedSize{box("38", 8), box("34", 0), box("36", 4)}, "", geom.Point{}},
		{"one line alone", []model.TracedSize{box("36", 4)}, "", geom.Point{}},
		{"the wrong order", []model.TracedSize{box("34", 4), box("36", 0)}, "size 36 came out smaller than size 34", geom.Pt(0, 0)},
		{"traced twice", []model.TracedSize{box("34", 4), box("36", 4.2)}, "size 36 runs where size 34 does", geom.Pt(0, -4.2)},
		{"another number of corners", []model.TracedSize{box("34", 0), ring("36", geom.Pt(0, -4), geom.Pt(104, 0), geom.Pt(52, 70))}, "size 36 has 3 corners and size 34 has 4", geom.Pt(0, -4)},
		{"a bow tie", []model.TracedSize{ring("34", geom.Pt(0, 0), geom.Pt(100, 60), geom.Pt(100, 0), geom.Pt(0, 60))}, "the line of size 34 crosses itself", geom.Pt(50, 30)},
		{"a spur", []model.TracedSize{spur}, "an edge of size 36 turns sharply", geom.Pt(104, 70)},
	} {
		got := trace.Faults(model.Tracing{Sizes: c.sizes}, chart)
		found := slices.ContainsFunc(got, func(d follow.Doubt) bool {
			return strings.HasPrefix(d.Say, c.say) && d.At.Dist(c.at) < 0.1
		})
		if (c.say == "") != (len(got) == 0) || c.say != "" && !found {
			t.Errorf("%s: %+v", c.what, got)
		}
	}
}

// A line still open is none of it.
func TestOpenLinesAreLeftAlone(t *testing.T) {
	_, chart := printed(t)
	open := box("36", -9)
	open.Closed, open.Edges = false, open.Edges[:3]
	if got := trace.Faults(model.Tracing{Sizes: []model.TracedSize{box("34", 0), open}}, chart); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}
