package propose

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// run is edges of one sheet that follow each other along the outline, the
// mouths of darts left out.
type run struct {
	s     *sheet
	edges []int
	where string // "above the waist", where a run was parted
}

// runs is every run of edges of that role, as long as they go on.
func (s *sheet) runs(of role) []run {
	n := len(s.role)
	var out []run
	for j := range n {
		if s.role[j] != of || s.role[s.before(j)] == of && s.before(j) != j {
			continue
		}
		r := run{s: s}
		for k := j; s.role[k] == of; k = s.next(k) {
			r.edges = append(r.edges, k)
			if s.next(k) == j || len(r.edges) == n {
				break
			}
		}
		out = append(out, r)
	}
	return out
}

// stretch is the run as part of a link.
func (r run) stretch(reverse bool) model.Stretch {
	out := model.Stretch{Piece: r.s.q.ID, Reverse: reverse}
	for i := range r.edges {
		j := r.edges[i]
		if reverse {
			j = r.edges[len(r.edges)-1-i]
		}
		out.Edges = append(out.Edges, r.s.q.Edges[j].ID)
	}
	return out
}

func (r run) length(size string) float64 { return r.s.length(size, r.edges) }

// tip is what one end of a run is told by.
type tip struct {
	point string
	next  role    // the edge that goes on there
	along float64 // where it lies along the grain, from 0 at the run's upper end to 1
}

// tips is the two ends of a run, in outline order.
func (r run) tips() [2]tip {
	first, last := r.edges[0], r.edges[len(r.edges)-1]
	n := len(r.s.role)
	out := [2]tip{
		{point: r.s.pointName(first), next: r.s.role[r.s.before(first)]},
		{point: r.s.pointName((last + 1) % n), next: r.s.role[r.s.next(last)]},
	}
	if len(r.s.sizes) == 0 {
		return out
	}
	edges, _ := r.s.edges(r.s.sizes[0])
	v := edges[last].End().Sub(edges[first].Start())
	_, along := r.s.q.AcrossAlong(v)
	const sloped = 0.2 // of its length; less may be any way on the body
	if math.Abs(along) > sloped*v.Len() {
		if along > 0 {
			out[1].along = 1
		} else {
			out[0].along = 1
		}
	}
	return out
}

// alike is how much speaks for two ends of two runs lying on each other.
func (a tip) alike(b tip) float64 {
	var sum float64
	if a.point != "" && bare(a.point) == bare(b.point) {
		sum += 4
	}
	if a.next == b.next && a.next != unknown {
		sum += 2
	}
	if a.next == hem && b.next == hem || levelOf(a.point) != "" && levelOf(a.point) == levelOf(b.point) {
		sum++
	}
	return sum
}

// levelOf is the height on the body that a point's name tells.
func levelOf(point string) string {
	for _, level := range []string{"neck", "shoulder", "underarm", "waist", "hip", "hem", "wrist"} {
		if strings.Contains(point, level) {
			return level
		}
	}
	return ""
}

// against reports that b is walked against its outline when a is walked along
// its own, so that the ends that meet lie on each other; sure is false where
// nothing tells.
func against(a, b run) (reverse, sure bool) {
	x, y := a.tips(), b.tips()
	same := x[0].alike(y[0]) + x[1].alike(y[1])
	turned := x[0].alike(y[1]) + x[1].alike(y[0])
	if x[0].along != x[1].along && y[0].along != y[1].along {
		if x[0].along == y[0].along {
			same += 1.5
		} else {
			turned += 1.5
		}
	}
	d := notches(a, b)
	same, turned = same+max(d, 0), turned+max(-d, 0)
	if same == turned {
		return true, false // two sheets side by side at the seam run against each other
	}
	return turned > same, true
}

// notches compares where the notches of two runs lie: above 0 when they agree
// better with both walked along their outlines.
func notches(a, b run) float64 {
	sizes := shared(a.s, b.s)
	if len(sizes) == 0 {
		return 0
	}
	x, y := a.notches(sizes[0]), b.notches(sizes[0])
	if len(x) == 0 || len(x) != len(y) {
		return 0
	}
	var same, turned float64
	for i := range x {
		same += math.Abs(x[i] - y[i])
		turned += math.Abs(x[i] - (1 - y[len(y)-1-i]))
	}
	const clear = 0.1 // of the run
	switch {
	case same+clear < turned:
		return 2
	case turned+clear < same:
		return -2
	}
	return 0
}

// notches is where a run's notches lie, as shares of its length on paper.
func (r run) notches(size string) []float64 {
	edges, ok := r.s.edges(size)
	if !ok {
		return nil
	}
	var out []float64
	var total float64
	for _, j := range r.edges {
		for _, n := range r.s.q.Notches {
			if n.Edge != r.s.q.Edges[j].ID {
				continue
			}
			for _, spot := range n.Spots {
				if spot.Size == size || spot.Size == "" {
					out = append(out, total+spot.S)
				}
			}
		}
		l, err := edges[j].Length(measureTol)
		if err != nil {
			return nil
		}
		total += l
	}
	for i := range out {
		out[i] /= total
	}
	return out
}

// atWaist parts a run at its inner point whose name says waist; two runs, or
// the run itself.
func (r run) atWaist() []run {
	for i := 1; i < len(r.edges); i++ {
		if !strings.Contains(r.s.pointName(r.edges[i]), "waist") {
			continue
		}
		first, second := words.T("above the waist"), words.T("below the waist")
		if t := r.tips(); t[0].along > t[1].along {
			first, second = second, first
		}
		return []run{{r.s, r.edges[:i], first}, {r.s, r.edges[i:], second}}
	}
	return []run{r}
}
