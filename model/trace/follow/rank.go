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
	rankBeside = 0.8  // mm: a course nearer to the traced line than that is on no side of it
	rankTraced = 0.5  // mm beside the traced line that are its own ink
	rankOwn    = 0.4  // mm beside a bin that are its own ink
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
	for k := range out {
		off := traced[k]
		if math.Abs(off) > s.half || math.Abs(off) < rankBeside {
			continue
		}
		end := float64(min(k, len(out)-1-k)) * courseStep
		sure := within((end-rankCorner)/rankRamp, 0, 1) * within((math.Abs(off)-rankBeside)/rankBeside, 0, 1)
		out[k] = rank{sure, s.between(k, off)}
	}
	return out
}

// between is how many lines lie between the traced line and each bin at place k.
func (s *strip) between(k int, traced float64) []int8 {
	row := s.whole[k]
	out := make([]int8, len(row))
	way := 1
	if traced > 0 {
		way = -1
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
			out[b] = -1
		}
	}
	for b := from - way; b >= 0 && b < len(row); b -= way {
		out[b] = -1
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
