package scene

import (
	"fmt"
	"math"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// The marks at the ends of a cut line: two blades, open by bladeTurn either way
// and bladeReach px long.
const (
	bladeTurn  = 0.4
	bladeReach = 13
)

// cutRoom is how long, in px, a cut line must be to say by how much it opens.
const cutRoom = 90

// Cuttable reports whether the cut lines of q count: a nest of several sizes,
// and a piece that is the same in all, say by themselves how they grow.
func Cuttable(q model.Piece) bool { return len(q.Nest) == 1 && !q.OneForAll }

// cuts draws the cut lines of a piece printed once, on its print: dashed, with
// open blades at either end, and by how much each opens.
func (l *Layer) cuts(in Input, q model.Piece, r grading.Piece, m geom.Affine) {
	if !Cuttable(q) || len(in.Sheets) > 0 {
		return
	}
	for i, c := range q.Cuts {
		from, to := m.Apply(c.From), m.Apply(c.To)
		line := Line{Path: geom.Polyline(from, to), Width: 1.6, Dash: cutDash, Ink: InkWords, Alpha: 1}
		if in.Select.Piece == q.ID && in.Select.Cut == c.ID {
			line.Width, line.Ink = 2.4, InkAccent
		}
		l.Lines = append(l.Lines, line)
		out := to.Sub(from).Unit()
		l.blades(to, out, line.Ink)
		l.blades(from, out.Scale(-1), line.Ink)
		if from.Dist(to)*in.Scale >= cutRoom {
			t := beside(openWords(in, r, i), from.Lerp(to, openWordsAt), out)
			t.Halo = in.ground()
			l.Texts = append(l.Texts, t)
		}
	}
}

// openWordsAt is where along a cut line its words stand, clear of its middle.
const openWordsAt = 0.3

var cutDash = []float64{9, 5}

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

// openWords is "2: opens 3/8 in" of cut line i.
func openWords(in Input, r grading.Piece, i int) string {
	words := fmt.Sprintf("%d", i+1)
	if i >= len(r.Opens) {
		return words
	}
	verb := "opens"
	if r.Opens[i] < 0 {
		verb = "overlaps"
	}
	return fmt.Sprintf("%s: %s %s", words, verb, measure.FormatMM(math.Abs(r.Opens[i]), in.Pattern.Unit))
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
