package follow

import (
	"math"
	"slices"
	"testing"

	"quarterstep/model/geom"
)

// cap4 is size k of a nest whose edges move more in the middle than at their
// ends, as a sleeve's cap does: by more than two sizes lie apart at the ends.
func cap4(k int, gap, bow float64) geom.Path {
	d := float64(k) * gap
	up := d + float64(k)*bow*4/3
	return geom.Path{{P0: geom.Pt(15-d, 110-d/2), P1: geom.Pt(70-up*0.3, 108-up), P2: geom.Pt(120, 20-up), P3: geom.Pt(190+d/2, 22-d)}}
}

// TestKeepsTheOrderOfLines follows every size of nests beside the size next to
// it, solid, dashed and dotted in turn: nests with lines 1.3 mm apart, where
// only the count of lines between tells which is meant, and nests whose middle
// moves 4 mm more than their ends.
func TestKeepsTheOrderOfLines(t *testing.T) {
	dashes := [][]float64{nil, {9, 3}, {0.7, 1.8}, {3.5, 2}, {9, 2, 1, 2}}
	for _, c := range []struct{ gap, bow float64 }{{1.3, 0}, {2.2, 4}, {4, 4}} {
		n, jumps, silent := 0, 0, 0
		for first := range 5 {
			p := newPrint(210, 125, 6)
			for k := range 5 {
				p.line(cap4(k, c.gap, c.bow).Transform(geom.Affine{A: 1, D: 1, F: 4 * (c.gap + c.bow)}), 0.5, 1, dashes[(k+first)%5]...)
			}
			f := prepared(t, p.sheet(int64(60+first)))
			line := func(k int) geom.Path {
				return cap4(k, c.gap, c.bow).Transform(geom.Affine{A: 1, D: 1, F: 4 * (c.gap + c.bow)})
			}
			for k := range 5 {
				for _, traced := range []int{k - 1, k + 1} {
					if traced < 0 || traced > 4 {
						continue
					}
					want := line(k)
					e, err := f.Follow(want.Start(), want.End(), nil, Options{Guides: []geom.Path{line(traced)}})
					if err != nil {
						t.Fatal(err)
					}
					n++
					if off(e.Path, want, c.gap/2) >= 3 {
						jumps++
						if len(e.Doubts) == 0 {
							silent++
						}
					}
				}
			}
		}
		t.Logf("%g mm apart, %g mm more in the middle: %d of %d edges jump, %d without a doubt", c.gap, c.bow, jumps, n, silent)
		if jumps > 0 {
			t.Errorf("%g mm apart, %g mm more in the middle: %d of %d edges jump", c.gap, c.bow, jumps, n)
		}
	}
}

// TestFindsFaintDots holds the dots of a fine dotted line in a photo's shade to
// what was drawn: nine of ten at least are found, within 0.15 mm.
func TestFindsFaintDots(t *testing.T) {
	p := newPrint(90, 30, 4.5)
	var drawn []geom.Point
	for x := 8.0; x < 82; x += 2.3 {
		at := geom.Pt(x, 15+3*math.Sin(x/20))
		p.dab(at, 0.2, 0.4)
		drawn = append(drawn, at)
	}
	f := prepared(t, p.sheet(70))
	found := 0
	for _, at := range drawn {
		for _, d := range f.web.dashes {
			if d.centre.Dist(at) < 0.15 {
				found++
				break
			}
		}
	}
	if t.Logf("%d of %d dots found", found, len(drawn)); found < len(drawn)*9/10 {
		t.Errorf("%d of %d dots found", found, len(drawn))
	}
}

// TestSides holds the side on which a course runs to what it is where that can
// be told, also where both run nearly on one another.
func TestSides(t *testing.T) {
	for _, c := range []struct {
		traced []float64
		want   []int
	}{
		{[]float64{-2, -1, -0.2, 0.1, -0.3, -1}, []int{1, 1, 1, 1, 1, 1}},
		{[]float64{2, 1, 0.2, -0.1, -0.6, -2}, []int{-1, -1, 0, 0, 1, 1}},
		{[]float64{0.1, 0, 0.7, 3}, []int{-1, -1, -1, -1}},
		{[]float64{0.1, 0, -0.2}, []int{0, 0, 0}},
	} {
		if got := sides(c.traced); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.traced, got, c.want)
		}
	}
}

// TestStartsAtARaggedEnd begins a line 1.2 mm beyond ink whose last point bends
// aside, as on the print of a photo: the line goes on along that ink, and not
// along the neighbour.
func TestStartsAtARaggedEnd(t *testing.T) {
	straight := func(y float64) dash {
		d := dash{centre: geom.Pt(21.2, y), length: 2.4, before: -1, after: -1}
		for x := 20.0; x < 22.41; x += 0.2 {
			d.pts = append(d.pts, geom.Pt(x, y))
		}
		return d
	}
	ragged := straight(10)
	last := len(ragged.pts) - 1
	ragged.pts[last] = geom.Pt(22.1, 10.25)
	f := newField([]dash{ragged, straight(14)})
	tree := f.treeFrom(geom.Pt(23.5, 10.05), noSide)
	ahead, back := tree.cost[0], tree.cost[1]
	if t.Logf("cost of the way on over the ragged dash %.2f", min(ahead, back)); min(ahead, back) > 0.5 {
		t.Errorf("the way on over the ragged dash costs %.2f and %.2f", ahead, back)
	}
}

// TestSwerve holds how far a line swerves from the course and back to closed
// forms: nothing where it runs straight beside the course, half the jump where it
// goes over to a lane at its side and stays, the whole near a corner it comes
// back to.
func TestSwerve(t *testing.T) {
	even := make([]int, 41)
	slope, jump, corner := slices.Clone(even), slices.Clone(even), slices.Clone(even)
	for k := range even {
		slope[k] = k
		if k >= 20 {
			jump[k] = 12
		}
		if k > 33 && k < 38 {
			corner[k] = 12
		}
	}
	for _, c := range []struct {
		bins []int
		at   int
		want float64
	}{{even, 20, 0}, {slope, 20, 0}, {jump, 20, 0.6}, {corner, 35, 1.2}, {corner, 39, 0}} {
		if got := (lane{bins: c.bins}).swerve(c.at); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("at %d it swerves by %.2f mm, want %.2f", c.at, got, c.want)
		}
	}
}

// TestDrawsPastSizeLabels holds the curve through points of a parabola, 8 mm of
// 160 mm of which go round the strokes of a size label, to the parabola.
func TestDrawsPastSizeLabels(t *testing.T) {
	for _, bump := range []float64{0, 0.8, 1.4} {
		var seen, want []geom.Point
		for x := 0.0; x <= 160; x++ {
			y := 30 - x*x/400
			want = append(want, geom.Pt(x, y))
			if d := math.Abs(x - 90); d < 4 {
				y += bump * (1 - d/4)
			}
			seen = append(seen, geom.Pt(x, y))
		}
		path, err := draw(seen, DefaultTol)
		if err != nil {
			t.Fatal(err)
		}
		_, worst := away(path, geom.Polyline(want...))
		if t.Logf("round a stroke of %g mm: %.2f mm off", bump, worst); worst > 0.3 {
			t.Errorf("round a stroke of %g mm the curve lies %.2f mm off", bump, worst)
		}
	}
}

// TestCourseHasNoStep carries a traced edge along beside two traced sizes whose
// middle moves by 3 to 9 mm more than their ends: the course of the next size has no
// step in it, wherever the second size is no longer believed.
func TestCourseHasNoStep(t *testing.T) {
	for _, bow := range []float64{3, 4, 5, 6, 9} {
		want := cap4(2, 4, bow)
		g := courseOf(want.Start(), want.End(), []geom.Path{cap4(1, 4, bow), cap4(0, 4, bow)})
		if g == nil {
			t.Fatal("no course")
		}
		for k := 1; k < len(g.course); k++ {
			if d := g.course[k].Dist(g.course[k-1]); d > 1.5*courseStep {
				t.Errorf("middle %g mm more: a step of %.1f mm at %v", bow, d, g.course[k])
			}
		}
	}
}
