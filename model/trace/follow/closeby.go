package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// When lines run too close to one another to be told apart, by trial on rendered
// nests.
const (
	closeReach = 1.4  // mm aside: print so near may as well be the line
	closeOwn   = 0.45 // mm aside that are the line's own print
	closeTurn  = 0.5  // radians: print that runs more askew is no line beside it
	closeStep  = 1.0  // mm
	closeLeast = 8.0  // mm of way beside such print
	closeAlone = 6.0  // the same where no size was traced beside it, which would tell lines apart
	closeGap   = 4.0  // mm: a gap of a dashed line beside
	closeEnd   = 3.0  // mm from a corner, where other sizes have theirs
	closeBare  = 8.0  // mm of way there, of which
	closeInked = 0.9  // at most so much has print of its own
	closeDot   = 0.65 // mm: a dot is no speck from this length on
	closePrint = 1.3  // mm along the line from its print
	closeAside = 0.3  // mm aside of it
)

// closeBy adds to the doubts where other print runs so close beside a line as it
// is drawn that it may be the one looked for, and the line itself does not lie on
// print all along. It is a last resort: what lies further apart is told from what
// the line would gain by it.
func (w *web) closeBy(path geom.Path, doubts []Doubt, alone bool) []Doubt {
	least := closeLeast
	if alone {
		least = closeAlone
	}
	pts := stepsAlong(dense(path, closeStep/2), closeStep)
	n, skip := len(pts), int(closeEnd/closeStep)
	from, last := -1, 0
	for k := skip; k < n-skip; k++ {
		switch {
		case w.besideAt(pts[k], headingAt(pts, k)):
			if last = k; from < 0 {
				from = k
			}
		case from >= 0 && float64(k-last)*closeStep > closeGap:
			doubts = w.barely(pts, from, last, least, doubts)
			from = -1
		}
	}
	if from >= 0 {
		doubts = w.barely(pts, from, last, least, doubts)
	}
	return doubts
}

// barely adds to the doubts where a line with others close beside it from one
// place to another, for the least mm at least, does not lie on print all along.
func (w *web) barely(pts []geom.Point, from, to int, least float64, doubts []Doubt) []Doubt {
	if float64(to-from)*closeStep < least {
		return doubts
	}
	span := int(closeBare / closeStep)
	for k := max(from-2, 0); k+span <= min(to+2, len(pts)-1); k++ {
		on, at := 0, pts[k+span/2]
		for i := k; i < k+span; i++ {
			if w.printAt(pts[i], headingAt(pts, i)) {
				on++
			}
		}
		if float64(on) <= closeInked*float64(span) && !nearDoubt(doubts, at) {
			doubts = append(doubts, Doubt{At: at, Say: words.T("Lines run close together here: look whether this is the right one.")})
		}
	}
	return doubts
}

// headingAt is the direction of a line of points at one of them.
func headingAt(pts []geom.Point, k int) geom.Vec {
	return pts[min(k+1, len(pts)-1)].Sub(pts[max(k-1, 0)]).Unit()
}

// printAt reports whether there is print of a line's own at a place of it.
func (w *web) printAt(at geom.Point, dir geom.Vec) bool {
	found := false
	heading := math.Atan2(dir.Y, dir.X)
	w.grid.near(at, closePrint, func(j int32) {
		if found {
			return
		}
		d := &w.dashes[j]
		if d.dot && d.length < closeDot || !d.dot && math.Abs(turn(along(d.dir, heading), heading)) > closeTurn {
			return
		}
		q, _, _ := d.nearest(at)
		v := q.Sub(at)
		found = math.Abs(dir.Dot(v)) < closePrint && math.Abs(dir.Cross(v)) < closeAside
	})
	return found
}

// nearDoubt reports that a place was doubted already.
func nearDoubt(doubts []Doubt, at geom.Point) bool {
	for _, d := range doubts {
		if d.At.Dist(at) < doubtEvery {
			return true
		}
	}
	return false
}

// besideAt reports whether print other than its own runs close beside a place of a
// line.
func (w *web) besideAt(at geom.Point, dir geom.Vec) bool {
	found := false
	heading := math.Atan2(dir.Y, dir.X)
	w.grid.near(at, closeReach, func(j int32) {
		d := &w.dashes[j]
		if found || d.dot || math.Abs(turn(along(d.dir, heading), heading)) > closeTurn {
			return
		}
		q, _, dist := d.nearest(at)
		if dist > closeReach {
			return
		}
		aside := math.Abs(dir.Cross(q.Sub(at)))
		found = aside > closeOwn && math.Abs(dir.Dot(q.Sub(at))) < closeStep
	})
	return found
}

// stepsAlong is places along the points at steps of so many mm.
func stepsAlong(pts []geom.Point, step float64) []geom.Point {
	out := []geom.Point{pts[0]}
	left := step
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := a.Dist(b)
		for ; left <= d; left += step {
			out = append(out, a.Lerp(b, left/d))
		}
		left -= d
	}
	return out
}
