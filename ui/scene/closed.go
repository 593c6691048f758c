package scene

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// smoothKink is by how many degrees a seam may turn at a closed dart and be
// called smooth: less than a line's own width shows. By our own judgement.
const smoothKink = 0.5

// PlaceOf takes the coordinates of a ref's piece to the Table's where its edge
// or grade point lies: with a dart closed, one part of the piece is turned.
func (in Input) PlaceOf(at Ref) geom.Affine {
	m := in.Place(at.Piece)
	c, ok := in.Closed[at.Piece]
	i := in.Pattern.PieceIndex(at.Piece)
	if !ok || i < 0 {
		return m
	}
	q := in.Pattern.Pieces[i]
	k := q.PointIndex(at.Point)
	if j := q.EdgeIndex(at.Edge); k < 0 || at.Control > 0 {
		k = j
	}
	if k < 0 || k >= len(c.Moves) {
		return m
	}
	return m.Mul(c.Moves[k])
}

// line is the line of piece i in its own coordinates, as it is shown.
func (in Input) line(i int) []geom.Path {
	q := in.Pattern.Pieces[i]
	if c, ok := in.Closed[q.ID]; ok && len(c.Edges) == len(q.Edges) {
		return c.Edges
	}
	if r, ok := in.graded(i); ok {
		return r.Edges
	}
	return largest(q)
}

// sameClosed reports whether a piece is shown open in both, or closed at the
// same dart.
func (in Input) sameClosed(other Input, piece string) bool {
	a, was := in.Closed[piece]
	b, is := other.Closed[piece]
	return was == is && a.Dart.From == b.Dart.From
}

// folded reports whether edge k of a piece lies folded under it.
func (in Input) folded(piece string, k int) bool {
	c, ok := in.Closed[piece]
	n := len(c.Edges)
	return ok && (k-c.Dart.From+n)%n < (c.Dart.To-c.Dart.From+n)%n
}

// closedPiece draws piece q with a dart folded shut: the paper laid open from the
// apex to the corner it opens at, the seam across the dart in one run, and where
// it turns.
func (l *Layer) closedPiece(in Input, q model.Piece, r grading.Piece, c dart.Closed, edges []geom.Path) {
	m := in.place(q)
	l.Fills = append(l.Fills, Fill{Outline: opened(c, edges, m), Ink: InkAccent, Alpha: 0.045})
	r = asClosed(r, c)
	l.marks(in, q, r, m)
	l.look(in, q, edges)
	if in.Seam {
		l.closedSeam(q, r, c, m)
	}
	l.computed(in, q, edges)
	l.notches(r, m)
	l.opening(c, edges, m)
	l.across(in, c, m)
	l.runNames(in, q, edges)
	l.label(in, q, edges)
}

// opened is the outline of a closed piece: at its tear it goes in to the apex
// and out again.
func opened(c dart.Closed, edges []geom.Path, m geom.Affine) geom.Path {
	n := len(edges)
	apex := m.Apply(c.Dart.Apex)
	ring := []geom.Path{{geom.Line(apex, apex)}}
	for i := range n {
		k := (c.Dart.Tear + i) % n
		ring = append(ring, edges[k])
	}
	return geom.Join(ring...)
}

// asClosed is what is drawn on a piece, gone along with its parts.
func asClosed(r grading.Piece, c dart.Closed) grading.Piece {
	lines := make([]grading.Line, len(r.Lines))
	for i, k := range r.Lines {
		if len(k.Path) > 0 {
			mid, _ := along(k.Path, 0.5)
			k.Path = k.Path.Transform(c.MoveAt(mid))
		}
		lines[i] = k
	}
	notches := make([]grading.Notch, len(r.Notches))
	for i, n := range r.Notches {
		m := c.Moves[n.Edge]
		n.At, n.In = m.Apply(n.At), m.ApplyVec(n.In)
		notches[i] = n
	}
	darts := make([]grading.Dart, len(r.Darts))
	for i, d := range r.Darts {
		m := c.MoveAt(d.Apex)
		if d.Apex == c.Dart.Apex { // the closed one: both its legs lie on each other
			d.Leg1, d.Leg2 = c.Join, c.After.Start()
		} else {
			d.Leg1, d.Apex, d.Leg2 = m.Apply(d.Leg1), m.Apply(d.Apex), m.Apply(d.Leg2)
		}
		darts[i] = d
	}
	r.Lines, r.Notches, r.Darts = lines, notches, darts
	return r
}

// closedSeam draws the stitching line of a closed piece, the cap's left out.
func (l *Layer) closedSeam(q model.Piece, r grading.Piece, c dart.Closed, m geom.Affine) {
	inwards := make([]float64, len(q.Edges))
	for k, e := range q.Edges {
		inwards[k] = -e.Allowance
	}
	lines, err := geom.OffsetOutline(r.Edges, inwards, seamTol)
	if err != nil {
		return
	}
	n := len(lines)
	for k, e := range lines {
		if isCap := (k-c.Dart.From+n)%n < (c.Dart.To-c.Dart.From+n)%n; inwards[k] != 0 && !isCap {
			l.Lines = append(l.Lines, Line{
				Path: e.Transform(m.Mul(c.Moves[k])), Width: 1.1, Dash: []float64{6, 3}, Ink: InkAccent, Alpha: 1,
			})
		}
	}
}

// opening draws the two sides along which the paper opens.
func (l *Layer) opening(c dart.Closed, edges []geom.Path, m geom.Affine) {
	n := len(edges)
	apex := m.Apply(c.Dart.Apex)
	for _, end := range [2]geom.Point{edges[(c.Dart.Tear+n-1)%n].End(), edges[c.Dart.Tear].Start()} {
		l.Lines = append(l.Lines, Line{
			Path: geom.Polyline(apex, end), Width: 1.1, Dash: []float64{2, 5}, Round: true, Ink: InkSoft, Alpha: 1,
		})
	}
}

// across runs the seam over the closed dart in one, and says how it goes on.
func (l *Layer) across(in Input, c dart.Closed, m geom.Affine) {
	for _, half := range [2]geom.Path{c.Before, c.After} {
		path := half.Transform(m)
		l.Lines = append(
			l.Lines,
			Line{Path: path, Width: 11, Round: true, Ink: InkAccent, Alpha: 0.2},
			Line{Path: path, Width: 4, Round: true, Ink: InkAccent, Alpha: 1},
		)
	}
	at := m.Apply(c.Join)
	out := at.Sub(m.Apply(c.Dart.Apex)).Unit()
	text := Text{Words: words.T("Runs on smoothly"), At: at, DX: 34 * out.X, DY: 34 * out.Y, Size: 13, Bold: true, Ink: InkAccentWords, Halo: in.ground()}
	if c.Kink > smoothKink {
		text.Words, text.Ink = words.F("Turns by %s°", words.Figure(c.Kink, 1)), InkLookLine
		l.Dots = append(l.Dots, Dot{At: at, DX: 20 * out.X, DY: 20 * out.Y, Radius: 11, Ink: InkLookFill, Mark: LookAt})
	}
	switch {
	case out.X > 0.3:
		text.Anchor = Left
	case out.X < -0.3:
		text.Anchor = Right
	}
	l.Texts = append(l.Texts, text)
}
