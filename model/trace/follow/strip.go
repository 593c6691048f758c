package follow

import (
	"math"

	"quarterstep/model/geom"
)

// strip is the print along a course, rolled out straight: for every millimetre
// of the course, how much ink of its direction lies how far aside.
type strip struct {
	course []geom.Point
	dir    []geom.Vec
	half   float64     // mm to either side of the course
	reach  float64     // the same, in which a line is looked for
	ink    [][]float64 // by place of the course and by bin aside: 0 white, 1 a line
	whole  [][]float64 // the same with the gaps of dashed lines filled
	seen   [][]spot    // by place of the course: the middles of lines near it
}

// spot is a point of a line's middle, in mm aside of a place of the course and
// along it, and the ink it stands for.
type spot struct{ aside, along, ink float64 }

const (
	stripBin  = 0.1 // mm
	stripTurn = 0.3 // radians: print that runs more askew is another line's
	perPoint  = 0.2 // ink of one point of a line's middle
	perDot    = 0.7 // ink of a dot
	takenInk  = 0.4 // what ink that a traced line has counts for
)

// newStrip reads the print beside a course of even steps of about a millimetre,
// so far aside that a line beside the course is seen and one away mm from it;
// taken are lines whose ink is spoken for.
func newStrip(w *web, course []geom.Point, away float64, taken [][]geom.Point) *strip {
	n := len(course)
	s := &strip{course: course, dir: make([]geom.Vec, n), seen: make([][]spot, n)}
	s.reach = within(perLength*float64(n)*courseStep, laneHalf, laneMost)
	s.half = within(away+1, s.reach, rankHalf)
	half := s.half
	s.ink = s.table()
	for k := range course {
		s.dir[k] = course[min(k+1, n-1)].Sub(course[max(k-1, 0)]).Unit()
	}
	seen := map[int32]bool{}
	for k := 0; k < n; k += 2 {
		w.grid.near(course[k], half, func(i int32) {
			if !seen[i] {
				seen[i] = true
				s.add(&w.dashes[i], k, taken)
			}
		})
	}
	s.whole = s.filled()
	return s
}

// bins is how many there are aside, the middle one on the course.
func (s *strip) bins() int { return 2*s.middleBin() + 1 }

func (s *strip) middleBin() int { return int(s.half / stripBin) }

// aside is how many mm a bin lies aside of the course.
func (s *strip) aside(bin int) float64 { return float64(bin-s.middleBin()) * stripBin }

// table is a number for every place and bin.
func (s *strip) table() [][]float64 {
	n, b := len(s.course), s.bins()
	all := make([]float64, n*b)
	out := make([][]float64, n)
	for k := range out {
		out[k] = all[k*b : (k+1)*b]
	}
	return out
}

// add lays a dash that lies near place k into the strip.
func (s *strip) add(d *dash, k int, taken [][]geom.Point) {
	round := int(1.5*(s.half+pieceLength)) + 1 // places that may be nearer, on a course that bends
	lo, hi := max(k-round, 0), min(k+round, len(s.course))
	j, off := nearestOf(s.course[lo:hi], d.centre)
	if off > s.half+1 {
		return
	}
	j += lo
	if dir := s.dir[j]; !d.dot && math.Abs(dir.Cross(unit(d.dir))) > math.Sin(stripTurn) {
		return
	}
	weight, pts := perPoint, d.pts
	if d.dot {
		weight, pts = perDot, []geom.Point{d.centre} // its points lie round it
	}
	for _, line := range taken {
		if _, dist := nearestOf(line, d.centre); dist < onGuide {
			weight *= takenInk
			break
		}
	}
	for _, p := range pts {
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
	at := aside/stripBin + float64(s.middleBin())
	for b := int(math.Ceil(at - 2)); b <= int(at+2); b++ {
		if b >= 0 && b < len(s.ink[j]) {
			s.ink[j][b] = min(s.ink[j][b]+weight*(1-math.Abs(at-float64(b))/2.5), 1)
		}
	}
}

// How gaps of dashed lines are filled.
const (
	fillGap    = 4.2  // mm
	fillLeast  = 0.3  // ink on either side
	fillShare  = 0.8  // of that ink
	fillSwerve = 0.5  // mm of gap that a bin to the side counts as
	fillAside  = 0.75 // of the ink, a bin to the side
)

// filled is the ink with what lies between two dashes of one line as well, a
// little less.
func (s *strip) filled() [][]float64 {
	before, after := s.lastInk(1), s.lastInk(-1)
	out := s.table()
	for k := range out {
		for b := range out[k] {
			out[k][b] = s.ink[k][b]
			if p, q := before[k][b], after[k][b]; p.gap+q.gap <= fillGap+courseStep {
				out[k][b] = max(out[k][b], fillShare*min(p.ink, q.ink))
			}
		}
	}
	return out
}

// met is the ink met last on the way, and how long ago.
type met struct{ gap, ink float64 }

// lastInk is the ink met last at every place and bin, walked forwards or
// backwards.
func (s *strip) lastInk(way int) [][]met {
	n, bins := len(s.course), s.bins()
	out := make([][]met, n)
	all := make([]met, n*bins)
	k := 0
	if way < 0 {
		k = n - 1
	}
	never := met{gap: math.Inf(1)}
	var last []met
	for ; k >= 0 && k < n; k += way {
		row := all[k*bins : (k+1)*bins]
		for b := range row {
			row[b] = never
			if ink := s.ink[k][b]; ink >= fillLeast {
				row[b] = met{0, ink}
				continue
			}
			if last == nil {
				continue
			}
			row[b] = met{last[b].gap + courseStep, last[b].ink}
			for _, c := range [2]int{b - 1, b + 1} {
				if c >= 0 && c < bins && last[c].gap+courseStep+fillSwerve < row[b].gap {
					row[b] = met{last[c].gap + courseStep + fillSwerve, fillAside * last[c].ink}
				}
			}
		}
		out[k], last = row, row
	}
	return out
}
