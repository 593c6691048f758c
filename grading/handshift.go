package grading

import (
	"errors"
	"fmt"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// parallelTol is how far, in mm, a shifted edge may be from true parallel.
const parallelTol = 0.01

// layShifts moves whole edges parallel; one with a locked end stays. Where that cannot be, no edge of the
// piece is shifted, and it is said why.
func layShifts(q model.Piece, edges []geom.Path, share func(string) float64) laid {
	out := make([]float64, len(edges))
	any := false
	for _, s := range q.Hand.Shifts {
		if j := q.EdgeIndex(s.Edge); j >= 0 && !q.Points[j].Locked && !q.Points[(j+1)%len(out)].Locked {
			out[j] += s.Out * share(s.Stage)
			any = any || out[j] != 0
		}
	}
	if !any {
		return laid{edges: edges}
	}
	held := make([]bool, len(edges))
	for j, e := range q.Edges {
		held[j] = heldLine(e)
	}
	moved, err := geom.ShiftEdges(edges, out, held, parallelTol)
	if err != nil {
		return laid{edges: edges, unlaid: unlaidWhy(q, err)}
	}
	return laid{edges: moved, handles: handlesBeside(edges, moved)}
}

// unlaidWhy says why edges of q cannot be shifted.
func unlaidWhy(q model.Piece, err error) string {
	var at *geom.EdgeError
	if errors.As(err, &at) {
		name := q.Edges[at.Edge].Name
		if name == "" {
			name = words.F("edge %d", at.Edge+1)
		}
		return words.F("%s of %s: with edges moved that far, the line crosses itself or comes apart there", name, q.Name)
	}
	return fmt.Sprintf("%s: %v", q.Name, err)
}

// handlesBeside is where the handles of shifted edges are shown: those of the
// edge as it was, gone straight out with it. An edge that kept as many control
// points needs none.
func handlesBeside(before, after []geom.Path) [][]geom.Point {
	out := make([][]geom.Point, len(before))
	for j, p := range before {
		if len(p) == len(after[j]) {
			continue
		}
		ctl := p.Controls()
		last := len(ctl) - 1
		for k := range ctl {
			i := min(k/3, len(p)-1)
			at := p[i].At(float64(k-3*i) / 3)
			n, t, _ := after[j].Nearest(at, parallelTol)
			ctl[k] = ctl[k].Add(after[j][n].At(t).Sub(at))
		}
		ctl[0], ctl[last] = after[j].Start(), after[j].End()
		out[j] = ctl
	}
	return out
}
