package app

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// away is how far a box of words lies from a dense line, in mm; infinite where
// that is far.
func away(t *testing.T, l printing.Label, line geom.Path) float64 {
	t.Helper()
	box := room(t, l)
	best := math.Inf(1)
	for _, c := range line { // dense: its joints serve for its places
		if c.P0.Dist(l.At) > 20 {
			continue
		}
		for i, a := range box {
			for k := range 8 {
				best = math.Min(best, a.Lerp(box[(i+1)%4], float64(k)/8).Dist(c.P0))
			}
		}
	}
	return best
}

// pointedAt is the place of the size's line about which lies the ring to which a
// line of the name's layer leads from the words; false where none does.
func pointedAt(q printing.Piece, l printing.Label, line geom.Path) (geom.Point, bool) {
	for i, s := range q.Strokes {
		if s.Width != pointerWidth || s.Layer != l.Layer || len(s.Path) != 1 || s.Path.End().Dist(wordMiddle(l)) > 2+halfWidth(l) {
			continue
		}
		ring := q.Strokes[i+1].Path.Bounds()
		for _, c := range line {
			if c.P0.Dist(ring.Centre()) < 0.4 && ring.Width() < 1.5 {
				return ring.Centre(), true
			}
		}
	}
	return geom.Point{}, false
}

// dense puts points on a line every half millimetre, so that the nearest is
// near enough.
func dense(line geom.Path) geom.Path {
	var pts []geom.Point
	flat := line.Flatten(0.05)
	for i := 1; i < len(flat); i++ {
		n := 1 + int(flat[i].Dist(flat[i-1])/0.5)
		for k := range n {
			pts = append(pts, flat[i-1].Lerp(flat[i], float64(k)/float64(n)))
		}
	}
	return geom.Polyline(append(pts, flat[len(flat)-1])...)
}

// Every size of several is named on its own line, nearer to it than to the line
// of any other size, in its own layer, so that the name goes where the line
// goes.
func TestSizesAreNamedOnTheirLines(t *testing.T) {
	for _, p := range demos(t) {
		c := PrintChoice{Marks: true, Sizes: chartSizes(p, 5)}
		d, err := Drawing(p, c)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range d.Pieces {
			lines := map[string]geom.Path{}
			for _, s := range q.Strokes {
				if s.Width == cutWidth {
					lines[s.Layer] = dense(s.Path)
				}
			}
			if len(lines) != len(c.Sizes) {
				t.Fatalf("%s has %d lines of %d sizes", q.Name, len(lines), len(c.Sizes))
			}
			named := map[string]int{}
			for _, l := range q.Labels {
				if l.Layer == "" {
					continue
				}
				named[l.Text]++
				if l.Layer != "Size "+l.Text {
					t.Errorf("%s: %q stands in layer %q", q.Name, l.Text, l.Layer)
				}
				if at, ok := pointedAt(q, l, lines[l.Layer]); ok {
					for layer, line := range lines {
						if layer != l.Layer && slices.ContainsFunc(line, func(c geom.Cubic) bool { return c.P0.Dist(at) < 0.7 }) {
							t.Errorf("%s: %q is pointed to the line of %s too", q.Name, l.Text, layer)
						}
					}
					continue
				}
				own := away(t, l, lines[l.Layer])
				if own > 1.2 {
					t.Errorf("%s: %q is %.1f mm from its line", q.Name, l.Text, own)
				}
				for layer, line := range lines {
					if other := away(t, l, line); layer != l.Layer && other < 1.4*own {
						t.Errorf("%s: %q is %.2f mm from its line, %.2f from that of %s", q.Name, l.Text, own, other, layer)
					}
				}
			}
			for _, size := range c.Sizes {
				if named[size] == 0 {
					t.Errorf("%s: size %s has no name on its line", q.Name, size)
				}
			}
		}
	}
}

// No two sizes of a print have the same line, so that they can be told apart
// without colour.
func TestEverySizeHasItsOwnDash(t *testing.T) {
	for i, a := range dashes {
		for _, b := range dashes[:i] {
			if slices.Equal(a, b) {
				t.Errorf("%v is there twice", a)
			}
		}
	}
}

// slab is a pattern of one rectangular piece.
func slab(chart model.SizeChart, name string, w, h float64, more func(*model.Piece)) model.Pattern {
	corners := []geom.Point{{}, geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h)}
	q := model.Piece{ID: "q", Name: name, OneForAll: true}
	o := model.Outline{Size: "40"}
	for i, a := range corners {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprint("p", i)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprint("e", i)})
		o.Edges = append(o.Edges, geom.Polyline(a, corners[(i+1)%4]))
	}
	q.Nest = []model.Outline{o}
	if more != nil {
		more(&q)
	}
	return model.Pattern{Name: "Lantern oddments", Chart: chart, Target: model.Target{Place: 7}, Pieces: []model.Piece{q}}
}

// On a piece of any size words are no smaller than can be read, lie in the
// piece, clear of its lines and of each other; where there is room for it its
// name is there.
func TestWordsOnPiecesOfAnySize(t *testing.T) {
	chart := demos(t)[0].Chart
	rapid.Check(t, func(r *rapid.T) {
		w, h := rapid.Float64Range(3, 260).Draw(r, "w"), rapid.Float64Range(3, 260).Draw(r, "h")
		name := rapid.StringMatching(`[A-Z][a-zäöü]{1,9}( [a-z]{1,9}){0,3}`).Draw(r, "name")
		p := slab(chart, name, w, h, func(q *model.Piece) {
			q.Lining = rapid.IntRange(0, 2).Draw(r, "lining")
			if rapid.Bool().Draw(r, "fold") {
				q.Edges[3].Kind = model.Fold
			}
			if rapid.Bool().Draw(r, "grain") {
				q.Lines = append(q.Lines, model.Line{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(w/2, h/4), geom.Pt(w/2, h*3/4))}}})
			}
			if rapid.Bool().Draw(r, "lengthen") {
				q.Lines = append(q.Lines, model.Line{ID: "l", Kind: model.Lengthen, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(0, h/2), geom.Pt(w, h/2))}}})
			}
		})
		d, err := Drawing(p, PrintChoice{Marks: true, Stitching: true, Date: rapid.SampledFrom([]string{"", "29 November 2026"}).Draw(r, "date")})
		if err != nil {
			r.Fatal(err)
		}
		q := d.Pieces[0]
		for i, l := range q.Labels {
			box := room(t, l)
			for _, corner := range box {
				if !q.Outline.Contains(corner, 1e-3) {
					r.Fatalf("%q (%.2f mm) reaches out of %.1f x %.1f", l.Text, l.Size, w, h)
				}
			}
			if hit := strokesThrough(box, q.Strokes); len(hit) > 0 {
				r.Fatalf("a line runs through %q at %v of %.1f x %.1f", l.Text, hit[0], w, h)
			}
			for _, other := range q.Labels[:i] {
				if overlap(box, room(t, other)) {
					r.Fatalf("%q lies on %q", l.Text, other.Text)
				}
			}
			if l.Size < leastSize-1e-9 {
				r.Fatalf("%q is %.2f mm high", l.Text, l.Size)
			}
		}
		bare := len(q.Strokes) == 1
		if least := leastSize / nameSize * wide(t, printing.Label{Text: name, Size: nameSize, Bold: true}); bare && math.Max(w, h) > 1.3*least+3 && math.Min(w, h) > 5 {
			if !slices.ContainsFunc(q.Labels, func(l printing.Label) bool { return strings.Contains(l.Text, name) }) {
				r.Fatalf("%.1f x %.1f does not say %q", w, h, name)
			}
		}
	})
}
