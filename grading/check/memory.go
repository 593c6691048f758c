package check

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// remembered is what was found on a piece's line when it was last looked at, and
// the piece, the line and the target that it goes for.
type remembered struct {
	piece model.Piece
	line  grading.Piece
	chart *model.ChartSize
	place float64
	unit  model.Unit
	said  string // the language it was said in

	sewn  *stitched // its stitching line, once asked for
	found map[asked][]Finding
}

// asked is a question about one piece: a check with the limit it goes by.
type asked struct {
	check string
	limit float64
}

// recall is what is remembered of every piece of p, graded as r; what has
// changed is begun anew, what is gone is forgotten.
func (c *Checker) recall(p model.Pattern, r grading.Result) []*remembered {
	next, out := make(map[string]*remembered, len(p.Pieces)), make([]*remembered, len(p.Pieces))
	for i, q := range p.Pieces {
		now := &remembered{piece: q, line: r.Pieces[i], place: p.Target.Place, unit: p.Unit, said: words.Now(), found: map[asked][]Finding{}}
		if len(p.Chart.Sizes) > 0 {
			now.chart = &p.Chart.Sizes[0]
		}
		if was := c.pieces[q.ID]; was != nil && was.same(now) {
			now = was
		}
		next[q.ID], out[i] = now, now
	}
	c.pieces = next
	return out
}

// same reports that a and b are one piece with one line and one target: edits
// replace slices and never write into them, but each grading draws anew.
func (a *remembered) same(b *remembered) bool {
	return a.chart == b.chart && a.place == b.place && a.unit == b.unit && a.said == b.said && a.piece.Name == b.piece.Name &&
		samePaper(a.piece, b.piece) && sameHand(a.piece.Hand, b.piece.Hand) && a.line.Printed == b.line.Printed &&
		slices.EqualFunc(a.line.Edges, b.line.Edges, slices.Equal[geom.Path])
}

func sameHand(a, b model.Hand) bool {
	return same(a.Curves, b.Curves) && same(a.Moves, b.Moves) && same(a.Shapes, b.Shapes) &&
		same(a.Shifts, b.Shifts) && same(a.Through, b.Through)
}

// eachOnce is each for a look at nothing but a piece's own line, print and
// corrections: it looks again only at pieces that have changed.
func (l *looking) eachOnce(of asked, look func(model.Piece, grading.Piece) []Finding) []Finding {
	var out []Finding
	for i, q := range l.p.Pieces {
		if l.broken[q.ID] {
			continue
		}
		found, known := l.seen[i].found[of]
		if !known {
			found = look(q, l.r.Pieces[i])
			l.seen[i].found[of] = found
		}
		out = append(out, found...)
	}
	return out
}
