package ui

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading/check"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// easeIn is a small length without its unit: to 1/16 in, or half a millimetre.
func easeIn(mm float64, u model.Unit) string {
	if u == model.Inches {
		return measure.Format(mm, measure.Sixteenths)
	}
	return measure.Format(mm, measure.HalfMM)
}

func easeOf(mm float64, u model.Unit) string { return easeIn(mm, u) + " " + smallUnit(u) }

// long is the length of a seam: to 1/16 in, or a whole millimetre.
func long(mm float64, u model.Unit) string {
	if u == model.Inches {
		return easeOf(mm, u)
	}
	return measure.Format(mm, measure.WholeMM) + " " + smallUnit(u)
}

// walkView is the seam walk of link l.
func walkView(p model.Pattern, l model.Link, w seam.Walk) panel.WalkView {
	u := p.Unit
	lead, follow := leadName(p, l), followName(p, l)
	v := panel.WalkView{
		Word: words.C("of a seam", "ease"), Ease: easeOf(w.Ease, u),
		Lead:   panel.WalkSide{Name: capital(lead), Length: long(w.Lead.Length, u), Long: w.Lead.Length},
		Follow: panel.WalkSide{Name: capital(follow), Length: long(w.Follow.Length, u), Long: w.Follow.Length},
	}
	v.EaseSay, v.Look = easeSay(p, w.Ease, w.Wanted)
	names := markNames(p, w)
	for i, m := range w.Follow.Marks {
		v.Follow.Marks = append(v.Follow.Marks, panel.WalkMark{At: m.At, Name: names[i], Notch: m.Kind == seam.Notch, Double: m.Double})
	}
	for _, m := range w.Lead.Marks {
		v.Lead.Marks = append(v.Lead.Marks, panel.WalkMark{At: m.At, Notch: m.Kind == seam.Notch, Double: m.Double})
	}
	worst := worstPart(p, w)
	for i, k := range w.Parts {
		short := easeIn(k.Surplus(), u)
		if short != "0" && k.Surplus() > 0 {
			short = "+" + short
		}
		v.Parts = append(v.Parts, panel.WalkPart{
			Lead: [2]float64{k.From.Lead.At, k.To.Lead.At}, Follow: [2]float64{k.From.Follow.At, k.To.Follow.At},
			Figure: short + " " + smallUnit(u), Short: short, Look: i == worst,
		})
	}
	meet := meetIn(w)
	if meet >= 0 {
		v.MeetLead, v.MeetFollow = w.Parts[meet].From.Lead.At, w.Parts[meet].From.Follow.At
	}
	v.Say = walkSay(w, names, lead, follow, meet)
	v.Most = mostSay(w, names, worst, v.Look)
	return v
}

// easeSay says how an ease stands to what is wanted, and whether to look at it.
func easeSay(p model.Pattern, ease float64, wanted seam.Range) (string, bool) {
	off := ease - wanted.Hold(ease)
	if math.Abs(off) <= check.LimitOf(p, check.LimitSeams) {
		return words.T("as wanted"), false
	}
	if off < 0 {
		return words.F("%s less than wanted", easeOf(-off, p.Unit)), true
	}
	return words.F("%s more than wanted", easeOf(off, p.Unit)), true
}

// worstPart is the part furthest off what it should have, -1 where none is off
// by more than a seam may be.
func worstPart(p model.Pattern, w seam.Walk) int {
	worst, most := -1, check.LimitOf(p, check.LimitSeams)
	for i, k := range w.Parts {
		if off := math.Abs(k.Over()); off > most {
			worst, most = i, off
		}
	}
	return worst
}

// meetIn is the part before which the two sides are drawn meeting: where the
// leader's pieces join, else in the middle of the parts; -1 at their start.
func meetIn(w seam.Walk) int {
	for i, k := range w.Parts {
		if i > 0 && k.From.Lead.Kind == seam.Join {
			return i
		}
	}
	if len(w.Parts) < 2 {
		return -1
	}
	return len(w.Parts) / 2
}

// markNames names the follower's marks: a corner by its grade point or by the
// leader's that it meets; a notch by the piece it meets.
func markNames(p model.Pattern, w seam.Walk) []string {
	met := map[float64]seam.Mark{} // the leader's mark, by the follower's place
	for _, k := range w.Parts {
		met[k.From.Follow.At], met[k.To.Follow.At] = k.From.Lead, k.To.Lead
	}
	several := len(w.Link.And) > 0
	out := make([]string, len(w.Follow.Marks))
	count := map[string]int{}
	for i, m := range w.Follow.Marks {
		lead, meets := met[m.At]
		name := m.Name
		if m.Kind == seam.Notch {
			name = words.T("notch")
			if meets && several {
				name = words.F("%s notch", shortName(p, w.Link, lead.Piece))
			}
		} else if name == "" || meets && lead.Kind == seam.Join && lead.Name != "" {
			name = lead.Name
		}
		out[i] = words.Small(name)
		count[out[i]]++
	}
	for i, m := range w.Follow.Marks {
		if m.Kind == seam.Notch && m.Double && count[out[i]] > 1 {
			out[i] = words.F("double %s", out[i])
		}
	}
	return out
}

// nameAt is the name of the follower's mark at a place.
func nameAt(w seam.Walk, names []string, at float64) string {
	for i, m := range w.Follow.Marks {
		if m.At == at {
			return names[i]
		}
	}
	return ""
}

// walkSay is what the walk shows, in a sentence.
func walkSay(w seam.Walk, names []string, lead, follow string, meet int) string {
	say := words.F("The %s laid along the %s", follow, lead)
	if n := len(names); n > 1 && names[0] != "" && names[n-1] != "" {
		say = words.F("%s, %s to %s", say, names[0], names[n-1])
	}
	if meet >= 0 {
		if at := nameAt(w, names, w.Parts[meet].From.Follow.At); at != "" {
			say = words.F("%s, both meeting at the %s", say, at)
		}
	}
	return say
}

// mostSay says where most of what is off sits, else that marks meet.
func mostSay(w seam.Walk, names []string, worst int, look bool) string {
	if worst < 0 {
		if len(w.Parts) > 1 {
			return words.T("The marks meet as in print.")
		}
		return ""
	}
	k := w.Parts[worst]
	from, to := nameAt(w, names, k.From.Follow.At), nameAt(w, names, k.To.Follow.At)
	switch {
	case len(w.Parts) == 1 || from == "" || to == "":
		return ""
	case k.Over() < 0 && look:
		return words.F("Most of what is missing sits between the %s and the %s.", from, to)
	case k.Over() < 0:
		return words.F("What is missing sits between the %s and the %s.", from, to)
	case !look:
		return words.F("What is over sits between the %s and the %s.", from, to)
	}
	return words.F("Most of the extra sits between the %s and the %s.", from, to)
}
