package follow

import (
	"math"
	"testing"

	"quarterstep/model/geom"
)

// roomForLabels is five sizes gap mm apart, in the styles of crowded, each with room
// left for a size label of 9 mm: at a place of its own, as printed nests have
// them.
func roomForLabels(gap float64, first int) *sheetPrint {
	dashes := [][]float64{nil, {9, 3}, {3.5, 2}, {16, 3}, {9, 2, 1, 2}}
	p := newPrint(130, 145, 6)
	for k := range 5 {
		line := armhole(k, gap)
		a, b, err := line.SplitAt(52+7*float64(k), 1e-6)
		if err != nil {
			panic(err)
		}
		_, b, err = b.SplitAt(9, 1e-6)
		if err != nil {
			panic(err)
		}
		p.line(a, 0.5, 1, dashes[(k+first)%5]...)
		p.line(b, 0.5, 1, dashes[(k+first)%5]...)
	}
	return p
}

// TestRim follows the first size of nests whose lines stop for a size label
// beside a neighbour that goes on. The outermost and the innermost never go over
// to the neighbour, which without Rim some do. A size within the nest that is
// wrongly taken for the rim is drawn out to it at times, but never without a
// doubt.
func TestRim(t *testing.T) {
	plain := 0
	for _, gap := range []float64{2.5, 4, 6} {
		for first := range 5 {
			f := prepared(t, roomForLabels(gap, first).sheet(int64(40+first)))
			for k := range 5 {
				want := armhole(k, gap)
				follow := func(o Options) (jumps bool, doubts int) {
					e, err := f.Follow(want.Start(), want.End(), nil, o)
					if err != nil {
						t.Fatal(err)
					}
					return off(e.Path, want, gap/2) >= 3, len(e.Doubts)
				}
				alone, _ := follow(Options{})
				onRim := k == 0 || k == 4
				if onRim && alone {
					plain++
				}
				if jumps, doubts := follow(Options{Rim: true}); jumps && (onRim || !alone && doubts == 0) {
					t.Errorf("%g mm apart, styles from %d: size %d goes over to a neighbour with %d doubts", gap, first, k, doubts)
				}
			}
		}
	}
	if t.Logf("without Rim %d of 30 edges on the rim go over to a neighbour", plain); plain == 0 {
		t.Error("the nests are too easy to show what Rim does")
	}
}

// TestCornersHaveTwoDirections holds every dash of a drawn square to one of its
// two directions, to 0.1 radians: none goes round a corner.
func TestCornersHaveTwoDirections(t *testing.T) {
	p := newPrint(60, 60, 6)
	p.line(geom.Polyline(geom.Pt(10, 10), geom.Pt(50, 10), geom.Pt(50, 50), geom.Pt(10, 50), geom.Pt(10, 10)), 0.5, 1)
	f := prepared(t, p.sheet(15))
	for _, d := range f.web.dashes {
		off := math.Abs(math.Sin(2*d.dir)) / 2
		if !d.dot && off > 0.1 {
			t.Errorf("a dash of %.1f mm at %v lies askew by %.2f", d.length, d.centre, off)
		}
	}
}

// TestDottedLinesAcrossAreNotBeside draws a line that dotted ones end at, as
// those of other sizes do near a corner: beside most of it they are not counted as
// lines beside it.
func TestDottedLinesAcrossAreNotBeside(t *testing.T) {
	p := newPrint(70, 80, 6)
	p.line(geom.Polyline(geom.Pt(30, 8), geom.Pt(30, 72)), 0.5, 1)
	for y := 14.0; y < 70; y += 4 {
		p.line(geom.Polyline(geom.Pt(32+math.Mod(0.7*y, 2.5), y), geom.Pt(62, y-3)), 0.5, 1, 0.7, 1.8)
	}
	f := prepared(t, p.sheet(16))
	all, beside := 0, 0
	for i, n := range f.web.nodes {
		if d := f.web.dashes[n.dash]; !d.dot && math.Abs(d.centre.X-30) < 0.3 {
			all++
			if c := f.web.crowd[i]; c[0] > 0.5 || c[1] > 0.5 {
				beside++
			}
		}
	}
	if t.Logf("lines beside %d of %d dashes", beside, all); all < 20 || beside > all/2 {
		t.Errorf("lines are counted beside %d of %d dashes", beside, all)
	}
}
