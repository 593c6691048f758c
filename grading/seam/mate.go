package seam

import (
	"quarterstep/assets/words"
	"quarterstep/model"
)

// Mate is where on the other side of a seam a place meets: mm along an edge.
type Mate struct {
	Piece string // ID
	Edge  int
	S     float64
}

// ErrNoMate says that a place lies on neither side of the seam.
var ErrNoMate = words.Fault("lies on neither side of the seam")

// Mate finds what a place, s mm along an edge of a piece, meets when the seam is
// sewn as sheets have it: what lies as far from the nearer of the two marks that
// meet already and between which it is. Beside the end of the seam it is counted
// from there, for ease goes to the middle (a cap's to its crown: common practice).
func (pr *Print) Mate(sheets []Sheet, piece string, edge int, s float64) (Mate, error) {
	w, err := pr.walk(sheets)
	if err != nil {
		return Mate{}, err
	}
	from, to := w.lead, w.follow
	at := func(p pair) (a, b float64) { return w.lead.Marks[p.lead].At, w.follow.Marks[p.follow].At }
	on, ok := from.runOf(piece, edge)
	if !ok {
		from, to = w.follow, w.lead
		at = func(p pair) (a, b float64) { return w.follow.Marks[p.follow].At, w.lead.Marks[p.lead].At }
		if on, ok = from.runOf(piece, edge); !ok {
			return Mate{}, ErrNoMate
		}
	}
	x, err := pr.sheetOf(sheets, piece).Tape.Along(edge, s)
	if err != nil {
		return Mate{}, err
	}
	if on.back {
		x = on.long - x
	}
	x += on.from
	for i := 1; i < len(pr.matched); i++ {
		a0, b0 := at(pr.matched[i-1])
		a1, b1 := at(pr.matched[i])
		if x > a1 && i < len(pr.matched)-1 {
			continue
		}
		y := b0 + (x - a0)
		first, last := i == 1, i == len(pr.matched)-1
		if last && !first || first == last && a1-x < x-a0 {
			y = b1 - (a1 - x)
		}
		return pr.mateAt(sheets, to, min(max(y, b0), b1))
	}
	return Mate{}, ErrNoMate
}

// mateAt is the place y mm along a side.
func (pr *Print) mateAt(sheets []Sheet, d Side, y float64) (Mate, error) {
	on := d.runs[len(d.runs)-1]
	for _, r := range d.runs {
		if y <= r.from+r.long {
			on = r
			break
		}
	}
	s, err := pr.sheetOf(sheets, on.piece).Tape.Place(on.edge, on.place(y))
	return Mate{on.piece, on.edge, s}, err
}

func (d Side) runOf(piece string, edge int) (run, bool) {
	for _, r := range d.runs {
		if r.piece == piece && r.edge == edge {
			return r, true
		}
	}
	return run{}, false
}

func (pr *Print) sheetOf(sheets []Sheet, piece string) Sheet {
	for _, s := range sheets {
		if s.Tape != nil && s.Piece.ID == piece {
			return s
		}
	}
	return Sheet{}
}

// NotchMate is the notch, by its piece's index and its own, that a notch meets;
// false for one that meets none.
func (pr *Print) NotchMate(piece, notch int) (mate, index int, ok bool) {
	for _, m := range pr.metNotches {
		if m.lead == [2]int{piece, notch} {
			return m.follow[0], m.follow[1], true
		}
		if m.follow == [2]int{piece, notch} {
			return m.lead[0], m.lead[1], true
		}
	}
	return 0, 0, false
}

// metNotches is two notches that meet, each by the index of its piece and its
// own.
type metNotches struct{ lead, follow [2]int }

// meetings is which notches of p meet, as walked in a printed size.
func meetings(p model.Pattern, w sides, matched []pair) []metNotches {
	var out []metNotches
	for _, m := range matched {
		a, b := w.lead.Marks[m.lead], w.follow.Marks[m.follow]
		if a.Kind == Notch && b.Kind == Notch {
			out = append(out, metNotches{[2]int{p.PieceIndex(a.Piece), a.Index}, [2]int{p.PieceIndex(b.Piece), b.Index}})
		}
	}
	return out
}
