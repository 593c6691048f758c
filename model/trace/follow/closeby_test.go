package follow

import (
	"strings"
	"testing"

	"quarterstep/model/geom"
)

// TestDoubtsWhereLinesRunTogether follows a line with 7 mm of its ink missing,
// less than is doubted as white paper: with another line 1 mm beside it, which may
// be the one that goes on there, that is a doubt at that place, whether a size was
// traced or not; with the other 3 mm away, or with no ink missing, it is none.
func TestDoubtsWhereLinesRunTogether(t *testing.T) {
	at := func(y float64) geom.Path {
		return geom.Path{{P0: geom.Pt(10, 40+y), P1: geom.Pt(45, 20+y), P2: geom.Pt(95, 20+y), P3: geom.Pt(130, 40+y)}}
	}
	for _, c := range []struct {
		name   string
		beside float64
		hole   bool
		want   bool
	}{
		{"close beside, ink missing", 1, true, true},
		{"3 mm beside, ink missing", 3, true, false},
		{"close beside, all ink there", 1, false, false},
	} {
		for _, traced := range []bool{false, true} {
			p := newPrint(140, 60, 6)
			line := at(0)
			switch long := lengthOf(dense(line, 0.1)); {
			case c.hole:
				p.line(line, 0.4, 1, long/2-3.5, 7, long)
			default:
				p.line(line, 0.4, 1)
			}
			p.line(at(c.beside), 0.4, 1)
			p.line(at(-5), 0.4, 1)
			f := prepared(t, p.sheet(31))
			var o Options
			if traced {
				o.Guides = []geom.Path{at(-5)}
			}
			e, err := f.Follow(line.Start(), line.End(), nil, o)
			if err != nil {
				t.Fatal(err)
			}
			got := false
			for _, d := range e.Doubts {
				got = got || strings.HasPrefix(d.Say, "Lines run close together") && d.At.Dist(line[0].At(0.5)) < 12
			}
			if got != c.want {
				t.Errorf("%s, traced beside %v: doubted %v: %v", c.name, traced, got, e.Doubts)
			}
		}
	}
}
