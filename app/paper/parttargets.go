package paper

import (
	"image"

	"quarterstep/assets/words"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

// part is one strip or card of which enough is seen to go by.
type part struct {
	set   target.Set
	n     int  // from 0
	sheet bool // all of the set, uncut
	group straight.Group
}

func (p part) String() string {
	if p.set == target.Corners {
		return words.F("card %d", p.n+1)
	}
	return words.F("strip %d", p.n+1)
}

// partsOf are the strips and cards of which enough is seen.
func partsOf(all []seen) []part {
	var out []part
	for _, set := range []target.Set{target.Strips, target.Corners} {
		for n := range target.Parts {
			p := part{set: set, n: n}
			for _, t := range all {
				if t.Set == set && t.Part == n {
					p.group = append(p.group, straight.Pair{Pixel: t.px, MM: t.On})
				}
			}
			if len(p.group) >= leastOnPart {
				out = append(out, p)
			}
		}
	}
	return out
}

// flatParts straightens by the parts. Where they do not agree, and all but one
// do, that one is left out: it is bent, or lies over something.
func flatParts(parts []part, size image.Point, shot straight.Shot) (straight.Placed, *part, error) {
	by := func(without int) (straight.Placed, error) {
		var groups []straight.Group
		for i, p := range parts {
			if i != without {
				groups = append(groups, p.group)
			}
		}
		return straight.FromGroups(groups, nil, size, shot, targetNoise)
	}
	f, err := by(-1)
	if err == nil && f.Misfit.Worst <= goodOff || len(parts) < 3 {
		return f, nil, err
	}
	best, bent := f, (*part)(nil)
	for i := range parts {
		g, bad := by(i)
		if bad == nil && g.Misfit.Worst <= goodOff && (bent == nil || g.Misfit.RMS < best.Misfit.RMS) {
			best, bent = g, &parts[i]
		}
	}
	if bent != nil {
		err = nil
	}
	return best, bent, err
}
