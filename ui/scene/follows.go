package scene

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// bothMatch is by how many mm a line and the one it follows may differ in length and
// still match: what a tape shows.
const bothMatch = 0.5

// followLines says which piece's line q follows, the longest of them where it follows
// several, and how long that is on both; nil where it follows none.
func (in Input) followLines(q model.Piece) []Text {
	lead, long, match := "", -1.0, false
	for _, k := range in.Pattern.Links {
		if k.Kind != model.SameLine || k.Follow.Piece != q.ID {
			continue
		}
		i := in.Pattern.PieceIndex(k.Lead.Piece)
		if i < 0 {
			continue
		}
		a, okA := in.stretchLength(k.Lead)
		b, okB := in.stretchLength(k.Follow)
		if lead == "" || b > long {
			lead, long, match = in.Pattern.Pieces[i].Name, b, okA && okB && math.Abs(a-b) < bothMatch
		}
	}
	if lead == "" {
		return nil
	}
	out := []Text{{Words: words.F("follows %s", lead), Size: 13, Ink: InkSoft, Sign: LinkSign}}
	if match {
		out = append(out, Text{Words: words.F("%s, both edges match", in.long(long)), Size: 13, Ink: InkSoft, Sign: MatchSign})
	}
	return out
}

// stretchLength is how long a stretch of a piece's line is, mm.
func (in Input) stretchLength(s model.Stretch) (float64, bool) {
	const tol = 0.05
	i := in.Pattern.PieceIndex(s.Piece)
	if i < 0 {
		return 0, false
	}
	edges, sum, found := in.Edges(i), 0.0, 0
	for k, e := range in.Pattern.Pieces[i].Edges {
		if k >= len(edges) || !slices.Contains(s.Edges, e.ID) {
			continue
		}
		l, err := edges[k].Length(tol)
		if err != nil {
			return 0, false
		}
		sum += l
		found++
	}
	return sum, found == len(s.Edges)
}

// long is a length with its unit, as the panels have those of seams: to 1/16 in, or
// a whole millimetre.
func (in Input) long(mm float64) string {
	if in.Pattern.Unit == model.Inches {
		return measure.FormatMM(mm, in.Pattern.Unit)
	}
	return measure.Format(mm, measure.WholeMM) + " mm"
}
