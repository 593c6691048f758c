package follow

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Thresholds of doubt along a course, by trial on rendered nests.
const (
	lessInk    = 3.0  // mm of ink by which another line may be worse
	lessClose  = 6.0  // the same where lines run so close that they share their ink
	crowdLeast = 6.0  // mm of way for which they do
	longBlank  = 9.0  // mm without print
	misplaced  = 12.0 // mm of way out of the order of the lines, longer than a size label
	bent       = 0.9  // mm: how sharply a line may swerve from the course and back
	bentArm    = 10   // places to either side from which it swerves
	leastBent  = 5    // the same near a corner
	atBorder   = 0.9  // of what is looked at beside the course
)

// doubts lists where another line beside the course would do nearly as well,
// and where nothing is printed for long.
func (l lane) doubts(second lane) []Doubt {
	var out []Doubt
	add := func(at geom.Point, say string) {
		if !slices.ContainsFunc(out, func(d Doubt) bool { return d.At.Dist(at) < doubtEvery }) {
			out = append(out, Doubt{At: at, Say: say})
		}
	}
	const away = int(apart / stripBin)
	blank, wrong := 0.0, 0.0
	crowded := l.crowded()
	for k := range l.bins {
		other, top := -1, l.score-lessInk
		if crowded[k] {
			top = l.score - lessClose
		}
		for b := range l.strip.whole[k] {
			if v := l.ahead[k][b] + l.back[k][b]; v > top && max(b-l.bins[k], l.bins[k]-b) >= away && l.strip.whole[k][b] > 0.3 {
				other, top = b, v
			}
		}
		if other >= 0 {
			add(l.strip.place(k, other), words.F("Another line %.0f mm away goes on here nearly as well.", math.Max(1, math.Abs(float64(other-l.bins[k]))*stripBin)))
		}
		if l.ranks[k].off(l.bins[k], l.order) > 0.5 {
			wrong += courseStep
		} else {
			wrong = 0
		}
		if wrong > misplaced {
			add(l.strip.place(k, l.bins[k]), words.T("Here the line may have gone over to that of another size."))
		}
		if l.swerve(k) > bent {
			add(l.strip.place(k, l.bins[k]), words.T("Here the line swerves as the traced size does not."))
		}
		if off := math.Abs(l.strip.aside(l.bins[k])); off > atBorder*l.strip.reach {
			add(l.strip.place(k, l.bins[k]), words.F("Here the line is %.0f mm off where the traced size lets expect it.", off))
		}
		if blank += courseStep; l.inked(k) {
			blank = 0
		}
		if blank > longBlank {
			add(l.strip.place(k, l.bins[k]), words.T("No line is printed here for more than 9 mm."))
		}
	}
	if second.score > l.score-lessInk {
		if at, most := l.apartFrom(second); most >= apart {
			add(at, words.F("Another line %.0f mm away goes on here nearly as well.", most))
		}
	}
	return out
}

// crowded is by place whether another line runs close beside this one, for long
// enough and not near a corner, where other sizes have theirs.
func (l lane) crowded() []bool {
	out := make([]bool, len(l.bins))
	const least, skip = int(crowdLeast / courseStep), int(closeEnd / courseStep)
	from := -1
	for k := skip; k < len(out)-skip; k++ {
		switch {
		case !l.crowdedAt(k):
			from = -1
		case from < 0:
			from = k
		}
		for i := from; from >= 0 && k-from >= least && i <= k; i++ {
			out[i] = true
		}
	}
	return out
}

// crowdedAt reports whether another line runs close beside this one at place k.
func (l lane) crowdedAt(k int) bool {
	row, at := l.strip.whole[k], l.bins[k]
	for b := max(at-int(closeReach/stripBin), 0); b <= min(at+int(closeReach/stripBin), len(row)-1); b++ {
		if off := math.Abs(float64(b-at)) * stripBin; off > closeOwn && row[b] > rankLine {
			return true
		}
	}
	return false
}

// swerve is how far in mm a place of the line lies aside of the middle between
// two others.
func (l lane) swerve(k int) float64 {
	arm := min(bentArm, k, len(l.bins)-1-k)
	if arm < leastBent {
		return 0
	}
	return math.Abs(float64(l.bins[k])-float64(l.bins[k-arm]+l.bins[k+arm])/2) * stripBin
}

// apartFrom is the place where another line is furthest from this one, and how
// many mm.
func (l lane) apartFrom(other lane) (at geom.Point, most float64) {
	for k, b := range other.bins {
		if d := math.Abs(float64(b-l.bins[k])) * stripBin; d > most {
			at, most = l.strip.place(k, b), d
		}
	}
	return at, most
}

// inked reports whether the line has ink at place k.
func (l lane) inked(k int) bool { return l.strip.ink[k][l.bins[k]] > 0.15 }

// printed is the share of the line that lies on print, gaps of dashes counted
// in.
func (l lane) printed() float64 {
	on, blank := 0, gapFree
	for k := range l.bins {
		if blank += courseStep; l.inked(k) {
			blank = 0
		}
		if blank < gapFree {
			on++
		}
	}
	return float64(on) / float64(len(l.bins))
}
