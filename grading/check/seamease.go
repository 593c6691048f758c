package check

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// offSeam finds a seam whose ease, on the stitching line, is not what is wanted:
// that of the print, or what the sewist set.
func (l *looking) offSeam(k model.Link, s grading.Seam) []Finding {
	off := s.Off()
	if math.Abs(off) <= l.limit(LimitSeams) {
		return nil
	}
	i, a := l.p.PieceIndex(k.Follow.Piece), l.p.PieceIndex(k.Lead.Piece)
	q, lead := l.p.Pieces[i], l.p.Pieces[a]
	f := Finding{
		Code: "seam", Piece: q.ID, Edge: k.Follow.Edges[0], Link: k.ID, By: off, Look: true,
		Where: middle(l.r.Pieces[i].Edges[q.EdgeIndex(k.Follow.Edges[0])]),
		What:  l.seamWhat(k, s), Much: l.seamMuch(k, s),
		Say: pick(off > 0, words.T("The %s of %s is %s longer than it should be to meet the %s of %s."), words.T("The %s of %s is %s shorter than it should be to meet the %s of %s."),
			stretchName(q, k.Follow), q.Name, show(math.Abs(off), l.p), stretchName(lead, k.Lead), lead.Name),
		Help: words.T("Correct one of the two lines, or ease it in if the cloth lets you."),
	}
	if f.Along = l.worstStretch(k); len(f.Along) > 0 {
		worst := longest(f.Along)
		f.Edge, f.Where = worst.Edge, middle(worst.Line)
	}
	if s.Why != "" {
		f.Help = words.F("It was to give way, but %s.", strings.TrimSuffix(s.Why, "."))
		return []Finding{f}
	}
	if back := takeBackAlong(q, k.Follow); back.Do == TakeBack {
		f.Help, f.Action = words.T("Take the correction back, or correct the other line as well."), back
		return []Finding{f}
	}
	if all := grading.Remedies(l.p, l.r, k); k.Refit == model.NoRefit && len(all) > 0 {
		f.Help = sentence(all[0].Say)
		f.Action = Action{Do: Refit, Label: all[0].Say, Link: k.ID, Refit: all[0].Refit}
	}
	return []Finding{f}
}

// eased reports that a seam is meant to be eased in: its follower is wanted
// longer by more than a tape shows.
func eased(k model.Link, s grading.Seam) bool { return k.Room > 0 || s.Wanted.High > 2*sixteenth }

// seamWhat is "Cap is too full", "Side seam of Front is too long".
func (l *looking) seamWhat(k model.Link, s grading.Seam) string {
	q := l.p.Pieces[l.p.PieceIndex(k.Follow.Piece)]
	subject := q.Name
	title, shared := sharedTitle(l.p, k)
	switch {
	case strings.Contains(glossary.English(stretchName(q, k.Follow)), "cap"):
		subject = words.T("Cap")
	case k.Lead.Piece == q.ID:
		subject = capital(stretchName(q, k.Follow))
	case shared:
		subject = words.F("%s of %s", capital(title), q.Name)
	}
	if eased(k, s) {
		return pick(s.Off() > 0, words.T("%s is too full"), words.T("%s is too tight"), subject)
	}
	return pick(s.Off() > 0, words.T("%s is too long"), words.T("%s is too short"), subject)
}

// seamMuch is "29 mm of ease, 25 mm at most wanted", "9 mm longer than the hem of
// Sleeve".
func (l *looking) seamMuch(k model.Link, s grading.Seam) string {
	switch {
	case eased(k, s) && s.Off() > 0:
		return words.F("%s of ease, %s at most wanted", show(s.Ease(), l.p), show(s.Wanted.High, l.p))
	case eased(k, s):
		return words.F("%s of ease, %s at least wanted", show(s.Ease(), l.p), show(s.Wanted.Low, l.p))
	}
	lead := l.p.Pieces[l.p.PieceIndex(k.Lead.Piece)]
	by, than := show(math.Abs(s.Off()), l.p), stretchName(lead, k.Lead)
	switch {
	case math.Abs(s.Wanted.High) > l.limit(LimitSeams):
		return pick(s.Off() < 0, words.T("%s shorter than it should be"), words.T("%s longer than it should be"), by)
	case k.Lead.Piece == k.Follow.Piece:
		return pick(s.Off() < 0, words.T("%s shorter than the %s"), words.T("%s longer than the %s"), by, than)
	}
	return pick(s.Off() < 0, words.T("%s shorter than the %s of %s"), words.T("%s longer than the %s of %s"), by, than, lead.Name)
}
