package length_test

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const above = "lengthen above the waist"

// "Same amount at the same place on every adjoining piece", "the full amount
// parallel" (Central Washington University's costume text, chapter 17): at 50
// places across each bodice piece, from where the shoulder begins to its tip,
// the paper from the top line down to the hem is longer by the amount, to
// 0.001 mm.
func TestTheSameAmountOverTheWholeWidth(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		before := graded(t, p)
		for _, by := range []float64{20, -15} {
			after := graded(t, longer(p, above, by))
			for _, id := range []string{"front", "back"} {
				i := p.PieceIndex(id)
				if after.Pieces[i].Unlaid != "" {
					t.Fatal(after.Pieces[i].Unlaid)
				}
				tip := before.Pieces[i].Edges[p.Pieces[i].PointIndex("shoulder-tip")].Start().X
				from := math.Max(0, before.Pieces[i].Outline().Bounds().Min.X)
				for k := range 50 {
					x := from + (tip-from)*(float64(k)+0.5)/50
					was, is := column(before.Pieces[i], x), column(after.Pieces[i], x)
					if off := is - was - by; math.Abs(off) > 1e-3 {
						t.Errorf("%s, %s by %g: at %.1f across it is %g mm off", d.name, id, by, x, off)
					}
				}
			}
		}
	}
}

// column is how long the paper is at x, from its top line to its hem.
func column(q grading.Piece, x float64) float64 {
	line := geom.Polyline(geom.Pt(x, -2000), geom.Pt(x, 3000))
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range geom.Intersect(line, q.Outline(), 1e-6) {
		lo, hi = math.Min(lo, c.At.Y), math.Max(hi, c.At.Y)
	}
	return hi - lo
}

// The seams that are sewn together go on fitting on the stitching line. Two
// that run at different slants to the grain cannot grow by exactly as much: at
// an angle a a seam grows by the cosine of a of what is put in along the grain.
// In the demos that is less than a hundredth of the amount.
func TestLinkedSeamsStayEqual(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		before := graded(t, p)
		for _, by := range []float64{20, -15} {
			after := graded(t, longer(p, above, by))
			for _, l := range p.Links {
				if l.Kind != model.Sewn {
					continue
				}
				was, is := ease(t, p, before, l), ease(t, p, after, l)
				if math.Abs(is-was) > 0.01*math.Abs(by) {
					t.Errorf("%s, %s by %g: the ease goes from %.4f to %.4f mm", d.name, l.ID, by, was, is)
				}
			}
		}
	}
}

// ease is by how much the follower is longer than its leaders, stitched.
func ease(t *testing.T, p model.Pattern, r grading.Result, l model.Link) float64 {
	out := stitched(t, p, r, l.Follow)
	for _, s := range l.Leads() {
		out -= stitched(t, p, r, s)
	}
	return out
}

func stitched(t *testing.T, p model.Pattern, r grading.Result, s model.Stretch) (sum float64) {
	t.Helper()
	i := p.PieceIndex(s.Piece)
	q := p.Pieces[i]
	in := make([]float64, len(q.Edges))
	for j, e := range q.Edges {
		in[j] = -e.Allowance
	}
	lines, err := geom.OffsetOutline(r.Pieces[i].Edges, in, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range s.Edges {
		l, err := lines[q.EdgeIndex(e)].Length(1e-4)
		if err != nil {
			t.Fatal(err)
		}
		sum += l
	}
	return sum
}

// The marks below the line go down by the amount, those above stay, and the
// grain keeps its direction.
func TestMarksGoWithThePaper(t *testing.T) {
	const by = 20
	for _, d := range demos {
		p := d.pattern(t)
		before, after := graded(t, p), graded(t, longer(p, above, by))
		for i, q := range p.Pieces {
			if after.Pieces[i].Put == nil {
				continue
			}
			for k, l := range q.Lines {
				a, b := before.Pieces[i].Lines[k].Path, after.Pieces[i].Lines[k].Path
				want := map[model.LineKind]float64{model.BustLine: 0, model.WaistLine: by, model.HipLine: by}
				if move, ok := want[l.Kind]; ok && b.End().Dist(a.End().Add(geom.Vec{Y: move})) > 1e-9 {
					t.Errorf("%s, %s: the %s went from %v to %v", d.name, q.Name, l.Name, a.End(), b.End())
				}
				if l.Name == above && b.Start().Dist(a.Start().Add(geom.Vec{Y: by / 2})) > 1e-9 {
					t.Errorf("%s, %s: the line itself lies at %v, it lay at %v", d.name, q.Name, b.Start(), a.Start())
				}
				if l.Kind == model.Grain && math.Abs(a.StartDir().Cross(b.End().Sub(b.Start()).Unit())) > 1e-12 {
					t.Errorf("%s, %s: the grain turned", d.name, q.Name)
				}
			}
			for k, dart := range before.Pieces[i].Darts {
				now := after.Pieces[i].Darts[k]
				if now.Leg1.Dist(dart.Leg1)+now.Apex.Dist(dart.Apex)+now.Leg2.Dist(dart.Leg2) > 1e-9 {
					t.Errorf("%s, %s: the bust dart above the line moved", d.name, q.Name)
				}
			}
			for k, n := range before.Pieces[i].Notches {
				if got := after.Pieces[i].Notches[k]; got.At.Dist(n.At) > 1e-3 && p.Pieces[i].ID != "front-facing" {
					t.Errorf("%s, %s: the notch above the line moved by %g mm", d.name, q.Name, got.At.Dist(n.At))
				}
			}
		}
	}
}

// At 0 nothing changes, to the last digit.
func TestNothingPutInChangesNothing(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		before, after := graded(t, p), graded(t, longer(p, above, 0))
		for i := range p.Pieces {
			for j, e := range before.Pieces[i].Edges {
				for k, c := range e {
					if c != after.Pieces[i].Edges[j][k] {
						t.Fatalf("%s, %s changed", d.name, p.Pieces[i].Name)
					}
				}
			}
		}
	}
}

// The girths at bust, waist and hip are measured at the levels where they lie
// now, and stay within 1 mm of the whole girth, which no tape shows: the side
// seam is drawn anew beside the bust line, and goes down with waist and hip.
func TestGirthsStay(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		before, missingBefore, err := girth.Of(p, graded(t, p))
		if err != nil {
			t.Fatal(err)
		}
		for _, by := range []float64{25, -15} {
			long := longer(p, above, by)
			after, missing, err := girth.Of(long, graded(t, long))
			if err != nil || len(after) != len(before) || len(missing) != len(missingBefore) {
				t.Fatalf("%s by %g: %v, missing %v", d.name, by, err, missing)
			}
			for i, g := range after {
				if off := g.Finished - before[i].Finished; math.Abs(off) > 1 {
					t.Errorf("%s by %g: the %s is %.3f mm off", d.name, by, g.Measure, off)
				}
			}
		}
	}
}
