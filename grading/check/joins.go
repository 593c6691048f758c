package check

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// runsOn is by how many degrees two edges may bend over a seam in print and still
// be one line; by our own trial. Where a side seam ends half way down a piece the
// two sum to a full turn.
const runsOn = 45

// seamEnd is one end of a sewn link: the grade points where leader and follower
// meet there, and the edges beside the seam that run on from each other.
type seamEnd struct {
	lead, follow             int // pieces
	leadPoint, followPoint   int
	leadBeside, followBeside int // edges
}

// seamEnds is the two ends of a sewn link, as walked; false where an end has no
// edge beside the seam.
func seamEnds(p model.Pattern, k model.Link) (ends [2]seamEnd, ok bool) {
	all := k.Leads()
	for i, first := range []bool{true, false} {
		lead := all[len(all)-1]
		if first {
			lead = all[0]
		}
		e := &ends[i]
		var okA, okB bool
		e.lead, e.follow = p.PieceIndex(lead.Piece), p.PieceIndex(k.Follow.Piece)
		e.leadPoint, e.leadBeside, okA = stretchEnd(p.Pieces[e.lead], lead, first)
		e.followPoint, e.followBeside, okB = stretchEnd(p.Pieces[e.follow], k.Follow, first)
		if !okA || !okB {
			return ends, false
		}
	}
	return ends, true
}

// stretchEnd is the grade point at which a stretch starts or ends as walked, and
// the edge beside it there that is not of the stretch.
func stretchEnd(q model.Piece, s model.Stretch, first bool) (point, beside int, ok bool) {
	n := len(q.Edges)
	at := s.Edges[len(s.Edges)-1]
	if first {
		at = s.Edges[0]
	}
	j := q.EdgeIndex(at)
	if first != s.Reverse { // the end lies where edge j starts on the outline
		point, beside = j, (j+n-1)%n
	} else {
		point, beside = (j+1)%n, (j+1)%n
	}
	return point, beside, !slices.Contains(s.Edges, q.Edges[beside].ID)
}

// joins looks whether the edges beside every seam run on over it as they do in
// print: neckline and armhole over the shoulder, hem over the side.
func (l *looking) joins() Checked {
	out := Checked{Check: "join"}
	worst, flat, bent := 0.0, 0, 0
	for _, k := range l.p.Links {
		if k.Kind != model.Sewn || !whole(l.p, k) || l.brokenLink(k) {
			continue
		}
		ends, ok := seamEnds(l.p, k)
		if !ok {
			continue
		}
		for _, e := range ends {
			j, ok := l.join(e)
			switch {
			case !ok:
			case j.printed <= l.limit(LimitJoin):
				flat, worst = flat+1, math.Max(worst, j.bend)
			default:
				bent++
			}
			if ok && j.bend-j.expected > l.limit(LimitJoin) {
				out.Findings = append(out.Findings, l.bends(k, e, j))
			}
		}
	}
	out.Title = words.T("Joins over seams")
	switch {
	case flat+bent == 0:
		out.Title = ""
	case flat == 0:
		out.Say = words.F("%d bend as graded", bent)
	case bent == 0:
		out.Say = words.F("flat within %s", degrees(worst))
	default:
		out.Say = words.F("%d flat within %s, %d bend as graded", flat, degrees(worst), bent)
	}
	return out
}

// join is one end of a seam: by how many degrees the edges bend over it now and
// in the nearest printed size, and by how many they may be expected to.
type join struct {
	bend, printed, expected float64
	onLead                  bool // the leader's corner turned more of the two
}

// join measures one end of a seam; false where the print does not have the edges
// run on over it. Edges that run on flat in print are expected to go on so; those
// that bend there, to bend as graded, before any correction.
func (l *looking) join(e seamEnd) (join, bool) {
	size, ok := l.nearest(e.lead, e.follow)
	if !ok {
		return join{}, false
	}
	was, okPrint := l.bendOver(e, size)
	now, okNow := l.bendOver(e, newLine)
	if !okPrint || !okNow || math.Abs(was.bend()) > runsOn {
		return join{}, false
	}
	base, okBase := l.bendOver(e, baseLine)
	if !okBase {
		base = now
	}
	j := join{bend: math.Abs(now.bend()), printed: math.Abs(was.bend())}
	j.onLead = math.Abs(now.lead-base.lead) > math.Abs(now.follow-base.follow)
	j.expected = j.printed
	if j.printed > l.limit(LimitJoin) {
		j.expected = math.Max(j.printed, math.Abs(base.bend()))
	}
	return j, true
}

func (l *looking) bends(k model.Link, e seamEnd, j join) Finding {
	at, edge, point := e.follow, e.followBeside, e.followPoint
	if j.onLead {
		at, edge, point = e.lead, e.leadBeside, e.leadPoint
	}
	q := l.p.Pieces[at]
	seam := stretchTitle(l.p, k)
	return Finding{
		Code: "join", Piece: q.ID, Edge: q.Edges[edge].ID, Point: q.Points[point].ID, Link: k.ID, Look: true, By: j.bend,
		Where: l.r.Pieces[at].Edges[point].Start(),
		What:  words.F("%s bends over the %s", opening(edgeName(q, edge)), seam),
		Much:  words.F("%s, %s in print", degrees(j.bend), degrees(j.printed)),
		Say: words.F("The %s of %s bends by %s over the %s; the printed one by %s.",
			edgeName(q, edge), q.Name, inWords(j.bend), seam, inWords(j.printed)),
		Help: words.T("Drag the curve handle beside the corner until both sides run on."), Action: takeBack(q, []int{edge}, []int{point}),
	}
}

// overSeam is the two angles that meet at one end of a seam, in degrees.
type overSeam struct{ lead, follow float64 }

// bend is by how much the two sum to more than a line that runs on.
func (o overSeam) bend() float64 { return o.lead + o.follow - 180 }

// bendOver is the angles at one end of a seam on the stitching lines of a
// printed size, newLine or baseLine.
func (l *looking) bendOver(e seamEnd, size string) (overSeam, bool) {
	a, errA := l.lines.line(e.lead, size)
	b, errB := l.lines.line(e.follow, size)
	if errA != nil || errB != nil {
		return overSeam{}, false
	}
	return overSeam{angleAt(a, e.leadPoint), angleAt(b, e.followPoint)}, true
}

// whole reports that every piece and edge a link names is there.
func whole(p model.Pattern, k model.Link) bool {
	for _, s := range append(k.Leads(), k.Follow) {
		i := p.PieceIndex(s.Piece)
		if i < 0 || !has(p.Pieces[i], s) {
			return false
		}
	}
	return true
}

// degrees is an angle for a row: "4.2°".
func degrees(d float64) string { return words.Figure(d, 1) + "°" }

// inWords is an angle for a sentence: "4.2 degrees".
func inWords(d float64) string { return words.F("%s degrees", words.Figure(d, 1)) }
