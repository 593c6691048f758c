package check

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading/seam"
	"quarterstep/model"
)

// seamPrints remembers, by link, what was read of a seam's print.
type seamPrints map[string]seamPrint

// seamPrint is a seam's print with the link and the pieces it was read from.
type seamPrint struct {
	link   model.Link
	pieces []model.Piece
	print  *seam.Print // nil where it cannot be walked
	sizes  []string
	// over is, by printed size and matched notch, how many mm farther from the
	// seam's start the follower's notch lies than the leader's.
	over [][]float64
}

// notches looks whether the notches of a seam meet: at the target, and in each
// printed size as in the others.
func (l *looking) notches() Checked {
	out := Checked{Check: "notch"}
	worst, any := 0.0, false
	for _, k := range l.p.Links {
		s, ok := l.seamOf(k)
		if !ok || l.brokenLink(k) || math.Abs(s.Off()) > l.limit(LimitSeams) {
			continue // said of its outline, or of its length
		}
		pr := l.walked(k)
		if pr.print == nil || len(pr.over[0]) == 0 {
			continue
		}
		any = true
		w, err := pr.print.Walk(l.sheets(k), l.p.Target.Place)
		if err != nil {
			continue // a seam that is not walked says so itself
		}
		off, found := l.missedNow(k, w)
		worst = math.Max(worst, off)
		out.Findings = append(append(out.Findings, found...), l.strayInPrint(k, w, pr)...)
	}
	if any {
		out.Title, out.Say = words.T("Notches"), words.C("of notches", "meet")
		if show(worst, l.p) != show(0, l.p) {
			out.Say = words.F("meet within %s", show(worst, l.p))
		}
	}
	return out
}

// walked is a seam's print, read once.
func (l *looking) walked(k model.Link) seamPrint {
	pieces := l.piecesOf(k)
	if pr, ok := l.walks[k.ID]; ok && sameSeam(pr.link, k) && slices.EqualFunc(pr.pieces, pieces, samePaper) {
		return pr
	}
	pr := seamPrint{link: k, pieces: pieces}
	if print, err := seam.Read(l.p, k); err == nil {
		pr.read(l.p, print)
	}
	l.walks[k.ID] = pr
	return pr
}

func (l *looking) piecesOf(k model.Link) []model.Piece {
	var out []model.Piece
	for _, s := range append(k.Leads(), k.Follow) {
		if i := l.p.PieceIndex(s.Piece); i >= 0 {
			out = append(out, l.p.Pieces[i])
		}
	}
	return out
}

// read walks the seam in every printed size.
func (pr *seamPrint) read(p model.Pattern, print *seam.Print) {
	for _, e := range print.Eases() {
		place, ok := p.Chart.Place(e.Size)
		if !ok {
			return
		}
		sheets := make([]seam.Sheet, len(p.Pieces))
		for i, q := range p.Pieces {
			sheets[i], _ = seam.Printed(q, e.Size)
		}
		w, err := print.Walk(sheets, float64(place))
		if err != nil {
			return
		}
		pr.sizes, pr.over = append(pr.sizes, e.Size), append(pr.over, overs(w, seam.Part.Surplus))
	}
	if len(pr.over) > 0 {
		pr.print = print
	}
}

// overs adds up, from the seam's start to each matched notch, what by says of
// the parts before it.
func overs(w seam.Walk, by func(seam.Part) float64) []float64 {
	var out []float64
	var sum float64
	for _, part := range w.Parts {
		sum += by(part)
		if part.To.Lead.Kind == seam.Notch && part.To.Follow.Kind == seam.Notch {
			out = append(out, sum)
		}
	}
	return out
}

// missedNow finds notches of the new lines that do not meet as the print has
// them, and says how far the worst is off, mm.
func (l *looking) missedNow(k model.Link, w seam.Walk) (float64, []Finding) {
	meets := meetings(w)
	worst, all := 0.0, 0.0
	for _, part := range w.Parts {
		all += part.Over()
	}
	var out []Finding
	for i, off := range overs(w, seam.Part.Over) {
		if fromEnd := off - all; math.Abs(fromEnd) < math.Abs(off) {
			off = fromEnd // it meets its mate counted from the seam's other end
		}
		worst = math.Max(worst, math.Abs(off))
		if math.Abs(off) > l.limit(LimitNotch) {
			out = append(out, l.notchOff(k, meets[i].Follow, off, ""))
		}
	}
	return worst, out
}

// sheets is the pieces of a link as graded.
func (l *looking) sheets(k model.Link) []seam.Sheet {
	out := make([]seam.Sheet, len(l.p.Pieces))
	for _, s := range append(k.Leads(), k.Follow) {
		i := l.p.PieceIndex(s.Piece)
		r := l.r.Pieces[i]
		sheet := seam.Sheet{Piece: l.p.Pieces[i], Tape: seam.NewTape(l.p.Pieces[i], r.Edges)}
		for _, n := range r.Notches {
			sheet.Notches = append(sheet.Notches, seam.Spot{S: n.S, Marked: true})
		}
		out[i] = sheet
	}
	return out
}

// meetings is the notches that meet, from the seam's start.
func meetings(w seam.Walk) []seam.Meet {
	var out []seam.Meet
	for _, part := range w.Parts {
		if part.To.Lead.Kind == seam.Notch && part.To.Follow.Kind == seam.Notch {
			out = append(out, part.To)
		}
	}
	return out
}

// strayInPrint finds a notch that one printed size has elsewhere than the
// others: of three sizes at least, for of two nobody can say which is right.
func (l *looking) strayInPrint(k model.Link, w seam.Walk, pr seamPrint) []Finding {
	if len(pr.sizes) < 3 {
		return nil
	}
	meets := meetings(w)
	var out []Finding
	for n := range pr.over[0] {
		all := make([]float64, len(pr.sizes))
		for s := range pr.sizes {
			all[s] = pr.over[s][n]
		}
		usual := slices.Sorted(slices.Values(all))[len(all)/2]
		for s, size := range pr.sizes {
			if off := all[s] - usual; math.Abs(off) > l.limit(LimitNotch) {
				out = append(out, l.notchOff(k, meets[n].Follow, off, size))
			}
		}
	}
	return out
}

// notchOff words a notch that lies off its mate by off mm, in a printed size where
// one is named, against the other sizes.
func (l *looking) notchOff(k model.Link, m seam.Mark, off float64, size string) Finding {
	i := l.p.PieceIndex(m.Piece)
	q := l.p.Pieces[i]
	n := q.Notches[m.Index]
	name, edge, by := words.C("after the", "single notch"), edgeName(q, q.EdgeIndex(n.Edge)), show(math.Abs(off), l.p)
	if n.Double {
		name = words.C("after the", "double notch")
	}
	much, say := words.F("by %s", by), words.F("The %s on the %s of %s lies %s off, so that it does not meet its mate.", name, edge, q.Name, by)
	if size != "" {
		much = words.F("by %s in size %s", by, size)
		say = words.F("The %s on the %s of %s lies %s off in size %s, so that it does not meet its mate as in the other sizes.", name, edge, q.Name, by, size)
	}
	return Finding{
		Code: "notch", Piece: q.ID, Edge: n.Edge, Link: k.ID, Where: l.r.Pieces[i].Notches[m.Index].At, By: off, Look: true,
		What: words.F("Notches of the %s miss", stretchTitle(l.p, k)),
		Much: much, Say: say,
		Help: words.T("Look where the notches are marked on both lines."),
	}
}

// samePaper reports that two pieces are the same as printed: edits replace
// slices and never write into them.
func samePaper(a, b model.Piece) bool {
	return a.ID == b.ID && same(a.Points, b.Points) && same(a.Edges, b.Edges) && same(a.Nest, b.Nest) && same(a.Notches, b.Notches)
}

func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func sameSeam(a, b model.Link) bool {
	return sameStretch(a.Lead, b.Lead) && sameStretch(a.Follow, b.Follow) && slices.EqualFunc(a.And, b.And, sameStretch) &&
		a.Ease == b.Ease && a.Room == b.Room && a.EaseFixed == b.EaseFixed
}

func sameStretch(a, b model.Stretch) bool {
	return a.Piece == b.Piece && a.Reverse == b.Reverse && slices.Equal(a.Edges, b.Edges)
}
