package follow

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// strip is the print along a course, rolled out straight: for every millimetre
// of the course, how much ink of its direction lies how far aside.
type strip struct {
	course []geom.Point
	dir    []geom.Vec
	ink    [][]float64 // by place of the course and by bin aside: 0 white, 1 a line
	seen   [][]spot    // by place of the course: the middles of lines near it
}

// spot is a point of a line's middle, in mm aside of a place of the course and
// along it, and the ink it stands for.
type spot struct{ aside, along, ink float64 }

const (
	stripHalf = 2.6 // mm to either side of the course
	stripBin  = 0.1 // mm
	stripBins = 53
	stripTurn = 0.3 // radians: print that runs more askew is another line's
	perPoint  = 0.2 // ink of one point of a line's middle
	takenInk  = 0.4 // what ink that a traced line has counts for
)

// newStrip reads the print beside a course of even steps of about a
// millimetre; taken are lines whose ink is spoken for.
func newStrip(w *web, course []geom.Point, taken [][]geom.Point) *strip {
	n := len(course)
	s := &strip{course: course, dir: make([]geom.Vec, n), ink: make([][]float64, n), seen: make([][]spot, n)}
	bins := make([]float64, n*stripBins)
	for k := range course {
		s.dir[k] = course[min(k+1, n-1)].Sub(course[max(k-1, 0)]).Unit()
		s.ink[k] = bins[k*stripBins : (k+1)*stripBins]
	}
	seen := map[int32]bool{}
	for k := 0; k < n; k += 2 {
		w.grid.near(course[k], stripHalf, func(i int32) {
			if !seen[i] {
				seen[i] = true
				s.add(&w.dashes[i], k, taken)
			}
		})
	}
	return s
}

// add lays a dash that lies near place k into the strip.
func (s *strip) add(d *dash, k int, taken [][]geom.Point) {
	lo, hi := max(k-6, 0), min(k+7, len(s.course))
	j, off := nearestOf(s.course[lo:hi], d.centre)
	if off > stripHalf+1 {
		return
	}
	j += lo
	if dir := s.dir[j]; !d.dot && math.Abs(dir.Cross(unit(d.dir))) > math.Sin(stripTurn) {
		return
	}
	weight := perPoint
	for _, line := range taken {
		if _, dist := nearestOf(line, d.centre); dist < onGuide {
			weight *= takenInk
			break
		}
	}
	for _, p := range d.pts {
		for j > 0 && p.Sub(s.course[j]).Dot(s.dir[j]) < -courseStep/2 {
			j--
		}
		for j < len(s.course)-1 && p.Sub(s.course[j]).Dot(s.dir[j]) > courseStep/2 {
			j++
		}
		v := p.Sub(s.course[j])
		at := spot{s.dir[j].Cross(v), v.Dot(s.dir[j]), weight}
		if math.Abs(at.along) > courseStep {
			continue
		}
		s.seen[j] = append(s.seen[j], at)
		s.drop(j, at.aside, weight)
	}
}

// drop lays ink into the bins around a place aside.
func (s *strip) drop(j int, aside, weight float64) {
	at := aside/stripBin + stripBins/2
	for b := int(math.Ceil(at - 2)); b <= int(at+2); b++ {
		if b >= 0 && b < stripBins {
			s.ink[j][b] = min(s.ink[j][b]+weight*(1-math.Abs(at-float64(b))/2.5), 1)
		}
	}
}

// Costs of a line in the strip, in mm of ink.
const (
	perSwerve = 25.0 // a mm to the side in a mm of way
	perAside  = 0.02 // a mm aside, for a mm of way, growing with the square
	perEndOff = 20.0 // a mm² off a corner
	mostBins  = 2    // bins to the side in one step
)

// lane is the best line along a strip.
type lane struct {
	strip *strip
	bins  []int       // by place of the course
	ahead [][]float64 // by place and bin: the best of a line there, from the first place on
	back  [][]float64 // the same from the last place back, the place's own ink left out
	score float64
}

// best finds the line along the strip that has the most ink, swerves least and
// starts and ends on the course.
func (s *strip) best() lane {
	n := len(s.course)
	l := lane{strip: s, bins: make([]int, n)}
	l.ahead = s.sweep(0, 1)
	back := s.sweep(n-1, -1)
	l.back = back
	for k := range back {
		for b := range back[k] {
			back[k][b] -= s.gain(k, b)
		}
	}
	l.score = math.Inf(-1)
	for k := range n {
		top := math.Inf(-1)
		for b := range stripBins {
			if v := l.ahead[k][b] + l.back[k][b]; v > top {
				top, l.bins[k] = v, b
			}
		}
		l.score = max(l.score, top)
	}
	return l
}

// gain is what a line gains by passing bin b at place k.
func (s *strip) gain(k, b int) float64 {
	off := float64(b-stripBins/2) * stripBin
	v := s.ink[k][b] - perAside*off*off
	if k == 0 || k == len(s.course)-1 {
		v -= perEndOff * off * off
	}
	return v
}

// sweep is the best of a line up to every place and bin, walked from place k
// in steps of way.
func (s *strip) sweep(k, way int) [][]float64 {
	n := len(s.course)
	out := make([][]float64, n)
	all := make([]float64, n*stripBins)
	for i := range out {
		out[i] = all[i*stripBins : (i+1)*stripBins]
	}
	for b := range stripBins {
		out[k][b] = s.gain(k, b)
	}
	for i := k + way; i >= 0 && i < n; i += way {
		for b := range stripBins {
			top := math.Inf(-1)
			for c := max(b-mostBins, 0); c <= min(b+mostBins, stripBins-1); c++ {
				swerve := float64(b-c) * stripBin
				top = max(top, out[i-way][c]-perSwerve*swerve*swerve)
			}
			out[i][b] = top + s.gain(i, b)
		}
	}
	return out
}

// points lists what was seen of the line: the middle of its ink at every place
// that has any, the lane itself where for long there is none.
func (l lane) points(from, to geom.Point) []geom.Point {
	out := []geom.Point{from}
	s := l.strip
	blank := 0.0
	for k := 1; k < len(s.course)-1; k++ {
		at, ok := s.middle(k, l.bins[k])
		if blank += courseStep; ok {
			blank = 0
			out = append(out, at)
		} else if blank > gapFree {
			out = append(out, s.place(k, l.bins[k]))
		}
	}
	return append(out, to)
}

// middle is the middle of the line seen about a bin at place k, if there is one.
func (s *strip) middle(k, bin int) (geom.Point, bool) {
	const reach = 0.35 // mm
	var sum spot
	for _, p := range s.seen[k] {
		if off := math.Abs(p.aside - float64(bin-stripBins/2)*stripBin); off <= reach {
			ink := p.ink * (1 - off/(2*reach))
			sum = spot{sum.aside + ink*p.aside, sum.along + ink*p.along, sum.ink + ink}
		}
	}
	if sum.ink < perPoint/2 {
		return geom.Point{}, false
	}
	return s.course[k].Add(s.dir[k].Perp().Scale(sum.aside / sum.ink)).Add(s.dir[k].Scale(sum.along / sum.ink)), true
}

// place is the place on the paper of a bin.
func (s *strip) place(k, bin int) geom.Point {
	return s.course[k].Add(s.dir[k].Perp().Scale(float64(bin-stripBins/2) * stripBin))
}

// Thresholds of doubt along a course, by trial on rendered nests.
const (
	lessInk   = 3.0 // mm of ink by which another line may be worse
	longBlank = 9.0 // mm without print
	offCourse = 1.7 // mm off the course
)

// doubts lists where another line beside the course would do nearly as well,
// and where nothing is printed for long.
func (l lane) doubts() []Doubt {
	var out []Doubt
	add := func(at geom.Point, say string) {
		if !slices.ContainsFunc(out, func(d Doubt) bool { return d.At.Dist(at) < doubtEvery }) {
			out = append(out, Doubt{At: at, Say: say})
		}
	}
	const away = int(apart / stripBin)
	blank := 0.0
	for k := range l.bins {
		other, top := -1, l.score-lessInk
		for b := range stripBins {
			if v := l.ahead[k][b] + l.back[k][b]; v > top && max(b-l.bins[k], l.bins[k]-b) >= away && l.strip.ink[k][b] > 0.3 {
				other, top = b, v
			}
		}
		if other >= 0 {
			add(l.strip.place(k, other), words.F("Another line %.0f mm away goes on here nearly as well.", math.Max(1, math.Abs(float64(other-l.bins[k]))*stripBin)))
		}
		if off := math.Abs(float64(l.bins[k]-stripBins/2)) * stripBin; off > offCourse {
			add(l.strip.place(k, l.bins[k]), words.F("Here the line is %.0f mm off where the traced size lets expect it.", off))
		}
		if blank += courseStep; l.inked(k) {
			blank = 0
		}
		if blank > longBlank {
			add(l.strip.place(k, l.bins[k]), words.T("No line is printed here for more than 9 mm."))
		}
	}
	return out
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
