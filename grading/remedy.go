package grading

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading/link"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// Remedy is one thing that makes a seam fit, tried and found to work: letting
// the follower give way by Refit. Say is what it does, on a button: "Lower the
// cap 4 mm".
type Remedy struct {
	Say   string
	Refit model.Refit
	By    float64 // mm
}

// Remedies is what would bring a sewn link of p, graded as r, to the ease
// wanted: nothing where it has it, gives way already, or cannot be walked.
func Remedies(p model.Pattern, r Result, l model.Link) []Remedy {
	pr, err := seam.Read(p, l)
	if err != nil {
		return nil
	}
	s := link.Seam{Print: pr}
	all := sheets(p, r)
	for k, lead := range l.Leads() {
		i := pr.Leaders()[k]
		if i == pr.Follower() {
			s.Own = append(s.Own, lead)
			continue
		}
		long, err := all[i].Tape.Stretch(p.Pieces[i], lead)
		if err != nil {
			return nil
		}
		s.Lead += long
	}
	i := pr.Follower()
	ease, err := all[i].Tape.Stretch(p.Pieces[i], l.Follow)
	if err != nil {
		return nil
	}
	ease -= s.Lead
	for _, own := range s.Own {
		long, err := all[i].Tape.Stretch(p.Pieces[i], own)
		if err != nil {
			return nil
		}
		ease -= long
	}
	// As little as is needed: to the nearer end of what is wanted.
	s.Aim = pr.Wanted(p.Target.Place).Hold(ease)
	if math.Abs(ease-s.Aim) < 0.01 {
		return nil
	}
	var out []Remedy
	for _, m := range link.Remedies(s, p.Pieces[i], r.Pieces[i].Edges, followed(p, i)) {
		out = append(out, Remedy{Say: SayRefit(p, l, m.Refit, m.By), Refit: m.Refit, By: m.By})
	}
	return out
}

// followed is which edges of piece i follow another piece's line.
func followed(p model.Pattern, i int) []bool {
	out := make([]bool, len(p.Pieces[i].Edges))
	for _, l := range p.Links {
		if l.Kind != model.SameLine || l.Follow.Piece != p.Pieces[i].ID {
			continue
		}
		for _, id := range l.Follow.Edges {
			if j := p.Pieces[i].EdgeIndex(id); j >= 0 {
				out[j] = true
			}
		}
	}
	return out
}

// SayRefit is what a follower does that gives way by so many mm, as a verb with
// its amount: "Lower the cap 4 mm", "Narrow by 5 mm".
func SayRefit(p model.Pattern, l model.Link, r model.Refit, by float64) string {
	amount := measure.FormatMM(math.Abs(by), string(p.Unit))
	q := p.Pieces[p.PieceIndex(l.Follow.Piece)]
	pick := func(more, less string, args ...any) string {
		if by < 0 {
			return fmt.Sprintf(less, args...)
		}
		return fmt.Sprintf(more, args...)
	}
	switch r {
	case model.CapHeight:
		return pick(words.T("Raise the %s %s"), words.T("Lower the %s %s"), archName(q, l.Follow), amount)
	case model.CapWidth:
		return pick(words.T("Widen by %s"), words.T("Narrow by %s"), amount)
	case model.CapBoth:
		return pick(words.T("Raise %s and widen"), words.T("Lower %s and narrow"), amount)
	case model.WholePiece:
		return pick(words.T("Lengthen the %s %s"), words.T("Shorten the %s %s"), lower(q.Name), amount)
	case model.StartAlong, model.EndAlong:
		return pick(words.T("Move the %s %s down"), words.T("Move the %s %s up"), endName(q, l.Follow, r), amount)
	case model.StartAcross, model.EndAcross:
		return pick(words.T("Move the %s %s right"), words.T("Move the %s %s left"), endName(q, l.Follow, r), amount)
	}
	return words.T("Leave it as it is")
}
