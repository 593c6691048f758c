package check

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// hems looks whether every hem hangs as level as it was graded to.
func (l *looking) hems() Checked {
	out := Checked{Check: "hem"}
	worst, any := 0.0, false
	for i, q := range l.p.Pieces {
		if l.broken[q.ID] || len(l.partHem(q, l.r.Pieces[i])) > 0 {
			continue // said of its outline, or of its length
		}
		for _, h := range hemsOf(q) {
			by := drop(q, l.r.Pieces[i].Edges, h) - drop(q, l.r.Pieces[i].Base, h)
			any, worst = true, math.Max(worst, math.Abs(by))
			if math.Abs(by) > l.limit(LimitHem) {
				out.Findings = append(out.Findings, l.uneven(i, h, by))
			}
		}
	}
	if any {
		out.Title, out.Say = words.T("Hems"), words.T("even all along")
		if show(worst, l.p) != show(0, l.p) {
			out.Say = words.F("even within %s", show(worst, l.p))
		}
	}
	return out
}

// hem is a run of hem edges: its first edge and its last.
type hem struct{ first, last int }

// hemsOf is every run of hem edges of a piece: by their kind, or their name where
// the pattern says no kinds.
func hemsOf(q model.Piece) []hem {
	is := func(j int) bool { return q.Edges[j].Kind == model.Hem || glossary.English(q.Edges[j].Name) == "hem" }
	n := len(q.Edges)
	var out []hem
	for j := range q.Edges {
		if !is(j) || is((j+n-1)%n) {
			continue
		}
		last := j
		for is((last+1)%n) && (last+1)%n != j {
			last = (last + 1) % n
		}
		out = append(out, hem{j, last})
	}
	return out
}

// drop is by how many mm the end of a hem lies lower along the grain than its
// start.
func drop(q model.Piece, edges []geom.Path, h hem) float64 {
	return edges[h.last].End().Sub(edges[h.first].Start()).Dot(q.GrainDir())
}

func (l *looking) uneven(i int, h hem, by float64) Finding {
	q, r := l.p.Pieces[i], l.r.Pieces[i]
	n := len(q.Points)
	low, point := r.Edges[h.last].End(), (h.last+1)%n
	if by < 0 {
		low, point = r.Edges[h.first].Start(), h.first
	}
	if movedMore(r, h) {
		point, low = h.first, r.Edges[h.first].Start()
	}
	return Finding{
		Code: "uneven-hem", Piece: q.ID, Edge: q.Edges[h.first].ID, Point: q.Points[point].ID, Where: low, By: math.Abs(by), Look: true,
		What: words.F("%s of %s is uneven", opening(edgeName(q, h.first)), q.Name),
		Much: words.F("one end %s lower than graded", show(math.Abs(by), l.p)),
		Say:  words.F("The %s of %s hangs %s lower at one end, against the other, than it was graded to.", edgeName(q, h.first), q.Name, show(math.Abs(by), l.p)),
		Help: words.T("Move the other end as far, or take the correction back."), Action: takeBack(q, nil, []int{h.first, (h.last + 1) % n}),
	}
}

// movedMore reports that the start of a hem lies farther from where it was
// graded to than its end does.
func movedMore(r grading.Piece, h hem) bool {
	return r.Edges[h.first].Start().Dist(r.Base[h.first].Start()) > r.Edges[h.last].End().Dist(r.Base[h.last].End())
}
