package app

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// leastApart is how near two pieces may come to each other, in mm, before their
// last places are given up.
const leastApart = 2.0

// PlanLike is Plan with the pieces where they lay at the last print, so that
// pages without a change stay as they are. They are arranged anew where the
// paper is another, a piece was not there, two would lie too close, or they would
// take more pages.
func PlanLike(p model.Pattern, c PrintChoice, s tile.Setup, last Printed) (Job, error) {
	return Watch{}.PlanLike(p, c, s, last)
}

// PlanLike is the function of that name, watched: working out the sizes ends with the
// context, and laying the pieces, which takes some tenths of a second, is not begun then.
func (w Watch) PlanLike(p model.Pattern, c PrintChoice, s tile.Setup, last Printed) (Job, error) {
	job, err := newJob(w.ctx(), p, c, s)
	if err != nil {
		return Job{}, err
	}
	placed := make([]tile.Placed, len(job.ids))
	for i, id := range job.ids {
		at, ok := last.Places[id]
		if !ok || last.Setup != setupWord(s) {
			return job.arrange()
		}
		placed[i] = tile.Placed{Piece: job.drawing.Pieces[i], At: at}
	}
	if len(last.Places) != len(job.ids) || tooClose(placed) {
		return job.arrange()
	}
	laid, err := job.lay(wordsUpright(placed), s)
	if err != nil || laid.Pages() > len(last.Pages) {
		return job.arrange()
	}
	return laid, nil
}

// tooClose reports whether any two pieces lie nearer to each other than they
// may, or over each other.
func tooClose(placed []tile.Placed) bool {
	const tol = 0.2
	rings := make([][]geom.Point, len(placed))
	boxes := make([]geom.Box, len(placed))
	for i, p := range placed {
		rings[i] = p.Piece.Outline.Transform(p.At).Flatten(tol)
		boxes[i] = geom.BoxOf(rings[i]...)
		for j := range i {
			if boxes[i].Grow(leastApart).Intersects(boxes[j]) && ringsMeet(rings[i], rings[j]) {
				return true
			}
		}
	}
	return false
}

// ringsMeet reports whether two closed lines come too close or lie in each
// other.
func ringsMeet(a, b []geom.Point) bool {
	if len(a) == 0 || len(b) == 0 || insideRing(a, b[0]) || insideRing(b, a[0]) {
		return true
	}
	near := geom.BoxOf(b...).Grow(leastApart)
	for i := 1; i < len(a); i++ {
		if !geom.BoxOf(a[i-1], a[i]).Intersects(near) {
			continue
		}
		for k := 1; k < len(b); k++ {
			if legsApart(a[i-1], a[i], b[k-1], b[k]) < leastApart {
				return true
			}
		}
	}
	return false
}

// legsApart is how far two straight legs are from each other; 0 where they
// cross.
func legsApart(a, b, c, d geom.Point) float64 {
	side := func(p, q, r geom.Point) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	first, second := []geom.Point{a, b}, []geom.Point{c, d}
	return math.Min(math.Min(awayFrom(second, a), awayFrom(second, b)), math.Min(awayFrom(first, c), awayFrom(first, d)))
}
