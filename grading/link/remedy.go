package link

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Remedy is a way to make a seam fit that was found to work: letting the
// follower give way by Refit moves it By mm.
type Remedy struct {
	Refit model.Refit
	By    float64
}

// Remedies tries every way a seam's follower could give way, those that suit its
// shape first, and returns the ones that make it fit, fewer mm first among
// equals in suiting. lines are the follower's edges as they are; shared those
// that follow another line.
func Remedies(s Seam, q model.Piece, lines []geom.Path, shared []bool) []Remedy {
	var out []Remedy
	for _, r := range suiting(q, lines, s.Print.Link.Follow) {
		s := s
		p := *s.Print
		p.Link.Refit = r
		s.Print = &p
		f := Piece{Piece: q, Edges: lines, Shared: shared}
		if gave := f.Give([]Seam{s}); gave[0].Why == nil && gave[0].By != 0 {
			out = append(out, Remedy{r, gave[0].By})
		}
	}
	return out
}

// suiting is the ways that suit a stretch: an arch rises or comes apart; of a
// band, a cuff or a collar the whole piece is made longer; of any other seam an
// end moves the way the seam runs there.
func suiting(q model.Piece, lines []geom.Path, s model.Stretch) []model.Refit {
	l, err := newStretchLine(q, lines, s)
	if err != nil {
		return nil
	}
	if b, err := l.bulge(); err == nil && b.isCap() {
		return []model.Refit{model.CapHeight, model.CapWidth, model.CapBoth}
	}
	ends := l.endWays()
	if l.isBand() {
		return append([]model.Refit{model.WholePiece}, ends...)
	}
	return append(ends, model.WholePiece)
}

// isCap reports that an arch stands up like a sleeve's cap: its ends side by
// side, a fifth as high as it is wide or more.
func (b bulge) isCap() bool {
	wide := math.Abs(b.span)
	return b.sign > 0 && b.height > 0.2*wide && wide > 0.8*b.start.Dist(b.end) && b.bothEndsTurn()
}

// bothEndsTurn reports that the arch ends on seams, not on a fold or centre line.
func (l stretchLine) bothEndsTurn() bool {
	first, last := l.ends()
	n := len(l.edges)
	for _, j := range []int{(first + n - 1) % n, (last + 1) % n} {
		if k := l.q.Edges[j].Kind; k == model.Fold || k == model.Centre {
			return false
		}
	}
	return true
}

// isBand reports that the piece is much longer along the seam than it is deep.
func (l stretchLine) isBand() bool {
	dir := l.end.Sub(l.start).Unit()
	across := dir.Perp()
	var long, deep [2]float64
	for k, p := range l.corners() {
		v := p.Sub(l.start)
		u, w := v.Dot(dir), v.Dot(across)
		if k == 0 {
			long, deep = [2]float64{u, u}, [2]float64{w, w}
		}
		long = [2]float64{min(long[0], u), max(long[1], u)}
		deep = [2]float64{min(deep[0], w), max(deep[1], w)}
	}
	whole := l.end.Sub(l.start).Len()
	return long[1]-long[0] > 1.5*(deep[1]-deep[0]) && whole > 0.7*(long[1]-long[0])
}

func (l stretchLine) corners() []geom.Point {
	out := make([]geom.Point, len(l.edges))
	for j, e := range l.edges {
		out[j] = e.Start()
	}
	return out
}

// endWays is how each end moves: along the grain or across it, as the seam
// runs there. The far end comes first.
func (l stretchLine) endWays() []model.Refit {
	pick := func(dir geom.Vec, along, across model.Refit) model.Refit {
		if math.Abs(dir.Dot(l.along)) >= math.Abs(dir.Dot(l.across)) {
			return along
		}
		return across
	}
	first, last := l.edges[l.which[0]], l.edges[l.which[len(l.which)-1]]
	atStart, atEnd := first.StartDir(), last.EndDir()
	if l.back {
		atStart, atEnd = first.EndDir(), last.StartDir()
	}
	return []model.Refit{pick(atEnd, model.EndAlong, model.EndAcross), pick(atStart, model.StartAlong, model.StartAcross)}
}
