package check

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// centre looks whether folds and centre lines lie where they were graded to, and
// whether the grain runs as printed.
func (l *looking) centre() Checked {
	out := Checked{Check: "centre"}
	worst, any := 0.0, false
	for i, q := range l.p.Pieces {
		r := l.r.Pieces[i]
		if l.broken[q.ID] {
			continue
		}
		for j, e := range q.Edges {
			if !stays(e) || l.follows(q, j) {
				continue
			}
			by := movedAcross(r, j)
			any, worst = true, math.Max(worst, by)
			if by > l.limit(LimitCentre) {
				out.Findings = append(out.Findings, l.centreMoved(i, j, by))
			}
		}
		for _, k := range r.Lines {
			if k.Kind != model.Grain || len(k.Path) == 0 {
				continue
			}
			any = true
			if turn := grainTurn(q, k.Path); turn > l.limit(LimitGrain) {
				out.Findings = append(out.Findings, l.grainTurned(i, k.Path, turn))
			}
		}
	}
	if any {
		out.Title, out.Say = words.T("Centre and grain"), words.T("where the print has them")
		if show(worst, l.p) != show(0, l.p) {
			out.Say = words.F("within %s of where the print has them", show(worst, l.p))
		}
	}
	return out
}

// movedAcross is by how many mm edge j lies, at the farthest, to the side of
// the line it was graded to.
func movedAcross(r grading.Piece, j int) float64 {
	base, now := r.Base[j], r.Edges[j]
	along := base.End().Sub(base.Start()).Unit()
	var by float64
	for _, v := range now.Controls() {
		by = math.Max(by, math.Abs(along.Cross(v.Sub(base.Start()))))
	}
	for _, v := range base.Controls() { // a centre line that is itself curved
		if math.Abs(along.Cross(v.Sub(base.Start()))) > straightWithin {
			return math.Max(
				math.Abs(along.Cross(now.Start().Sub(base.Start()))),
				math.Abs(along.Cross(now.End().Sub(base.End()))),
			)
		}
	}
	return by
}

// straightWithin is how far, in mm, a line may bow and still count as straight.
const straightWithin = 0.1

func (l *looking) centreMoved(i, j int, by float64) Finding {
	q, r := l.p.Pieces[i], l.r.Pieces[i]
	return Finding{
		Code: "centre-moved", Piece: q.ID, Edge: q.Edges[j].ID, Where: middle(r.Edges[j]), By: by, Look: true,
		What: words.F("%s of %s has moved", opening(edgeName(q, j)), q.Name),
		Much: words.F("%s to the side", show(by, l.p)),
		Say:  words.F("The %s of %s has moved up to %s to the side.", edgeName(q, j), q.Name, show(by, l.p)),
		Help: words.T("A fold or centre line stays where it is: take the correction back, and move the side instead."), Action: takeBack(q, []int{j}, []int{j, (j + 1) % len(q.Points)}),
	}
}

// grainTurn is the angle in degrees between a grain line and the grain that the
// piece was graded by.
func grainTurn(q model.Piece, grain geom.Path) float64 {
	u, v := q.GrainDir(), grain.End().Sub(grain.Start())
	turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) * 180 / math.Pi
	return math.Min(turn, 180-turn)
}

func (l *looking) grainTurned(i int, grain geom.Path, turn float64) Finding {
	q := l.p.Pieces[i]
	return Finding{
		Code: "grain-turned", Piece: q.ID, Where: middle(grain), By: turn, Look: true,
		What: words.F("Grain of %s has turned", q.Name),
		Much: words.F("%s off that of the smallest printed size", degrees(turn)),
		Say:  words.F("The grain of %s has turned %s from that of the smallest printed size.", q.Name, inWords(turn)),
		Help: words.T("The grain is parallel in all sizes: look at the grain lines drawn."),
	}
}
