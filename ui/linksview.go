package ui

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/link"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

const inch = 25.4 // mm

// linksView is the Links panel.
func (w *Window) linksView(p model.Pattern, r grading.Result) panel.LinksView {
	v := panel.LinksView{Empty: words.T("None yet. Pick two edges, then Link."), Open: -1, Make: w.makeView(p)}
	for i, l := range p.Links {
		v.Links = append(v.Links, w.linkView(p, r, l))
		if l.ID == w.trues.link {
			v.Open, v.Detail = i, w.linkDetail(p, r, l)
		}
	}
	return v
}

// brokenWhy is why a link cannot be kept; false where it is.
func brokenWhy(r grading.Result, l model.Link) (string, bool) {
	i := slices.IndexFunc(r.Unlinked, func(u grading.Unlinked) bool { return u.Link == l.ID })
	if i < 0 {
		return "", false
	}
	return r.Unlinked[i].Why, true
}

// seamOf is how a sewn link stands; false where it could not be walked.
func seamOf(r grading.Result, l model.Link) (grading.Seam, bool) {
	i := slices.IndexFunc(r.Seams, func(s grading.Seam) bool { return s.Link == l.ID })
	if i < 0 {
		return grading.Seam{}, false
	}
	return r.Seams[i], true
}

// linkView is a link in two lines.
func (w *Window) linkView(p model.Pattern, r grading.Result, l model.Link) panel.LinkView {
	v := panel.LinkView{What: words.T("A link"), Look: true}
	if linkWhole(p, l) {
		v.What = linkTitle(p, l)
	}
	if why, broken := brokenWhy(r, l); broken {
		v.How = why
		return v
	}
	if l.Kind == model.SameLine {
		v.How, v.Look = w.sameLineSay(p, r, l), false
		return v
	}
	s, ok := seamOf(r, l)
	if !ok {
		v.How = words.T("cannot be walked")
		return v
	}
	v.How, v.Look = seamSay(p, l, s)
	return v
}

// sameLineSay is "135 mm, within 0.1 mm in print".
func (w *Window) sameLineSay(p model.Pattern, r grading.Result, l model.Link) string {
	say := words.T("one line")
	i := p.PieceIndex(l.Lead.Piece)
	if mm, ok := cutLength(p.Pieces[i], r.Pieces[i], l.Lead); ok {
		say = long(mm, p.Unit)
	}
	if mm, ok := w.misfitOf(p, l); ok {
		return words.F("%s, within %s in print", say, finely(mm, p.Unit))
	}
	return say
}

// finely is a very small length, rounded up: to a tenth of a millimetre, or 1/64
// in.
func finely(mm float64, u model.Unit) string {
	const grainMM, grainIn = 0.1, inch / 64
	if u == model.Inches {
		return measure.Format(max(math.Ceil(mm/grainIn-1e-6), 1)*grainIn, measure.SixtyFourths) + " " + smallUnit(u)
	}
	return measure.Format(max(math.Ceil(mm/grainMM-1e-6), 1)*grainMM, measure.TenthMM) + " " + smallUnit(u)
}

// cutLength is the length of a stretch on the cutting line, mm.
func cutLength(q model.Piece, g grading.Piece, s model.Stretch) (float64, bool) {
	const tol = 0.01
	var total float64
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 {
			return 0, false
		}
		mm, err := g.Edges[j].Length(tol)
		if err != nil {
			return 0, false
		}
		total += mm
	}
	return total, true
}

// seamSay is how a seam fits, in few words, and whether to look at it.
func seamSay(p model.Pattern, l model.Link, s grading.Seam) (string, bool) {
	if s.Why != "" {
		return words.F("cannot give way: %s", s.Why), true
	}
	off, look := easeSay(p, s.Ease(), s.Wanted)
	u := p.Unit
	switch {
	case look && s.Wanted.High < 1: // no ease is wanted
		if s.Off() < 0 {
			return words.F("%s too short", easeOf(-s.Off(), u)), true
		}
		return words.F("%s too long", easeOf(s.Off(), u)), true
	case look:
		return words.F("%s of ease, %s", easeOf(s.Ease(), u), off), true
	case math.Abs(s.Ease()) < 1:
		return words.F("%s on both sides", long(s.Lead, u)), false
	case s.Ease() < 0:
		return words.F("%s shorter, %s", easeOf(-s.Ease(), u), off), false
	}
	return words.F("%s of ease, %s", easeOf(s.Ease(), u), off), false
}

// linkDetail is the link that is open.
func (w *Window) linkDetail(p model.Pattern, r grading.Result, l model.Link) panel.LinkDetail {
	if l.Kind == model.SameLine {
		return panel.LinkDetail{Says: []string{sentence(w.linkView(p, r, l).How)}}
	}
	var v panel.LinkDetail
	if why, broken := brokenWhy(r, l); broken {
		v.Why = sentence(words.F("the link %s", why))
		return v
	}
	s, ok := seamOf(r, l)
	if !ok {
		return v
	}
	u := p.Unit
	_, look := easeSay(p, s.Ease(), s.Wanted)
	v.Gauge = gaugeView(s, u, look)
	v.Low, v.High, v.Unit = easeIn(s.Wanted.Low, u), easeIn(s.Wanted.High, u), smallUnit(u)
	if say := printedEase(s.Printed, u); say != "" {
		v.Says = append(v.Says, say)
	}
	v.Fixed = l.EaseFixed
	v.Gives, v.Give = giveChoices(p, r, l)
	if l.Refit != model.NoRefit {
		v.GiveSay = gaveSay(l, s, u)
	}
	if s.Why != "" {
		v.Why = sentence(words.F("it %s", s.Why))
	}
	if look && l.Refit == model.NoRefit {
		for _, m := range w.remediesOf(p, r, l) {
			v.Remedies = append(v.Remedies, m.Say)
		}
	}
	return v
}

// printedEase says how much ease the printed sizes carry.
func printedEase(sizes []seam.SizeEase, u model.Unit) string {
	if len(sizes) == 0 {
		return ""
	}
	low, high := sizes[0].Ease, sizes[0].Ease
	for _, s := range sizes {
		low, high = min(low, s.Ease), max(high, s.Ease)
	}
	a, b := easeIn(low, u), easeIn(high, u)
	switch {
	case a == b && len(sizes) == 1:
		return words.F("The printed size carries %s %s.", a, smallUnit(u))
	case a == b:
		return words.F("The printed sizes carry %s %s.", a, smallUnit(u))
	}
	return words.F("The printed sizes carry %s to %s %s.", a, b, smallUnit(u))
}

// gaugeView is the ease of a seam on a line from 0 to 40 mm, or as much further
// as it takes.
func gaugeView(s grading.Seam, u model.Unit, look bool) *panel.GaugeView {
	step, per := 10.0, 4.0
	if u == model.Inches {
		step, per = inch/2, 3
	}
	from, to := 0.0, step*per
	for _, x := range []float64{s.Ease(), s.Wanted.Low, s.Wanted.High} {
		from, to = min(from, math.Floor(x/step)*step), max(to, math.Ceil(x/step)*step)
	}
	v := &panel.GaugeView{From: from, To: to, Low: s.Wanted.Low, High: s.Wanted.High, Now: s.Ease(), Figure: easeIn(s.Ease(), u), Look: look}
	for (to-from)/step > 6 {
		step *= 2
	}
	for x := math.Ceil(from/step) * step; x <= to+1e-9; x += step {
		word := easeIn(x, u)
		if len(v.Ticks) == 0 {
			word += " " + smallUnit(u)
		}
		v.Ticks = append(v.Ticks, panel.GaugeTick{At: x, Word: word})
	}
	return v
}

// refitsOf is what of a link's follower can give way: nothing, the present way,
// and every way that moves nothing that has to stay.
func refitsOf(p model.Pattern, r grading.Result, l model.Link) []model.Refit {
	var out []model.Refit
	i := p.PieceIndex(l.Follow.Piece)
	for _, way := range model.Refits {
		if way != model.NoRefit && way != l.Refit {
			if i < 0 {
				continue
			}
			if _, err := link.WayOf(way, p.Pieces[i], r.Pieces[i].Edges, l.Follow, nil); err != nil {
				continue
			}
		}
		out = append(out, way)
	}
	return out
}

// giveChoices is what of a link's follower can give way, in words, and what
// does.
func giveChoices(p model.Pattern, r grading.Result, l model.Link) ([]string, int) {
	refits := refitsOf(p, r, l)
	from, to := endName(p, l.Follow, scene.From), endName(p, l.Follow, scene.To)
	names := map[model.Refit]string{
		model.NoRefit:     words.T("Nothing"),
		model.CapHeight:   words.T("Cap height"),
		model.CapWidth:    words.T("Cap width"),
		model.CapBoth:     words.T("Both, as in print"),
		model.StartAcross: words.F("%s, across the grain", capital(from)),
		model.StartAlong:  words.F("%s, along the grain", capital(from)),
		model.EndAcross:   words.F("%s, across the grain", capital(to)),
		model.EndAlong:    words.F("%s, along the grain", capital(to)),
		model.WholePiece:  words.T("The whole piece"),
	}
	out := make([]string, len(refits))
	for k, way := range refits {
		out[k] = names[way]
	}
	return out, max(slices.Index(refits, l.Refit), 0)
}

// gaveSay is by how much the follower gave way: "Cap 4 mm lower."
func gaveSay(l model.Link, s grading.Seam, u model.Unit) string {
	by := easeOf(math.Abs(s.Gave), u)
	if easeIn(math.Abs(s.Gave), u) == easeIn(0, u) {
		return words.T("It need not give way.")
	}
	more := s.Gave > 0
	switch {
	case l.Refit == model.CapHeight && more:
		return words.F("The cap is %s higher.", by)
	case l.Refit == model.CapHeight:
		return words.F("The cap is %s lower.", by)
	case l.Refit == model.CapWidth && more:
		return words.F("The cap is %s wider.", by)
	case l.Refit == model.CapWidth:
		return words.F("The cap is %s narrower.", by)
	case l.Refit == model.CapBoth && more:
		return words.F("The cap is %s larger, in height and width as in print.", by)
	case l.Refit == model.CapBoth:
		return words.F("The cap is %s smaller, in height and width as in print.", by)
	case l.Refit == model.WholePiece && more:
		return words.F("The piece is %s longer.", by)
	case l.Refit == model.WholePiece:
		return words.F("The piece is %s shorter.", by)
	}
	return words.F("It gives way by %s.", by)
}

// linkedLine is the folded Links panel in one line.
func linkedLine(p model.Pattern, r grading.Result) (string, bool) {
	if n := seamsOff(p, r); n > 0 {
		return words.F("%d to look at", n), true
	}
	if len(p.Links) == 0 {
		return words.T("none yet"), false
	}
	return count(len(p.Links), "link"), false
}
