package straight

import (
	"context"
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Part is one picture of a piece that was taken in several, with its own map.
type Part struct {
	Gray   *image.Gray
	Map    Map
	Covers []Cover // what lies on the paper in it and does not count
}

// Mark is one place of the paper clicked in two pictures.
type Mark struct {
	On    int        // which of the parts that lie already
	There geom.Point // px in that part
	Here  geom.Point // px in the part that is joined on
}

// Joined is where a part lies among the others.
type Joined struct {
	Map     Map     // of the joined part, to the mm of the others
	Misfit  Misfit  // how far what both pictures show lies apart, over the overlap but for its worst twentieth
	Refined bool    // the overlap was laid together; else the marks alone count
	Alike   float64 // how alike both are over the overlap, 1 the same; 0 where it was not laid together
	Moved   float64 // mm by which the overlap moved the part from its marks, at most
}

// Say is what the misfit means.
func (j Joined) Say(u measure.Unit) string {
	switch {
	case !j.Refined:
		return words.T("Joined by the two marks alone: what the parts share shows too little to check it. See whether the lines go on over the join.")
	case j.Misfit.Worst <= goodWorst:
		return words.F("The parts agree to within %s mm, good enough to trace.", words.Figure(max(j.Misfit.Worst, 0.1), 1))
	case j.Misfit.Worst <= fairWorst:
		return words.F("The parts agree to within %s mm: you can trace it, but lay them flatter to do better.", words.Figure(j.Misfit.Worst, 1))
	}
	return words.F("The parts are up to %s mm apart: take this part again, flatter.", words.Figure(j.Misfit.Worst, 1))
}

// Marks off by more than marksApart mm and marksShare of their distance are not
// the same two.
const (
	marksApart = 4
	marksShare = 0.02
	leastApart = 15 // mm between two marks
	mostMoved  = 6  // mm by which the overlap may move a part from its marks
)

// Join lays a part on those that lie already: by two or more marks seen in
// both, then by all that the overlap shows, laid together by least squares of
// brightness in ever finer steps (Lucas and Kanade 1981). The part is turned and
// moved, never stretched: pictures that differ in scale show it as misfit.
func Join(ctx context.Context, placed []Part, add Part, marks []Mark) (Joined, error) {
	t, err := byMarks(placed, add, marks)
	if err != nil {
		return Joined{}, words.Errorf("joining the parts: %w", err)
	}
	j := Joined{Map: moved(add.Map, t)}
	from, to := markPlaces(placed, add, marks)
	for i := range from {
		d := t.Apply(from[i]).Dist(to[i])
		j.Misfit.RMS += d * d / float64(len(from))
		j.Misfit.Worst = max(j.Misfit.Worst, d)
	}
	j.Misfit.RMS, j.Misfit.Points = math.Sqrt(j.Misfit.RMS), len(from)
	o, ok := overlapOf(placed, Part{add.Gray, j.Map, add.Covers})
	if !ok {
		return j, nil
	}
	nudge, fit, alike, ok, err := o.lay(ctx)
	if err != nil {
		return Joined{}, words.Errorf("joining the parts: %w", err)
	}
	if !ok {
		return j, nil
	}
	far := 0.0
	for _, p := range []geom.Point{o.box.Min, o.box.Max, {X: o.box.Min.X, Y: o.box.Max.Y}, {X: o.box.Max.X, Y: o.box.Min.Y}} {
		far = max(far, nudge.Apply(p).Dist(p))
	}
	if far > mostMoved {
		return j, nil
	}
	return Joined{Map: moved(j.Map, nudge), Misfit: fit, Refined: true, Alike: alike, Moved: far}, nil
}

// markPlaces are the marks in mm: on the part that is joined on, and where they
// lie already.
func markPlaces(placed []Part, add Part, marks []Mark) (from, to []geom.Point) {
	for _, k := range marks {
		from = append(from, add.Map.MM(k.Here))
		to = append(to, placed[k.On].Map.MM(k.There))
	}
	return from, to
}

// byMarks turns and moves the part so that its marks lie on those of the others.
func byMarks(placed []Part, add Part, marks []Mark) (geom.Affine, error) {
	if len(marks) < 2 {
		return geom.Affine{}, words.Errorf("click two marks that both parts show")
	}
	for _, k := range marks {
		if k.On < 0 || k.On >= len(placed) {
			return geom.Affine{}, words.Errorf("a mark lies on no part, click it again")
		}
	}
	from, to := markPlaces(placed, add, marks)
	for i := range from {
		if !from[i].Finite() || !to[i].Finite() {
			return geom.Affine{}, words.Errorf("mark %d lies nowhere on the paper, click it again", i+1)
		}
	}
	here, there := from[0].Dist(from[len(from)-1]), to[0].Dist(to[len(to)-1])
	if min(here, there) < leastApart {
		return geom.Affine{}, words.Errorf("the marks are only %.0f mm apart, choose two farther from each other", min(here, there))
	}
	if d := math.Abs(here - there); d > marksApart+marksShare*there {
		return geom.Affine{}, words.Errorf("the marks are %.0f mm apart on one part and %.0f mm on the other, click the same two on both", there, here)
	}
	t, _ := geom.RigidFit(from, to)
	return t, nil
}

// moved is m followed by t on the paper.
func moved(m Map, t geom.Affine) Map {
	m.H = times3([9]float64{t.A, t.C, t.E, t.B, t.D, t.F, 0, 0, 1}, m.H)
	return m
}
