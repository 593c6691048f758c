package scene

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// bendRoom is how far apart, in px, the ends of an edge must be to have the
// handles that shape it: closer, they would lie on one another.
const bendRoom = 72

// Handles lists the handles of the piece selected: its grade points, the ends
// of its cut lines, and for the edge in hand the handles that shape it, where
// there is room for them.
func Handles(in Input) []Handle {
	i := in.Pattern.PieceIndex(in.Select.Piece)
	if i < 0 || len(in.Sheets) > 0 {
		return nil
	}
	if in.lengthens() {
		return lengthHandles(in)
	}
	q := in.Pattern.Pieces[i]
	edges := in.Edges(i)
	if len(edges) != len(q.Points) {
		return nil
	}
	linked, ends := linkedPoints(in, q), in.handEnds(q)
	out := cutEnds(in, q)
	if k := q.EdgeIndex(in.Select.Edge); k >= 0 && shapeable(q.Edges[k]) && reach(edges[k]) >= in.px(bendRoom) {
		out = append(out, bends(in, q, k, in.bendPlaces(i, k, edges[k]))...)
	}
	for k, g := range q.Points {
		h := Handle{Ref: Ref{Piece: q.ID, Point: g.ID}, At: edges[k].Start(), Shape: Corner}
		if g.Smooth {
			h.Shape = Curve
		}
		switch {
		case g.Locked:
			h.State = Locked
		case g.ID == in.Select.Point:
			h.State = Selected
		case linked[g.ID]:
			h.State = Linked
		case ends[g.ID]:
			h.State = Selected
		}
		out = append(out, h)
	}
	return append(runEnds(in), out...)
}

// handEnds are the ends of the edge in hand, which go along with it, as long as it is
// in hand as a whole.
func (in Input) handEnds(q model.Piece) map[string]bool {
	k := q.EdgeIndex(in.Select.Edge)
	if k < 0 || in.Select.Point != "" || in.Select.Control > 0 || in.Select.Cut != "" {
		return nil
	}
	return map[string]bool{q.Points[k].ID: true, q.Points[(k+1)%len(q.Points)].ID: true}
}

// Bendable reports whether the edge a ref names may be bent and moved by hand.
func Bendable(p model.Pattern, r Ref) bool {
	i := p.PieceIndex(r.Piece)
	if i < 0 {
		return false
	}
	k := p.Pieces[i].EdgeIndex(r.Edge)
	return k >= 0 && shapeable(p.Pieces[i].Edges[k])
}

// shapeable reports whether an edge may be bent by hand: a fold may not.
func shapeable(e model.Edge) bool { return e.Kind != model.Fold && e.Kind != model.Centre }

// bendPlaces is where the control points that shape edge k of piece i are shown,
// on the Table: those of its line, unless the line was moved parallel since.
func (in Input) bendPlaces(i, k int, line geom.Path) []geom.Point {
	r, _ := in.graded(i)
	if k >= len(r.Handles) || r.Handles[k] == nil {
		return line.Controls()
	}
	q := in.Pattern.Pieces[i]
	m := in.PlaceOf(Ref{Piece: q.ID, Edge: q.Edges[k].ID})
	out := make([]geom.Point, len(r.Handles[k]))
	for c, at := range r.Handles[k] {
		out[c] = m.Apply(at)
	}
	return out
}

// bends are the handles that shape edge k of q: a round one for each inner
// joint of its curves, and the bend handles hanging from the joints.
func bends(in Input, q model.Piece, k int, ctl []geom.Point) []Handle {
	var out []Handle
	for c := 1; c < len(ctl)-1; c++ {
		h := Handle{Ref: Ref{Piece: q.ID, Edge: q.Edges[k].ID, Control: c}, At: ctl[c], Shape: Curve}
		if c%3 != 0 {
			stem := c - 1
			if c%3 == 2 {
				stem = c + 1
			}
			h.Shape, h.Stem, h.Stemmed = Bend, ctl[stem], true
		}
		if in.Select.Control == c {
			h.State = Selected
		}
		out = append(out, h)
	}
	return out
}

// linkedPoints are the ends of q's edges that share their line with another
// piece, or stand out.
func linkedPoints(in Input, q model.Piece) map[string]bool {
	out := map[string]bool{}
	same, runs := sameLineEdges(in.Pattern, q.ID), in.runEdges(q.ID)
	for k, e := range q.Edges {
		if same[e.ID] || runs[e.ID] {
			out[q.Points[k].ID] = true
			out[q.Points[(k+1)%len(q.Points)].ID] = true
		}
	}
	return out
}

func (l *Layer) handles(in Input, i int) {
	hs := Handles(in)
	for _, h := range hs {
		if h.Stemmed {
			l.Lines = append(l.Lines, Line{
				Path: geom.Polyline(h.Stem, h.At), Width: 1, Ink: InkAccent, Alpha: 0.6,
			})
		}
	}
	l.Handles = append(l.Handles, hs...)
}

// pointNames names the grade point in hand, the ends of the edge in hand, and
// what is locked.
func (l *Layer) pointNames(in Input, i int) {
	q := in.Pattern.Pieces[i]
	edges := in.Edges(i)
	if len(edges) != len(q.Points) {
		return
	}
	own := geom.Join(edges...).Bounds()
	middle := own.Centre()
	hand := q.EdgeIndex(in.Select.Edge)
	for k, g := range q.Points {
		atEnd := hand >= 0 && (k == hand || k == (hand+1)%len(q.Points))
		if g.Name == "" || !g.Locked && g.ID != in.Select.Point && !atEnd {
			continue
		}
		t := Text{Words: sentence(g.Name), At: edges[k].Start(), DX: 16, DY: -12, Size: 13, Anchor: Left, Ink: InkAccentWords, Halo: InkTable}
		if t.At.X < middle.X {
			t.DX, t.Anchor = -16, Right
		}
		if in.covered(q.ID, in.wordsBox(t)) > 0 { // there it would name a place of another piece
			t.DX = -t.DX
			t.Anchor = map[Anchor]Anchor{Left: Right, Right: Left}[t.Anchor]
			if box := in.wordsBox(t); box.Min.X < own.Min.X || box.Max.X > own.Max.X {
				continue // nor has it room within its own
			}
		}
		if g.Locked {
			t.Words, t.Ink = words.F("%s, locked", sentence(g.Name)), InkSoft
		}
		l.Texts = append(l.Texts, t)
	}
}

// threads join the stretches that share their line with the piece in hand, or
// are sewn to its edge in hand.
func (l *Layer) threads(in Input, i int) {
	q := in.Pattern.Pieces[i]
	for _, k := range in.Pattern.Links {
		if k.Lead.Piece != q.ID && k.Follow.Piece != q.ID {
			continue
		}
		if len(in.Runs) > 0 {
			if !in.runsAlong(k) {
				continue
			}
		} else if k.Kind == model.Sewn && !Holds(k.Lead, in.Select) && !Holds(k.Follow, in.Select) {
			continue
		}
		a, okA := in.middleOf(k.Lead)
		b, okB := in.middleOf(k.Follow)
		if !okA || !okB {
			continue
		}
		l.Lines = append(l.Lines, Line{
			Path: thread(a, b), Width: 1.5, Dash: []float64{5, 4}, Ink: InkSoft, Alpha: 1,
		})
		l.Dots = append(l.Dots, Dot{At: a, Radius: 3.5, Ink: InkSoft}, Dot{At: b, Radius: 3.5, Ink: InkSoft})
	}
}

// sharedThreads are where the threads between lines that are shared hang, whichever
// piece is in hand: a label that avoids them need not move when another is.
func (in Input) sharedThreads() [][]geom.Point {
	var out [][]geom.Point
	for _, k := range in.Pattern.Links {
		if k.Kind != model.SameLine {
			continue
		}
		a, okA := in.middleOf(k.Lead)
		b, okB := in.middleOf(k.Follow)
		if okA && okB {
			out = append(out, thread(a, b).Flatten(2))
		}
	}
	return out
}

// thread hangs from a to b over the top, as a loose thread would lie.
func thread(a, b geom.Point) geom.Path {
	lift := geom.Vec{Y: -a.Dist(b) / 4}
	return geom.Path{{P0: a, P1: a.Lerp(b, 0.3).Add(lift), P2: a.Lerp(b, 0.7).Add(lift), P3: b}}
}

// Holds reports whether a stretch is along the edge that a ref names.
func Holds(s model.Stretch, r Ref) bool {
	if s.Piece != r.Piece {
		return false
	}
	for _, e := range s.Edges {
		if e == r.Edge {
			return true
		}
	}
	return false
}

// middleOf is the middle of a stretch on the Table.
func (in Input) middleOf(s model.Stretch) (geom.Point, bool) {
	i := in.Pattern.PieceIndex(s.Piece)
	if i < 0 {
		return geom.Point{}, false
	}
	q := in.Pattern.Pieces[i]
	edges := in.Edges(i)
	var run geom.Path
	for _, id := range s.Edges {
		k := q.EdgeIndex(id)
		if k < 0 || k >= len(edges) {
			return geom.Point{}, false
		}
		run = append(run, edges[k]...)
	}
	if len(run) == 0 {
		return geom.Point{}, false
	}
	at, _ := along(run, 0.5)
	return at, true
}
