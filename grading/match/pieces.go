package match

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"sync/atomic"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/crew"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// Pieces makes model pieces of a drawn sheet: every size of a piece gets the
// same grade points and edges, in the same order, clockwise on paper and
// beginning near where the smallest size's line was begun. What is doubtful is
// told per piece and size. It is an error, naming the piece, where a ring
// cannot be measured.
//
// On a drawn piece every corner is exactly the drawn joint and the curves are
// kept, cut at the corners only.
func Pieces(sheet exchange.Sheet, chart model.SizeChart) ([]model.Piece, []Doubt, error) {
	return PiecesWatched(context.Background(), sheet, chart, nil)
}

// PiecesWatched is Pieces for the background: it ends early with the context's
// error, and tells how far it is, 0 to 1; progress may be nil.
func PiecesWatched(ctx context.Context, sheet exchange.Sheet, chart model.SizeChart, progress func(float64)) ([]model.Piece, []Doubt, error) {
	type answer struct {
		piece  model.Piece
		doubts []Doubt
		err    error
	}
	answers := make([]answer, len(sheet.Pieces))
	var all crew.Group
	var done atomic.Int64
	free := make(chan struct{}, runtime.GOMAXPROCS(0)) // so that those not begun are left when ctx ends
	for i, raw := range sheet.Pieces {
		all.Go(func() {
			free <- struct{}{}
			defer func() { <-free }()
			if ctx.Err() != nil {
				return
			}
			q, d, err := onePiece(raw, chart)
			q.ID = fmt.Sprintf("piece%d", i+1)
			answers[i] = answer{q, d, err}
			if n := done.Add(1); progress != nil {
				progress(float64(n) / float64(len(sheet.Pieces)))
			}
		})
	}
	all.Wait()
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	var out []model.Piece
	var doubts []Doubt
	for i, a := range answers {
		if a.err != nil {
			return nil, nil, words.Errorf("matching the sizes of %s: %w", sheet.Pieces[i].Name, a.err)
		}
		out = append(out, a.piece)
		doubts = append(doubts, a.doubts...)
	}
	return out, doubts, nil
}

func onePiece(raw exchange.RawPiece, chart model.SizeChart) (model.Piece, []Doubt, error) {
	n := &nest{piece: raw.Name}
	for _, o := range raw.Outlines {
		r, err := newRing(o)
		if err != nil {
			return model.Piece{}, nil, words.Errorf("size %s: %w", o.Size, err)
		}
		n.rings = append(n.rings, r)
	}
	q := model.Piece{Name: raw.Name, Cut: cutOf(raw.Name), Lines: linesOf(raw), OneForAll: raw.OneForAll}
	if err := n.findTracks(); err != nil {
		return model.Piece{}, nil, err
	}
	n.crown(q.GrainDir())
	n.levels(raw.Lines)
	n.startNear()
	n.sayOutOfStep(chart)
	for k, t := range n.tracks {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", k+1), Name: t.name, Smooth: t.smooth})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprintf("e%d", k+1)})
	}
	for i := range n.rings {
		q.Nest = append(q.Nest, n.outline(i))
	}
	q.Notches = n.notches(raw.Lines)
	q = n.together(named(q))
	return q, n.doubts, nil
}

// cutWords is how many to cut, as written in a piece's name: "Front, cut 2",
// "Ärmel, 2x zuschneiden".
var cutWords = regexp.MustCompile(`(?i)\b(?:cut|zuschneiden):?\s*(\d{1,2})\b|\b(\d{1,2})\s*(?:x|×|mal)?\s*(?:zuschneiden|im (?:stoff)?bruch)\b`)

func cutOf(name string) int {
	if m := cutWords.FindStringSubmatch(name); m != nil {
		if n, err := strconv.Atoi(m[1] + m[2]); err == nil && n > 0 {
			return n
		}
	}
	return 1
}

// startNear makes the first grade point the one nearest to where the smallest
// size's line was begun.
func (n *nest) startNear() {
	best := 0
	for k := range n.tracks {
		if n.rings[0].apart(n.tracks[k].at[0].s, 0) < n.rings[0].apart(n.tracks[best].at[0].s, 0) {
			best = k
		}
	}
	n.tracks = append(append([]track(nil), n.tracks[best:]...), n.tracks[:best]...)
}

// What a corner may be off the even course of its sizes before it is told:
// this many mm, and this share of its movement from the first size to the last.
const (
	offCourse      = 4.0
	offCourseShare = 0.25
)

// sayOutOfStep tells of corners of one size that lie off the line from the
// size before to the size after, which a wrong match would show as. Where each
// size lies on the sheet does not count, nor do corners told of already.
func (n *nest) sayOutOfStep(chart model.SizeChart) {
	var shown []track
	for _, t := range n.tracks {
		if !slices.ContainsFunc(t.at, func(c corner) bool { return !c.sure }) {
			shown = append(shown, t)
		}
	}
	middle := make([]geom.Vec, len(n.rings))
	for i := range n.rings {
		for _, t := range shown {
			middle[i] = middle[i].Add(geom.Vec(n.at(t, i)).Scale(1 / float64(len(shown))))
		}
	}
	place := func(i int) float64 { return middlePlace(n.rings[i].sizes(), chart) }
	for _, t := range shown {
		where := func(i int) geom.Point { return n.at(t, i).Add(middle[i].Scale(-1)) }
		whole := where(len(n.rings) - 1).Dist(where(0))
		for i := 1; i+1 < len(n.rings); i++ {
			a, b, c := place(i-1), place(i), place(i+1)
			want := where(i-1).Lerp(where(i+1), (b-a)/(c-a))
			if off := where(i).Dist(want); off > math.Max(offCourse, offCourseShare*whole) {
				n.doubt(i, n.at(t, i), words.F("This corner lies %.0f mm off the line from the size before to the size after. Check that it is the same corner.", off))
			}
		}
	}
}

func (n *nest) at(t track, i int) geom.Point {
	p := t.at[i].place
	return n.rings[i].path[p.i].At(p.t)
}
