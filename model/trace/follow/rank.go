package follow

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// ranks is, by place of a course, how many lines lie between the traced line
// and what passes there. The lines of a nest keep their order from one corner to
// the next.
type ranks []rank

// rank is one place of a course.
type rank struct {
	sure  float64 // 0: nothing can be said here, 1: the lines can be counted
	lines []int8  // between the traced line and each bin; below 0 on the traced line and beyond it
}

// How lines are counted.
const (
	rankHalf   = 10.0 // mm to the traced line up to which they are
	rankLine   = 0.4  // ink of a line
	rankBeside = 0.45 // mm: a course nearer to the traced line than that is on no side of it
	rankTraced = 0.3  // mm beside the traced line that are its own ink
	rankOwn    = 0.3  // mm beside a bin that are its own ink
	rankCorner = 2.0  // mm from a corner, where other sizes have theirs
	rankRamp   = 8.0  // mm more until the count is sure
)

// asideOf is how far a line, in steps as those of the course, lies aside of the
// course at every place, in mm.
func (s *strip) asideOf(line []geom.Point) []float64 {
	out := make([]float64, len(s.course))
	m := 0
	for k, at := range s.course {
		along := func(i int) float64 { return math.Abs(line[i].Sub(at).Dot(s.dir[k])) }
		for m > 0 && along(m-1) < along(m) {
			m--
		}
		for m < len(line)-1 && along(m+1) <= along(m) {
			m++
		}
		out[k] = s.dir[k].Cross(line[m].Sub(at))
	}
	return out
}

// ranks counts the lines between a traced line and every bin.
func (s *strip) ranks(traced []float64) ranks {
	out := make(ranks, len(s.course))
	ways := sides(traced)
	for k, off := range traced {
		if math.Abs(off) > s.half || ways[k] == 0 {
			continue
		}
		end := float64(min(k, len(out)-1-k)) * courseStep
		out[k] = rank{within((end-rankCorner)/rankRamp, 0, 1), s.between(k, off, ways[k])}
	}
	return out
}

// sides is by place on which side of the traced line the course runs: 1 to the
// right of it, -1 to the left, 0 where it changes over. Where the two are too
// near to each other to tell, it is the side on which the course comes there and
// leaves.
func sides(traced []float64) []int {
	n := len(traced)
	before, after := make([]int, n), make([]int, n)
	last := 0
	note := func(to []int, k int) {
		if math.Abs(traced[k]) >= rankBeside {
			last = 1
			if traced[k] > 0 {
				last = -1
			}
		}
		to[k] = last
	}
	for k := range n {
		note(before, k)
	}
	last = 0
	for k := n - 1; k >= 0; k-- {
		note(after, k)
		switch {
		case before[k] == 0:
			before[k] = after[k]
		case after[k] != 0 && after[k] != before[k]:
			before[k] = 0
		}
	}
	return before
}

// between is how many lines lie between the traced line and each bin at place k,
// counted to the one side. Where the course is hardly beside the traced line, the
// two may be one.
func (s *strip) between(k int, traced float64, way int) []int8 {
	row := s.whole[k]
	out := make([]int8, len(row))
	upon := int8(-1)
	if math.Abs(traced) < rankBeside {
		upon = 0
	}
	own := int(rankOwn / stripBin)
	from := s.middleBin() + int(math.Round(traced/stripBin))
	count, on := int8(0), false
	at := from + way*int(rankTraced/stripBin) // the next bin whose ink is counted
	for b := from; b >= 0 && b < len(row); b += way {
		for ; (b-own*way-at)*way >= 0; at += way {
			ink := at >= 0 && at < len(row) && row[at] > rankLine
			if on && !ink {
				count++
			}
			on = ink
		}
		if out[b] = count; (b-from)*way <= int(rankTraced/stripBin) {
			out[b] = upon
		}
	}
	for b := from - way; b >= 0 && b < len(row); b -= way {
		if out[b] = -1; (from-b)*way <= int(rankTraced/stripBin) {
			out[b] = upon
		}
	}
	return out
}

// off is 1 where another number of lines than n lies between the traced line and
// a bin, and 0 where n do or they cannot be counted.
func (r rank) off(bin, n int) float64 {
	if r.sure == 0 || int(r.lines[bin]) == n {
		return 0
	}
	return r.sure
}

// on lists the numbers of lines that lie between the traced one and a lane for a
// part of its way; none, and what cannot be said, counts as 0.
func (r ranks) on(l lane) []int {
	out := []int{0}
	if r == nil {
		return out
	}
	many := map[int]float64{}
	var all float64
	for k, at := range r {
		if at.sure > 0 {
			many[int(at.lines[l.bins[k]])] += at.sure
			all += at.sure
		}
	}
	for n, share := range many {
		if n > 0 && share > 0.1*all {
			out = append(out, n)
		}
	}
	slices.Sort(out)
	return out
}
