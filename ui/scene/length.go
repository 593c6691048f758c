package scene

import (
	"math"
	"slices"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// Lengthen is what the Length step shows on the Table: every lengthen line with
// a handle, those in hand told apart.
type Lengthen struct {
	Hand []model.PieceLine // the lines that one amount goes in at
}

// LengthHandle is Ref.Control of a lengthen line's handle.
const LengthHandle = 1

// lengthens reports that the Length step is on the Table.
func (in Input) lengthens() bool { return in.Lengthen != nil && len(in.Sheets) == 0 }

// inLength reports that a lengthen line is in hand.
func (in Input) inLength(at model.PieceLine) bool {
	return in.lengthens() && slices.Contains(in.Lengthen.Hand, at)
}

// putIn is by how many mm a piece is longer at one of its lengthen lines.
func putIn(r grading.Piece, line string) (mm float64) {
	for _, x := range r.Put {
		if x.Line == line {
			mm += x.By
		}
	}
	return mm
}

// strip is the two lines a lengthen line is drawn as on the Table: the paper put
// in lies between them. What is folded out lies there no more, and they keep the
// distance they have without.
func (in Input) strip(q model.Piece, r grading.Piece, k grading.Line) (upper, lower geom.Path) {
	m := in.place(q)
	path := acrossPiece(r, k.Path).Transform(m)
	down := m.ApplyVec(q.GrainDir()).Unit()
	half := math.Max(putIn(r, k.ID), lengthenGap) / 2
	return path.Move(down.Scale(-half)), path.Move(down.Scale(half))
}

// acrossPiece is a line carried on both ways to the outline, as it is lengthened
// at; as drawn where it does not meet the outline on both sides of its middle.
func acrossPiece(r grading.Piece, path geom.Path) geom.Path {
	const tol = 0.05
	mid, dir := path.Start().Lerp(path.End(), 0.5), path.End().Sub(path.Start()).Unit()
	box := r.Outline().Bounds()
	reach := dir.Scale(box.Width() + box.Height())
	before, after := math.Inf(-1), math.Inf(1)
	for _, x := range geom.Intersect(geom.Polyline(mid.Add(reach.Scale(-1)), mid.Add(reach)), r.Outline(), tol) {
		if s := x.At.Sub(mid).Dot(dir); s < 0 {
			before = max(before, s)
		} else {
			after = min(after, s)
		}
	}
	if math.IsInf(before, 0) || math.IsInf(after, 0) {
		return path
	}
	return geom.Polyline(mid.Add(dir.Scale(before)), mid.Add(dir.Scale(after)))
}

// lengthenLine draws a lengthen line in the Length step: double, the paper put
// in as a tinted strip, and what is put in in words.
func (l *Layer) lengthenLine(in Input, q model.Piece, r grading.Piece, k grading.Line) {
	upper, lower := in.strip(q, r, k)
	by := putIn(r, k.ID)
	ink, width, said := InkSoft, 1.4, lengthWords(k, by, in.Pattern.Unit)
	if in.inLength(model.PieceLine{Piece: q.ID, Line: k.ID}) {
		ink, width = InkAccent, 2.2
	}
	if by > 0 {
		across := geom.Polyline(upper.End(), lower.End())
		back := geom.Polyline(lower.Start(), upper.Start())
		l.Fills = append(l.Fills, Fill{Outline: geom.Join(upper, across, lower.Reverse(), back), Ink: InkAccent, Alpha: 0.16})
	}
	line := Line{Width: width, Ink: ink, Alpha: 1}
	if by < 0 {
		line.Dash = []float64{7, 4}
	}
	for _, path := range [2]geom.Path{upper, lower} {
		line.Path = path
		l.Lines = append(l.Lines, line)
	}
	left := lower.Start()
	if lower.End().X < left.X {
		left = lower.End()
	}
	text := Text{Words: said, At: left, DX: 10, DY: 14, Anchor: Left, Size: 13, Ink: InkSoft, Halo: in.ground()}
	if ink == InkAccent {
		text.Ink, text.Bold = InkAccentWords, true
	}
	if reach(lower) >= in.px(letterWidth*float64(utf8.RuneCountInString(said))+10) { // they keep within the piece
		l.Texts = append(l.Texts, text)
	}
}

// lengthWords is what a lengthen line says: its name, or what is put in there.
func lengthWords(k grading.Line, by float64, unit model.Unit) string {
	switch {
	case by > 0:
		return words.F("%s longer", measure.FormatMM(by, unit))
	case by < 0:
		return words.F("%s folded out", measure.FormatMM(-by, unit))
	case k.Name != "":
		return sentence(k.Name)
	}
	return words.T("Lengthen or shorten here")
}

// lengthHandles is the handles of the lengthen lines of every piece, each in the
// middle of its lower line, which goes as far as the handle is drawn.
func lengthHandles(in Input) []Handle {
	var out []Handle
	for i, q := range in.Pattern.Pieces {
		r, ok := in.graded(i)
		if !ok {
			continue
		}
		for _, k := range r.Lines {
			if k.Kind != model.Lengthen || len(k.Path) == 0 {
				continue
			}
			_, lower := in.strip(q, r, k)
			at := model.PieceLine{Piece: q.ID, Line: k.ID}
			h := Handle{Ref: Ref{Piece: q.ID, Line: k.ID, Control: LengthHandle}, At: lower.Start().Lerp(lower.End(), 0.5), Shape: Curve}
			switch {
			case in.Select.Piece == q.ID && in.Select.Line == k.ID:
				h.State = Selected
			case in.inLength(at):
				h.State = Linked
			}
			out = append(out, h)
		}
	}
	return out
}
