package link

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// stillTol is how far, in mm, what must not move may move by rounding.
const stillTol = 1e-6

// Way is how a piece gives way for one of its seams: Apply moves it by k mm and
// leaves the edges it was given alone; at 0 they are the same.
type Way struct {
	Apply func(k float64) []geom.Path
	// Marks moves what is drawn inside the piece along; nil where that stays.
	Marks func(k float64) geom.Affine
	Most  float64 // how far it may go either way, mm
}

// stretchLine is a stretch of a piece's edges as the ways see it.
type stretchLine struct {
	q             model.Piece
	edges         []geom.Path
	which         []int // edges, as walked
	back          bool
	start, end    geom.Point
	across, along geom.Vec
}

func newStretchLine(q model.Piece, edges []geom.Path, s model.Stretch) (stretchLine, error) {
	which, err := edgesOf(q, s)
	if err != nil {
		return stretchLine{}, err
	}
	g := q.GrainDir()
	out := stretchLine{q: q, edges: edges, which: which, back: s.Reverse, along: g, across: g.Perp().Scale(-1)}
	out.start, out.end = edges[which[0]].Start(), edges[which[len(which)-1]].End()
	if s.Reverse {
		out.start, out.end = edges[which[0]].End(), edges[which[len(which)-1]].Start()
	}
	return out, nil
}

// WayOf is how piece q, with these edges, gives way by r for a stretch. Nothing
// of it that has to stay may move: folds and centre lines across themselves,
// and the edges that follow another piece's line (shared).
func WayOf(r model.Refit, q model.Piece, edges []geom.Path, s model.Stretch, shared []bool) (Way, error) {
	l, err := newStretchLine(q, edges, s)
	if err != nil {
		return Way{}, err
	}
	var w Way
	switch r {
	case model.CapHeight, model.CapWidth, model.CapBoth:
		w, err = l.cap(r)
	case model.StartAcross, model.StartAlong, model.EndAcross, model.EndAlong:
		w, err = l.oneEnd(r)
	case model.WholePiece:
		w, err = l.whole()
	default:
		err = words.Error("gives way by nothing")
	}
	if err != nil {
		return Way{}, err
	}
	return w, l.allowed(w, shared)
}

// allowed is an error where a way would move what has to stay.
func (l stretchLine) allowed(w Way, shared []bool) error {
	moved := w.Apply(1)
	for j, e := range l.q.Edges {
		a, b := l.edges[j], moved[j]
		if e.Kind == model.Fold || e.Kind == model.Centre {
			dir := a.End().Sub(a.Start()).Unit()
			if math.Abs(dir.Cross(b.Start().Sub(a.Start()))) > stillTol || math.Abs(dir.Cross(b.End().Sub(a.Start()))) > stillTol {
				return words.Errorf("would move the %s of %s", edgeName(l.q, j), l.q.Name)
			}
		}
		if shared != nil && shared[j] && !sameControls(a, b) {
			return words.Errorf("would move the %s of %s, which follows another line", edgeName(l.q, j), l.q.Name)
		}
	}
	return nil
}

func sameControls(a, b geom.Path) bool {
	for i := range a {
		if a[i].P0.Dist(b[i].P0) > stillTol || a[i].P1.Dist(b[i].P1) > stillTol || a[i].P2.Dist(b[i].P2) > stillTol || a[i].P3.Dist(b[i].P3) > stillTol {
			return false
		}
	}
	return true
}

func edgeName(q model.Piece, j int) string {
	if q.Edges[j].Name != "" {
		return q.Edges[j].Name
	}
	return words.F("edge %d", j+1)
}

// goesOn reports that the stretch's edges follow each other without a gap.
func (l stretchLine) goesOn() bool {
	n := len(l.edges)
	for i := 1; i < len(l.which); i++ {
		a, b := l.which[i-1], l.which[i]
		if l.back {
			a, b = b, a
		}
		if (a+1)%n != b {
			return false
		}
	}
	return true
}

// beforeAfter is the edges beside the walked stretch's two ends, in outline
// order, and the stretch's own at those ends.
func (l stretchLine) ends() (first, last int) {
	first, last = l.which[0], l.which[len(l.which)-1]
	if l.back {
		first, last = last, first
	}
	return first, last
}

// bulge is the stretch as an arch over the straight line between its ends: how
// high it stands against the grain, and where.
type bulge struct {
	stretchLine
	span   float64 // across, from start to end, signed
	height float64 // of its highest place, above 0
	sign   float64 // -1 where it hangs down
	top    geom.Point
}

func (l stretchLine) bulge() (bulge, error) {
	b := bulge{stretchLine: l, span: l.end.Sub(l.start).Dot(l.across), sign: 1}
	if !l.goesOn() {
		return b, words.Errorf("is not one line on %s", l.q.Name)
	}
	if math.Abs(b.span) < 10 {
		return b, words.Errorf("has its two ends one above the other on %s", l.q.Name)
	}
	const places = 8
	for _, j := range l.which {
		for _, c := range l.edges[j] {
			for k := range places + 1 {
				p := c.At(float64(k) / places)
				if h := b.over(p); math.Abs(h) > b.height {
					b.height, b.sign, b.top = math.Abs(h), math.Copysign(1, h), p
				}
			}
		}
	}
	if b.height < 5 {
		return b, words.Errorf("is too flat on %s to be made higher or lower", l.q.Name)
	}
	return b, nil
}

// over is how high p stands over the straight line between the ends.
func (b bulge) over(p geom.Point) float64 {
	v, w := p.Sub(b.start), b.end.Sub(b.start)
	return v.Dot(b.across)/b.span*w.Dot(b.along) - v.Dot(b.along)
}

// cap is the ways an arch gives way: k mm higher, wider, or both; both is k mm
// higher and as much wider as the printed sizes grow wider with it.
func (l stretchLine) cap(r model.Refit) (Way, error) {
	b, err := l.bulge()
	if err != nil {
		return Way{}, err
	}
	higher, wider := 1.0, 0.0
	switch r {
	case model.CapWidth:
		higher, wider = 0, 1
	case model.CapBoth:
		wider = b.printedProportion()
	}
	most := 0.5 * b.height
	if r == model.CapWidth {
		most = 0.3 * math.Abs(b.span)
	}
	return Way{Most: most, Apply: func(k float64) []geom.Path { return b.stretchBy(k*higher, k*wider) }}, nil
}

// printedProportion is by how much the printed arches grow wider for each mm
// they grow higher; the arch's own proportion where they do not grow.
func (b bulge) printedProportion() float64 {
	own := math.Abs(b.span) / b.height
	nest := b.q.Nest
	if len(nest) < 2 {
		return own
	}
	var w, h [2]float64
	for i, o := range []model.Outline{nest[0], nest[len(nest)-1]} {
		l, err := newStretchLine(b.q, o.Edges, model.Stretch{Edges: b.ids(), Reverse: b.back})
		if err != nil {
			return own
		}
		p, err := l.bulge()
		if err != nil {
			return own
		}
		w[i], h[i] = math.Abs(p.span), p.height
	}
	if dh, dw := h[1]-h[0], w[1]-w[0]; dh > 1 && dw > 1 {
		return dw / dh
	}
	return own
}

func (b bulge) ids() []string {
	out := make([]string, len(b.which))
	for i, j := range b.which {
		out[i] = b.q.Edges[j].ID
	}
	return out
}

// stretchBy makes the arch higher and wider by so many mm. Every place of it
// goes in proportion to its height and its distance from the top, so that its
// curve keeps its character; the edges beside it go along with its ends.
func (b bulge) stretchBy(higher, wider float64) []geom.Path {
	move := func(p geom.Point) geom.Vec {
		up := b.along.Scale(-higher * b.over(p) / b.height)
		out := b.across.Scale(wider * p.Sub(b.top).Dot(b.across) / math.Abs(b.span))
		return up.Add(out)
	}
	out := append([]geom.Path(nil), b.edges...)
	for _, j := range b.which {
		out[j] = movePath(b.edges[j], move)
	}
	first, last := b.ends()
	b.join(out, first, last)
	return out
}

// join lets the edges beside a stretch, whose outline-first and -last edges are
// drawn anew in out, go along with its ends.
func (l stretchLine) join(out []geom.Path, first, last int) {
	n := len(l.edges)
	before, after := (first+n-1)%n, (last+1)%n
	atStart, atEnd := out[first].Start().Sub(l.edges[first].Start()), out[last].End().Sub(l.edges[last].End())
	if atStart.Len() <= 1e-9 {
		out[first] = startAt(out[first], l.edges[first].Start())
		atStart = geom.Vec{}
	}
	if atEnd.Len() <= 1e-9 {
		out[last] = endAt(out[last], l.edges[last].End())
		atEnd = geom.Vec{}
	}
	if before == after {
		out[before] = l.edges[before].CarryEnds(atEnd, atStart, straightTol)
		return
	}
	out[before] = l.edges[before].CarryEnds(geom.Vec{}, atStart, straightTol)
	out[after] = l.edges[after].CarryEnds(atEnd, geom.Vec{}, straightTol)
}

func movePath(p geom.Path, move func(geom.Point) geom.Vec) geom.Path {
	ctl := p.Controls()
	for k, c := range ctl {
		ctl[k] = c.Add(move(c))
	}
	return geom.FromControls(ctl)
}

// oneEnd moves one end of the stretch k mm along the grain, or to the right
// across it, and the stretch's edge there with it.
func (l stretchLine) oneEnd(r model.Refit) (Way, error) {
	dir := l.along
	if r == model.StartAcross || r == model.EndAcross {
		dir = l.across
	}
	atEnd := r == model.EndAcross || r == model.EndAlong
	j := l.which[0]
	if atEnd {
		j = l.which[len(l.which)-1]
	}
	n := len(l.edges)
	return Way{
		Most: 0.3 * l.edges[j].Start().Dist(l.edges[j].End()),
		Apply: func(k float64) []geom.Path {
			out := append([]geom.Path(nil), l.edges...)
			v := dir.Scale(k)
			if atEnd != l.back { // the outline's later end of the edge
				out[j] = l.edges[j].CarryEnds(geom.Vec{}, v, straightTol)
				out[(j+1)%n] = l.edges[(j+1)%n].CarryEnds(v, geom.Vec{}, straightTol)
			} else {
				out[j] = l.edges[j].CarryEnds(v, geom.Vec{}, straightTol)
				out[(j+n-1)%n] = l.edges[(j+n-1)%n].CarryEnds(geom.Vec{}, v, straightTol)
			}
			return out
		},
	}, nil
}

// whole makes the piece k mm longer along the seam, evenly: from its fold or
// centre line where the seam ends on one, else from its middle.
func (l stretchLine) whole() (Way, error) {
	dir, from := l.end.Sub(l.start), l.start.Lerp(l.end, 0.5)
	first, last := l.ends()
	n := len(l.edges)
	for _, j := range []int{(first + n - 1) % n, (last + 1) % n} {
		if k := l.q.Edges[j].Kind; k == model.Fold || k == model.Centre {
			fold := l.edges[j].End().Sub(l.edges[j].Start()).Unit()
			if fold.IsZero() {
				continue
			}
			from = l.edges[j].Start()
			dir = dir.Sub(fold.Scale(dir.Dot(fold)))
		}
	}
	long := dir.Len()
	if long < 10 {
		return Way{}, words.Errorf("has its two ends at one place on %s", l.q.Name)
	}
	dir = dir.Unit()
	marks := func(k float64) geom.Affine {
		s := k / long
		return geom.Affine{
			A: 1 + s*dir.X*dir.X, B: s * dir.X * dir.Y, C: s * dir.X * dir.Y, D: 1 + s*dir.Y*dir.Y,
			E: -s * dir.X * geom.Vec(from).Dot(dir), F: -s * dir.Y * geom.Vec(from).Dot(dir),
		}
	}
	return Way{Most: 0.3 * long, Marks: marks, Apply: func(k float64) []geom.Path {
		out := make([]geom.Path, n)
		for j, e := range l.edges {
			out[j] = e.Transform(marks(k))
		}
		return out
	}}, nil
}
