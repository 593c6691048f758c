package follow

import (
	"math"

	"quarterstep/model/geom"
)

// Costs of a line in the strip, in mm of ink.
const (
	laneHalf  = 2.6  // mm to either side of the course in which a line is looked for at least
	perLength = 0.03 // of a course's length in which it is looked for
	laneMost  = 7.0  // mm in which it is looked for at most
	perSwerve = 25.0 // a mm to the side in a mm of way
	perAside  = 0.14 // a mm of way at the side of what is looked at, less towards the course with the square
	perEndOff = 20.0 // a mm² off a corner
	perOrder  = 0.5  // a mm of way with another number of lines between it and the traced one
	mostBins  = 2    // bins to the side in one step
)

// lane is a line along a strip.
type lane struct {
	strip *strip
	ranks ranks
	order int         // how many lines are to lie between it and the traced one
	bins  []int       // by place of the course
	ahead [][]float64 // by place and bin: the best of a line there, from the first place on
	back  [][]float64 // the same from the last place back, the place's own ink left out
	score float64
}

// best finds the line along the strip that has the most ink, swerves least,
// starts and ends on the course and has the same number of lines between itself
// and the traced one all along. With it comes the best one with another number,
// where there is one.
func (s *strip) best(between ranks) (best, other lane) {
	plain := s.laneOf(s.gains(nil, 0))
	best.score, other.score = math.Inf(-1), math.Inf(-1)
	for _, n := range between.on(plain) {
		l := s.laneOf(s.gains(between, n))
		l.ranks, l.order = between, n
		switch {
		case l.score > best.score:
			best, other = l, best
		case l.score > other.score:
			other = l
		}
	}
	return best, other
}

// laneOf is the best line by what it gains at every place and bin.
func (s *strip) laneOf(gain [][]float64) lane {
	l := lane{strip: s, bins: make([]int, len(gain)), ahead: s.sweep(gain, 1), back: s.sweep(gain, -1), score: math.Inf(-1)}
	for k, row := range gain {
		top := math.Inf(-1)
		for b := range row {
			l.back[k][b] -= row[b]
			if v := l.ahead[k][b] + l.back[k][b]; v > top {
				top, l.bins[k] = v, b
			}
		}
		l.score = max(l.score, top)
	}
	return l
}

// gains is what a line gains by passing a bin at a place, if n lines are to lie
// between it and the traced one.
func (s *strip) gains(between ranks, n int) [][]float64 {
	out := s.table()
	for k, row := range out {
		for b := range row {
			off := s.aside(b)
			if math.Abs(off) > s.reach {
				row[b] = never
				continue
			}
			row[b] = s.whole[k][b] - perAside*off*off/(s.reach*s.reach)
			if k == 0 || k == len(out)-1 {
				row[b] -= perEndOff * off * off
			}
			if between != nil {
				row[b] -= perOrder * between[k].off(b, n)
			}
		}
	}
	return out
}

// never is what a line gains where none is looked for.
const never = -1e6

// sweep is the best of a line up to every place and bin, walked forwards or
// backwards.
func (s *strip) sweep(gain [][]float64, way int) [][]float64 {
	n, bins := len(gain), s.bins()
	out := s.table()
	k := 0
	if way < 0 {
		k = n - 1
	}
	lo := s.middleBin() - int(s.reach/stripBin)
	hi := bins - 1 - lo
	for b := range out[k] {
		out[k][b] = gain[k][b]
	}
	for i := k + way; i >= 0 && i < n; i += way {
		for b := range out[i] {
			if b < lo || b > hi {
				out[i][b] = never
				continue
			}
			top := math.Inf(-1)
			for c := max(b-mostBins, lo); c <= min(b+mostBins, hi); c++ {
				swerve := float64(b-c) * stripBin
				top = max(top, out[i-way][c]-perSwerve*swerve*swerve)
			}
			out[i][b] = top + gain[i][b]
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
		if off := math.Abs(p.aside - s.aside(bin)); off <= reach {
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
	return s.course[k].Add(s.dir[k].Perp().Scale(s.aside(bin)))
}
