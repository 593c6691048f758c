package follow

import (
	"context"
	"errors"
	"strings"
	"testing"

	"quarterstep/model/geom"
)

// bodice is size k of an invented nest whose side moves step mm from size to
// size; its centre line is the same in all sizes.
func bodice(k int, step float64) []geom.Path {
	u := float64(k) * step / 5
	neck, shoulder := geom.Pt(12, 46-3*u), geom.Pt(48+2.5*u, 28-4*u)
	tip, under := geom.Pt(98+6*u, 46-3.4*u), geom.Pt(118+5*u, 102+3.2*u)
	waist, centre := geom.Pt(108+5*u, 160+4*u), geom.Pt(12, 164+4*u)
	return []geom.Path{
		{{P0: neck, P1: geom.Pt(30+u, 46-3*u), P2: geom.Pt(44+2.2*u, 40-3.7*u), P3: shoulder}},
		{geom.Line(shoulder, tip)},
		{{P0: tip, P1: geom.Pt(88+5*u, 72+0.5*u), P2: geom.Pt(94+4.6*u, 102+3*u), P3: under}},
		{{P0: under, P1: geom.Pt(114+5*u, 122+3.4*u), P2: geom.Pt(109+5*u, 140+3.8*u), P3: waist}},
		{{P0: waist, P1: geom.Pt(80+3*u, 163+4*u), P2: geom.Pt(50+2*u, 164+4*u), P3: centre}},
		{geom.Line(centre, neck)},
	}
}

// bodiceNest is a print of four sizes, each in its style.
func bodiceNest(step float64, dashes [4][]float64) *sheetPrint {
	p := newPrint(165, 200, 6)
	for k, dash := range dashes {
		for _, e := range bodice(k, step) {
			p.line(e, 0.5, 1, dash...)
		}
	}
	p.line(geom.Polyline(geom.Pt(50, 60), geom.Pt(50, 140)), 0.5, 1)     // grain
	p.line(geom.Polyline(geom.Pt(0, 120), geom.Pt(165, 122)), 0.8, 0.12) // a fold
	return p
}

var nests = map[string][4][]float64{
	"solid":  {},
	"dashed": {{9, 3}, {16, 3}, {3.5, 2}, {9, 2, 1, 2}},
	"mixed":  {nil, {9, 3}, {0.7, 1.8}, {3.5, 2}},
}

// tally counts proposed corners.
type tally struct{ all, right, silent int }

// count adds a proposal held against the drawn truth: a corner is right within
// a millimetre, and silent where it is wrong without a doubt.
func (c *tally) count(got Proposal, truth []geom.Path) {
	for i, e := range truth {
		c.all++
		switch {
		case got.Corners[i].Dist(e.Start()) <= 1:
			c.right++
		case len(got.Doubts[i]) == 0:
			c.silent++
		}
	}
}

// TestNextSize holds the size proposed from one or two traced ones, outward,
// inward and between, to the drawn truth. From one size some corners where lines
// cross at a flat angle may be wrong; from two beside it, hardly any.
func TestNextSize(t *testing.T) {
	var one, two tally
	for name, dashes := range nests {
		for _, step := range []float64{5, 7} {
			f := prepared(t, bodiceNest(step, dashes).sheet(11))
			for _, c := range []struct {
				want   int
				traced []int
			}{{1, []int{0}}, {2, []int{1}}, {0, []int{1}}, {2, []int{3}}, {2, []int{0, 1}}, {3, []int{1}}, {1, []int{0, 3}}, {3, []int{1, 2}}} {
				var traced []Traced
				for _, k := range c.traced {
					traced = append(traced, Traced{k, bodice(k, step)})
				}
				got, err := f.Next(context.Background(), traced, NextOptions{Place: c.want})
				if err != nil {
					t.Fatal(err)
				}
				count := &one
				if len(c.traced) > 1 {
					count = &two
				}
				truth := bodice(c.want, step)
				count.count(got, truth)
				for i, e := range truth {
					n := (i + 1) % len(truth)
					if got.Corners[i].Dist(e.Start()) > 0.5 || got.Corners[n].Dist(truth[n].Start()) > 0.5 {
						continue
					}
					if mostly, worst := away(got.Edges[i].Path, e); mostly > 1.2 || worst > 1.5 {
						t.Errorf("%s, %g mm, size %d from %v: edge %d is %.2f mm off", name, step, c.want, c.traced, i, worst)
					}
				}
			}
		}
	}
	t.Logf("from one size %+v, from two %+v", one, two)
	if one.right < one.all*94/100 || one.silent > one.all*4/100 {
		t.Errorf("from one size %d of %d corners are right, %d are wrong without a doubt", one.right, one.all, one.silent)
	}
	if two.right < two.all*97/100 || two.silent > two.all*2/100 {
		t.Errorf("from two sizes %d of %d corners are right, %d are wrong without a doubt", two.right, two.all, two.silent)
	}
}

// TestNextSizeClose holds the sizes of a nest of seven that lie 1 to 3 mm apart,
// proposed from one traced in their middle or from two, to the drawn truth.
func TestNextSizeClose(t *testing.T) {
	dashes := [][]float64{nil, {9, 3}, {16, 3}, {3.5, 2}, {9, 2, 1, 2}, {0.7, 1.8}, {6, 2}}
	var count tally
	for _, step := range []float64{2, 2.6} {
		print := newPrint(165, 200, 6)
		for k, dash := range dashes {
			for _, e := range bodice(k, step) {
				print.line(e, 0.5, 1, dash...)
			}
		}
		f := prepared(t, print.sheet(11))
		for _, c := range []struct {
			want   int
			traced []int
		}{{1, []int{0}}, {5, []int{6}}, {3, []int{2}}, {3, []int{4}}, {2, []int{1, 0}}, {4, []int{5, 6}}} {
			var traced []Traced
			for _, k := range c.traced {
				traced = append(traced, Traced{k, bodice(k, step)})
			}
			got, err := f.Next(context.Background(), traced, NextOptions{Place: c.want})
			if err != nil {
				t.Fatal(err)
			}
			count.count(got, bodice(c.want, step))
		}
	}
	t.Logf("%+v", count)
	if count.right < count.all*82/100 || count.silent > count.all*7/100 {
		t.Errorf("%d of %d corners are right, %d are wrong without a doubt", count.right, count.all, count.silent)
	}
}

// TestNextGiven holds that a corner put right stays, that those confirmed stay,
// and that what is known of one side mends the others: given the worst corner,
// no more corners are wrong than before.
func TestNextGiven(t *testing.T) {
	f := prepared(t, bodiceNest(7, nests["mixed"]).sheet(11))
	truth := bodice(2, 7)
	p, err := f.Next(context.Background(), []Traced{{3, bodice(3, 7)}}, NextOptions{Place: 2})
	if err != nil {
		t.Fatal(err)
	}
	var known []int
	for i, e := range truth {
		var before, after tally
		before.count(p, truth)
		q := p.Given(i, e.Start())
		after.count(q, truth)
		if after.right < before.right {
			t.Errorf("corner %d put right leaves %d of %d right, %d were", i, after.right, after.all, before.right)
		}
		known = append(known, i)
		for _, k := range known {
			if q.Corners[k] != truth[k].Start() || len(q.Doubts[k]) > 0 {
				t.Errorf("with corner %d known, corner %d lies at %v and not at %v, with doubts %v", i, k, q.Corners[k], truth[k].Start(), q.Doubts[k])
			}
			if q.Edges[k].Path.Start() != q.Corners[k] {
				t.Errorf("edge %d does not begin at its corner", k)
			}
		}
		p = q
	}
}

// TestNextSaysWhyNot holds every refusal to a sentence that says what is
// missing.
func TestNextSaysWhyNot(t *testing.T) {
	f := prepared(t, bodiceNest(5, nests["solid"]).sheet(12))
	whole := Traced{0, bodice(0, 5)}
	open := Traced{1, bodice(1, 5)}
	open.Edges[2] = geom.Polyline(geom.Pt(0, 0), geom.Pt(5, 5))
	for want, traced := range map[string][]Traced{
		"no size is traced":          nil,
		"traced already":             {{2, bodice(2, 5)}},
		"different numbers":          {whole, {1, bodice(1, 5)[:4]}},
		"does not end where":         {open},
		"two edges at least":         {{1, bodice(1, 5)[:1]}},
		"edge of a traced size is e": {{1, []geom.Path{nil, nil}}},
	} {
		if _, err := f.Next(context.Background(), traced, NextOptions{Place: 2}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := f.Next(ctx, []Traced{whole}, NextOptions{Place: 1}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}
