package check

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
)

// smooth looks for kinks and for bends that no printed size has.
func (l *looking) smooth() Checked {
	limit := l.limit(LimitKink)
	out := Checked{Check: "smooth", Title: words.T("Smooth lines"), Say: words.F("no kink above %s°, no new bend", words.Digits(limit, 3))}
	out.Findings = l.own(l.eachOnce(asked{out.Check, limit}, func(q model.Piece, r grading.Piece) []Finding {
		return append(kinks(q, r, limit), newBends(q, r, l.most.of(q))...)
	}))
	return out
}

// outlines looks whether every outline can be cut and sewn at all.
func (l *looking) outlines() Checked {
	out := Checked{Check: "outline", Title: words.T("Outlines"), Say: words.T("none crosses itself, every seam has room")}
	out.Findings = append(unlaid(l.p, l.r), l.eachOnce(asked{check: out.Check}, func(q model.Piece, r grading.Piece) []Finding {
		if lost := lostEdges(q, r); len(lost) > 0 {
			return lost // it crosses itself because of that
		}
		return append(crossing(q, r), turnedEdges(q, r)...)
	})...)
	out.Findings = append(out.Findings, l.lines.seamless()...)
	return out
}

// againstPrint looks whether new lines cross the printed ones.
func (l *looking) againstPrint() Checked {
	out := Checked{Check: "print", Title: words.T("Against the print"), Say: words.T("no new line crosses a printed one")}
	out.Findings = l.own(l.eachOnce(asked{check: out.Check}, func(q model.Piece, r grading.Piece) []Finding {
		return crossesPrint(l.p, q, r)
	}))
	return out
}
