package scene

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// The marks at the ends of a cut line: two blades, open by bladeTurn either way
// and bladeReach px long, and wordsOut px beyond the ends its number and what it
// opens by.
const (
	bladeTurn  = 0.4
	bladeReach = 13
	wordsOut   = 20
)

var cutDash = []float64{9, 5}

// Cuttable reports whether the cut lines of q count: a nest of several sizes,
// and a piece that is the same in all, say by themselves how they grow.
func Cuttable(q model.Piece) bool { return len(q.Nest) == 1 && !q.OneForAll }

// cuts draws the cut lines of the piece in hand on its print: dashed and
// numbered, with open blades at either end; the one in hand says by how much it
// opens.
func (l *Layer) cuts(in Input, q model.Piece, r grading.Piece, m geom.Affine) {
	if !Cuttable(q) || in.Select.Piece != q.ID || len(in.Sheets) > 0 {
		return
	}
	for i, c := range q.Cuts {
		from, to := m.Apply(c.From), m.Apply(c.To)
		out := to.Sub(from).Unit()
		line := Line{Path: geom.Polyline(from, to), Width: 1.4, Dash: cutDash, Ink: InkWords, Alpha: 1}
		number := offEnd(from, out.Scale(-1), fmt.Sprint(i+1), in)
		if in.Select.Cut == c.ID {
			line.Width, line.Ink, number.Ink = 2.4, InkAccent, InkAccentWords
			if said := openWords(in, r, i); said != "" {
				opens := offEnd(to, out, said, in)
				opens.Ink = InkAccentWords
				l.Texts = append(l.Texts, opens)
			}
		}
		l.Lines = append(l.Lines, line)
		l.Texts = append(l.Texts, number)
		l.blades(to, out, line.Ink)
		l.blades(from, out.Scale(-1), line.Ink)
	}
}

// offEnd puts words off the end of a cut line, beyond its blades; out leads off
// the paper.
func offEnd(at geom.Point, out geom.Vec, said string, in Input) Text {
	t := Text{
		Words: said, At: at, DX: wordsOut * out.X, DY: wordsOut * out.Y,
		Size: 12, Bold: true, Ink: InkWords, Halo: in.ground(),
	}
	switch {
	case out.X > math.Sqrt2/2:
		t.Anchor = Left
	case out.X < -math.Sqrt2/2:
		t.Anchor = Right
	}
	return t
}

// blades draws the mark at one end of a cut line; out leads off the paper.
func (l *Layer) blades(at geom.Point, out geom.Vec, ink Ink) {
	for _, turn := range []float64{-bladeTurn, bladeTurn} {
		s, c := math.Sincos(turn)
		dir := geom.Vec{X: c*out.X - s*out.Y, Y: s*out.X + c*out.Y}
		l.Lines = append(l.Lines, Line{
			Path: geom.Polyline(at, at.Add(dir)), Width: 1.6, Round: true, Ink: ink, Alpha: 1, Reach: bladeReach,
		})
	}
}

// openWords is "opens 3/8 in" of cut line i; empty where it cannot be cut.
func openWords(in Input, r grading.Piece, i int) string {
	if i >= len(r.Opens) {
		return ""
	}
	by := measure.FormatMM(math.Abs(r.Opens[i]), in.Pattern.Unit)
	if r.Opens[i] < 0 {
		return words.F("overlaps %s", by)
	}
	return words.F("opens %s", by)
}

// The handles of a cut line, as Ref.Control has them: its ends, and its middle,
// by which all of it is moved.
const (
	CutStart = 1 + iota
	CutEnd
	CutMiddle
)

// cutEnds are the handles of a piece's cut lines.
func cutEnds(in Input, q model.Piece) []Handle {
	if !Cuttable(q) {
		return nil
	}
	m := in.place(q)
	var out []Handle
	for _, c := range q.Cuts {
		for n, at := range []geom.Point{c.From, c.To, c.From.Lerp(c.To, 0.5)} {
			h := Handle{Ref: Ref{Piece: q.ID, Cut: c.ID, Control: CutStart + n}, At: m.Apply(at), Shape: Bend}
			if h.Ref == in.Select {
				h.State = Selected
			}
			out = append(out, h)
		}
	}
	return out
}
