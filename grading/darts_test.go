package grading_test

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// dartPiece is the index of the piece with darts; -1 for none.
func dartPiece(p model.Pattern) int {
	for i, q := range p.Pieces {
		if len(q.Darts) > 0 {
			return i
		}
	}
	return -1
}

// withDart is p with its dart kept and trued as asked.
func withDart(p model.Pattern, kept, trued bool) model.Pattern {
	return p.WithPiece(dartPiece(p), func(q model.Piece) model.Piece {
		d := q.Darts[0]
		d.TakeUpKept, d.Trued = kept, trued
		q.Darts = []model.Dart{d}
		return q
	})
}

// farPlaces runs f from three steps below the print to eight above it, by half
// steps, where the chart has them.
func farPlaces(t *testing.T, d demo, p model.Pattern, f func(p model.Pattern)) {
	t.Helper()
	first, _ := p.Chart.Place(d.sizes[0])
	last, _ := p.Chart.Place(d.sizes[len(d.sizes)-1])
	for place := float64(max(0, first-3)); place <= float64(min(last+8, len(p.Chart.Sizes)-1)); place += 0.5 {
		p.Target.Place = place
		f(p)
	}
}

func TestDartsTruedAtEverySize(t *testing.T) {
	for _, d := range demos[:2] {
		p := d.pattern(t)
		i := dartPiece(p)
		var plain, trued grading.Grader
		farPlaces(t, d, p, func(p model.Pattern) {
			place := p.Target.Place
			was := mustGrade(t, &plain, p).Pieces[i]
			got := mustGrade(t, &trued, withDart(p, false, true)).Pieces[i]
			g := got.Darts[0]
			if g.Why != "" || g.Kink > 0.1 || math.Abs(g.LegsDiffer) > 0.01 {
				t.Errorf("%s, place %g: kink %.3f degrees, legs %.4f mm apart, %q", d.name, place, g.Kink, g.LegsDiffer, g.Why)
			}
			if w := was.Darts[0]; math.Abs(w.LegsDiffer) > 0.5 || w.Moved != 0 || g.Moved > 0.3 {
				t.Errorf("%s, place %g: as graded, the legs are %.3f mm apart, and truing moved them %.3f mm", d.name, place, w.LegsDiffer, g.Moved)
			}
			at := map[int]bool{}
			dd := mustRead(t, p.Pieces[i], got)
			for j := dd.From - 1; j <= dd.To; j++ {
				at[j] = true
			}
			for j := range got.Edges {
				if !at[j] && apartAll(got.Edges[j:j+1], was.Edges[j:j+1]) != 0 {
					t.Errorf("%s, place %g: %s was changed", d.name, place, p.Pieces[i].Edges[j].Name)
				}
			}
			if got.Printed {
				t.Errorf("%s, place %g: called printed", d.name, place)
			}
		})
	}
}

func mustRead(t *testing.T, q model.Piece, r grading.Piece) dart.Dart {
	t.Helper()
	d, err := dart.Read(q, q.Darts[0], r.Darts[0].Apex)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDartsKeepTheirPrintedWidth(t *testing.T) {
	for _, d := range demos[:2] {
		p := d.pattern(t)
		i := dartPiece(p)
		q := p.Pieces[i]
		var g grading.Grader
		farPlaces(t, d, p, func(p model.Pattern) {
			for _, trued := range []bool{false, true} {
				r := mustGrade(t, &g, withDart(p, true, trued)).Pieces[i]
				near := q.Nest[0]
				for _, o := range q.Nest {
					a, _ := p.Chart.Place(o.Size)
					b, _ := p.Chart.Place(near.Size)
					if math.Abs(float64(a)-p.Target.Place) < math.Abs(float64(b)-p.Target.Place) {
						near = o
					}
				}
				from, to := q.PointIndex(q.Darts[0].From), q.PointIndex(q.Darts[0].To)
				want := near.Edges[from].Start().Dist(near.Edges[to].Start())
				if off := r.Darts[0].TakeUp - want; math.Abs(off) > 0.01 || r.Darts[0].Why != "" {
					t.Errorf("%s, place %g: the dart is %.3f mm wider than in %s %s", d.name, p.Target.Place, off, near.Size, r.Darts[0].Why)
				}
			}
		})
	}
}

// The blouse is drafted so that its front side, with the dart closed, is as long
// on the stitching line as its back side. Closing on the sheet says the same:
// the two halves of the seam, as they lie folded, run from the underarm to the
// waist at the back's length.
func TestSideWithTheDartClosedIsTheBacks(t *testing.T) {
	d := demos[0]
	p := d.pattern(t)
	front, back := p.Pieces[p.PieceIndex("front")], p.Pieces[p.PieceIndex("back")]
	for k, o := range front.Nest {
		sewn := inset(t, front, o.Edges)
		at, err := dart.Read(front, front.Darts[0], front.Darts[0].Apex[k].At)
		if err != nil {
			t.Fatal(err)
		}
		c, err := at.Close(sewn)
		if err != nil {
			t.Fatal(err)
		}
		across := pathLength(t, c.Before) + pathLength(t, c.After)
		want := pathLength(t, inset(t, back, back.Nest[k].Edges)[back.EdgeIndex("side-seam")])
		if math.Abs(across-want) > 0.01 {
			t.Errorf("size %s: %.3f mm across the closed dart, the back has %.3f", o.Size, across, want)
		}
	}
}

func inset(t *testing.T, q model.Piece, edges []geom.Path) []geom.Path {
	t.Helper()
	in := make([]float64, len(q.Edges))
	for j, e := range q.Edges {
		in[j] = -e.Allowance
	}
	out, err := geom.OffsetOutline(edges, in, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func pathLength(t *testing.T, p geom.Path) float64 {
	t.Helper()
	l, err := p.Length(1e-4)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// What truing does to the sewn length of the side is less than can be drawn:
// each half is measured on the line beside it, as far as its leg.
func TestTruingHardlyChangesTheSeam(t *testing.T) {
	d := demos[0]
	p := d.pattern(t)
	var g grading.Grader
	i := dartPiece(p)
	farPlaces(t, d, p, func(p model.Pattern) {
		was := sideLength(t, p, mustGrade(t, &g, p).Pieces[i])
		now := sideLength(t, p, mustGrade(t, &g, withDart(p, false, true)).Pieces[i])
		if math.Abs(now-was) > 0.1 {
			t.Errorf("place %g: truing made the side %.3f mm longer", p.Target.Place, now-was)
		}
	})
}

// sideLength is the sewn length of the front's side from its dart's legs on, mm.
func sideLength(t *testing.T, p model.Pattern, r grading.Piece) float64 {
	t.Helper()
	q := p.Pieces[dartPiece(p)]
	at := mustRead(t, q, r)
	sewn := q.Edges[at.To].Allowance
	half := func(seam geom.Path, off float64) float64 {
		line, err := geom.OffsetEdge(seam, off, 1e-4)
		if err != nil {
			t.Fatal(err)
		}
		start := line.Start()
		long := append(geom.Path{geom.Line(start.Add(line.StartDir().Scale(-sewn)), start)}, line...)
		found := geom.Intersect(long, geom.Polyline(at.Apex, seam.Start()), 1e-6)
		m, err := geom.Measure(long, 1e-4)
		if err != nil || len(found) == 0 {
			t.Fatalf("a leg does not cross the stitching line (%v)", err)
		}
		return m.Length() - m.To(found[0].IA, found[0].TA)
	}
	return half(r.Edges[at.From-1].Reverse(), sewn) + half(r.Edges[at.To], -sewn)
}

// A dart neither kept nor trued changes nothing at all.
func TestPlainDartsChangeNothing(t *testing.T) {
	for _, d := range demos[:2] {
		p := d.pattern(t)
		i := dartPiece(p)
		none := p.WithPiece(i, func(q model.Piece) model.Piece {
			q.Darts = nil
			return q
		})
		var a, b grading.Grader
		farPlaces(t, d, p, func(p model.Pattern) {
			none.Target = p.Target
			was, now := mustGrade(t, &a, none), mustGrade(t, &b, p)
			for k := range now.Pieces {
				if apartAll(was.Pieces[k].Edges, now.Pieces[k].Edges) != 0 {
					t.Errorf("%s, place %g: %s is not the same", d.name, p.Target.Place, now.Pieces[k].Name)
				}
			}
		})
	}
}

// A dart that cannot be trued is left as it is, and says why.
func TestADartThatCannotBeTruedSaysWhy(t *testing.T) {
	p := withDart(demos[0].pattern(t), false, true)
	i := dartPiece(p)
	p = p.WithPiece(i, func(q model.Piece) model.Piece {
		edges := append([]model.Edge(nil), q.Edges...)
		edges[q.EdgeIndex("side-seam")].Allowance = 20
		q.Edges = edges
		return q
	})
	p.Links = nil
	var g grading.Grader
	r := mustGrade(t, &g, p).Pieces[i]
	if r.Darts[0].Why == "" || apartAll(r.Edges, r.Base) != 0 {
		t.Errorf("said %q", r.Darts[0].Why)
	}
}

// What a dart costs: the blouse graded with it as it is, kept and trued.
func BenchmarkDarts(b *testing.B) {
	c, ok := sizechart.ByID("en13402-women")
	if !ok {
		b.Fatal("no chart")
	}
	p, err := draft.Blouse(c, demos[0].sizes)
	if err != nil {
		b.Fatal(err)
	}
	p.Target.Place = 9
	none := p.WithPiece(dartPiece(p), func(q model.Piece) model.Piece {
		q.Darts = nil
		return q
	})
	for _, k := range []struct {
		name string
		p    model.Pattern
	}{{"none", none}, {"as graded", p}, {"trued", withDart(p, true, true)}} {
		b.Run(k.name, func(b *testing.B) {
			var g grading.Grader
			for b.Loop() {
				mustGrade(b, &g, k.p)
			}
		})
	}
}

// Length put in and seams that give way leave a trued dart smooth and its legs
// equal.
func TestTruedDartsStaySo(t *testing.T) {
	p := withDart(demos[0].pattern(t), false, true)
	p.Target.Place = 9
	i := dartPiece(p)
	var g grading.Grader
	hold := func(name string, p model.Pattern) {
		d := mustGrade(t, &g, p).Pieces[i].Darts[0]
		if d.Kink > 0.1 || math.Abs(d.LegsDiffer) > 0.02 {
			t.Errorf("%s: kink %.3f degrees, legs %.4f mm apart", name, d.Kink, d.LegsDiffer)
		}
	}
	for _, l := range p.Pieces[i].Lines {
		for _, by := range []float64{-40, 40, 100} {
			if long := p; l.Kind == model.Lengthen {
				long.Lengths = []model.Lengthening{{ID: "a", By: by, Lines: []model.PieceLine{{Piece: p.Pieces[i].ID, Line: l.ID}}}}
				hold(l.Name, long)
			}
		}
	}
	gave := 0
	for k, l := range p.Links {
		if l.Kind != model.Sewn || l.Follow.Piece != "front" {
			continue
		}
		l.EaseFixed, l.Ease = true, 6
		for _, l.Refit = range model.Refits {
			wide := p
			wide.Links = append([]model.Link(nil), p.Links...)
			wide.Links[k] = l
			hold(l.ID+", "+string(l.Refit), wide)
			for _, s := range mustGrade(t, &g, wide).Seams {
				if s.Link == l.ID && s.Gave != 0 {
					gave++
				}
			}
		}
	}
	if gave < 3 {
		t.Errorf("only %d seams gave way", gave)
	}
}
