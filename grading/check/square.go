package check

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// cornerFrom is how far off square, in degrees, a printed corner may be and still
// be meant square; by our own trial: points of waistcoats and necklines in a V
// lie well beyond.
const cornerFrom = 20

// square looks whether the corners at folds and centre lines are as square as
// in print: neckline, waist and hem, unfolded, would else run to a point there.
func (l *looking) square() Checked {
	out := Checked{Check: "square"}
	worst, any := 0.0, false
	for i, q := range l.p.Pieces {
		was, ok := l.nearestPrint(i)
		if !ok || l.broken[q.ID] {
			continue
		}
		n := len(q.Edges)
		for j, e := range q.Edges {
			if !stays(e) {
				continue
			}
			for _, at := range [2][2]int{{j, (j + n - 1) % n}, {(j + 1) % n, (j + 1) % n}} {
				point, beside := at[0], at[1]
				printed := math.Abs(angleAt(was, point) - 90)
				if stays(q.Edges[beside]) || l.follows(q, beside) || printed > cornerFrom {
					continue
				}
				off := math.Abs(angleAt(l.r.Pieces[i].Edges, point) - 90)
				any, worst = true, math.Max(worst, off)
				if off-printed > l.limit(LimitSquare) {
					out.Findings = append(out.Findings, l.offSquare(i, j, beside, point, off, printed))
				}
			}
		}
	}
	if any {
		out.Title, out.Say = words.T("Square corners"), words.T("square to folds and centre lines")
		if worst >= 0.05 {
			out.Say = words.F("square to folds and centre lines within %s", degrees(worst))
		}
	}
	return out
}

// stays reports that an edge is a fold or centre line, which never moves across
// itself.
func stays(e model.Edge) bool { return e.Kind == model.Fold || e.Kind == model.Centre }

func (l *looking) offSquare(i, centre, beside, point int, off, printed float64) Finding {
	q := l.p.Pieces[i]
	return Finding{
		Code: "off-square", Piece: q.ID, Edge: q.Edges[beside].ID, Point: q.Points[point].ID, Look: true, By: off,
		Where: l.r.Pieces[i].Edges[point].Start(),
		What:  words.F("%s of %s is off square", opening(edgeName(q, beside)), q.Name),
		Much:  words.F("%s at the %s, %s in print", degrees(off), edgeName(q, centre), degrees(printed)),
		Say: words.F("The %s of %s is %s off square at the %s; the printed one %s.",
			edgeName(q, beside), q.Name, inWords(off), edgeName(q, centre), inWords(printed)),
		Help: words.T("Drag the curve handle beside the corner until the line leaves it square."), Action: takeBack(q, []int{beside}, []int{point}),
	}
}
