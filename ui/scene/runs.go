package scene

import (
	"math"
	"slices"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Run is a stretch of a piece's edge that stands out from the rest, with words
// beside it: one side of the seam that is walked.
type Run struct {
	Piece  string
	Edges  []string // edge IDs
	Name   string   // "Armhole"; may be empty
	Length string   // "496 mm"
}

// runEdges is the set of a piece's edges that stand out.
func (in Input) runEdges(piece string) map[string]bool {
	out := map[string]bool{}
	for _, r := range in.Runs {
		if r.Piece == piece {
			for _, e := range r.Edges {
				out[e] = true
			}
		}
	}
	return out
}

// runWords is how far, in px, a run's words stand off its line.
const runWords = 22

// runNames writes the runs' names and lengths outside piece q, at the middle of
// each or near it; edges is its line on the Table.
func (l *Layer) runNames(in Input, q model.Piece, edges []geom.Path) {
	outside := -1.0
	if geom.Join(edges...).Area() < 0 {
		outside = 1
	}
	for _, r := range in.Runs {
		if r.Piece != q.ID || r.Name == "" {
			continue
		}
		var run geom.Path
		for _, e := range r.Edges {
			if k := q.EdgeIndex(e); k >= 0 {
				run = append(run, edges[k]...)
			}
		}
		if len(run) == 0 {
			continue
		}
		l.Texts = append(l.Texts, in.runLabel(r, run, outside, l.Texts)...)
	}
}

// runShares is how far along a run its words may stand, the best place first.
var runShares = [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}

// runLabel is a run's name and length beside it, at the place along it where they
// cover least of the pieces' lines and of what is said there already.
func (in Input) runLabel(r Run, run geom.Path, outside float64, said []Text) []Text {
	var lines [][]geom.Point
	for i := range in.Pattern.Pieces {
		if edges := in.Edges(i); len(edges) > 0 {
			lines = append(lines, geom.Join(edges...).Flatten(2))
		}
	}
	var best []Text
	least := math.Inf(1)
	for _, share := range runShares {
		words := in.runWordsAt(r, run, share, outside)
		box := in.wordsBox(words[0]).Union(in.wordsBox(words[1])).Grow(in.px(3))
		cost := 0.0
		for _, l := range lines {
			cost += lengthWithin(l, box)
		}
		for _, t := range said {
			under := overlap(box, in.wordsBox(t))
			cost += max(under.Width(), 0) * max(under.Height(), 0) / in.px(labelLead)
		}
		if cost < least {
			best, least = words, cost
		}
	}
	return best
}

// runWordsAt is a run's name and length outside it, a share of the way along.
func (in Input) runWordsAt(r Run, run geom.Path, share, outside float64) []Text {
	at, dir := along(run, share)
	aside := float64(runWords)
	if in.hatched(r) {
		aside += hatchRoom
	}
	off := dir.Perp().Scale(outside * aside)
	t := Text{Words: r.Name, At: at, DX: off.X, DY: off.Y - 9, Size: 16, Bold: true, Ink: InkWords, Halo: in.ground()}
	switch {
	case off.X > runWords/2:
		t.Anchor = Left
	case off.X < -runWords/2:
		t.Anchor = Right
	case off.Y < 0:
		t.DY -= 8
	default:
		t.DY += 8
	}
	length := t
	length.Words, length.Size, length.Bold, length.Ink = r.Length, 13, false, InkSoft
	length.DY += 18
	return []Text{t, length}
}

// hatchRoom is how much farther, px, a run's words stand off a line that is hatched.
const hatchRoom = 12

// hatched reports whether something to look at is marked along a run.
func (in Input) hatched(r Run) bool {
	return slices.ContainsFunc(in.Look, func(f Fault) bool {
		return f.Ref.Piece == r.Piece && slices.Contains(r.Edges, f.Ref.Edge)
	})
}

// runEnds are the handles at the ends of runs on pieces other than the one
// selected: those have theirs anyway.
func runEnds(in Input) []Handle {
	var out []Handle
	for i, q := range in.Pattern.Pieces {
		runs := in.runEdges(q.ID)
		if q.ID == in.Select.Piece || len(runs) == 0 {
			continue
		}
		edges := in.Edges(i)
		for k, g := range q.Points {
			before := q.Edges[(k+len(q.Edges)-1)%len(q.Edges)].ID
			if k >= len(edges) || runs[before] == runs[q.Edges[k].ID] {
				continue
			}
			h := Handle{Ref: Ref{Piece: q.ID, Point: g.ID}, At: edges[k].Start(), Shape: Corner, State: Linked}
			if g.Locked {
				h.State = Locked
			}
			out = append(out, h)
		}
	}
	return out
}

// runRoom is how much is shown round the runs, mm: what lies beside a seam.
const runRoom = 45

// FitBox is what to bring into sight: the runs with what lies beside them, or
// all that lies on the Table where there is none.
func (in Input) FitBox() geom.Box {
	if len(in.Runs) == 0 {
		return in.Bounds()
	}
	var b geom.Box
	for i, q := range in.Pattern.Pieces {
		runs := in.runEdges(q.ID)
		for k, e := range in.Edges(i) {
			if runs[q.Edges[k].ID] {
				b = b.Union(e.Bounds())
			}
		}
	}
	if b.Empty() {
		return in.Bounds()
	}
	return b.Grow(runRoom)
}

// SameRuns reports whether the same stretches stand out on both.
func SameRuns(a, b Input) bool {
	return slices.EqualFunc(a.Runs, b.Runs, func(x, y Run) bool { return x.Piece == y.Piece && slices.Equal(x.Edges, y.Edges) })
}

// Only is in without all pieces but those named.
func (in Input) Only(pieces []string) Input {
	var kept []model.Piece
	var graded []grading.Piece
	for i, q := range in.Pattern.Pieces {
		if !slices.Contains(pieces, q.ID) {
			continue
		}
		r, _ := in.graded(i)
		kept, graded = append(kept, q), append(graded, r)
	}
	in.Pattern.Pieces, in.Result.Pieces = kept, graded
	return in
}

// runsAlong reports whether the runs are the two sides of link k.
func (in Input) runsAlong(k model.Link) bool {
	stands := func(s model.Stretch) bool {
		return slices.ContainsFunc(in.Runs, func(r Run) bool { return r.Piece == s.Piece && slices.Equal(r.Edges, s.Edges) })
	}
	return stands(k.Lead) && stands(k.Follow)
}
