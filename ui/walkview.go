package ui

import (
	"fmt"
	"math"
	"strings"

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
	return measure.Format(mm, measure.WholeMM) + " mm"
}

// walkView is the seam walk of link l.
func walkView(p model.Pattern, l model.Link, w seam.Walk) panel.WalkView {
	u := p.Unit
	lead, follow := leadName(p, l), followName(p, l)
	v := panel.WalkView{
		Word: "ease", Ease: easeOf(w.Ease, u),
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
		return "as wanted", false
	}
	word := "more"
	if off < 0 {
		word = "less"
	}
	return fmt.Sprintf("%s %s than wanted", easeOf(math.Abs(off), p.Unit), word), true
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
			name = "notch"
			if meets && several {
				name = shortName(p, w.Link, lead.Piece) + " notch"
			}
		} else if name == "" || meets && lead.Kind == seam.Join && lead.Name != "" {
			name = lead.Name
		}
		out[i] = strings.ToLower(name)
		count[out[i]]++
	}
	for i, m := range w.Follow.Marks {
		if m.Kind == seam.Notch && m.Double && count[out[i]] > 1 {
			out[i] = "double " + out[i]
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
	say := fmt.Sprintf("The %s laid along the %s", follow, lead)
	if n := len(names); n > 1 && names[0] != "" && names[n-1] != "" {
		say += fmt.Sprintf(", %s to %s", names[0], names[n-1])
	}
	if meet >= 0 {
		if at := nameAt(w, names, w.Parts[meet].From.Follow.At); at != "" {
			say += ", both meeting at the " + at
		}
	}
	return say
}

// mostSay says where most of what is off sits, else that marks meet.
func mostSay(w seam.Walk, names []string, worst int, look bool) string {
	if worst < 0 {
		if len(w.Parts) > 1 {
			return "The marks meet as in print."
		}
		return ""
	}
	k := w.Parts[worst]
	from, to := nameAt(w, names, k.From.Follow.At), nameAt(w, names, k.To.Follow.At)
	what := "Most of the extra"
	switch {
	case k.Over() < 0 && look:
		what = "Most of what is missing"
	case k.Over() < 0:
		what = "What is missing"
	case !look:
		what = "What is over"
	}
	if len(w.Parts) == 1 || from == "" || to == "" {
		return ""
	}
	return fmt.Sprintf("%s sits between the %s and the %s.", what, from, to)
}
