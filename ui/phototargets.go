package ui

import (
	"math"
	"slices"
	"strings"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/target"
	"quarterstep/ui/scene"
)

// sawTargets takes what targets a photo shows; where there are enough it is made
// flat by them at once.
func (w *Window) sawTargets(ph *photo, seen paper.Sighting) {
	ph.seen = seen
	if seen.Layout == paper.NoTargets || len(ph.clicks) > 0 {
		return
	}
	ph.ask.Reference = paper.Targets
	w.straightenIfReady(ph)
}

// distancesAsked reports whether distances between targets can be typed: between
// the cards, or between four targets laid one by one.
func distancesAsked(s paper.Sighting) bool { return s.Layout == paper.Corners || distancesNeeded(s) }

// distancesNeeded reports whether the targets say nothing without their
// distances: four of them that lie one by one.
func distancesNeeded(s paper.Sighting) bool {
	return s.Layout != paper.NoTargets && s.Layout != paper.Sheet && len(s.Found) == target.Parts
}

// typedApart takes the distance between two targets; no words take it back.
func (w *Window) typedApart(ph *photo, i int, text string) error {
	mm := 0.0
	if strings.TrimSpace(text) != "" {
		l, err := measure.Parse(text, longBare(w.doc.Pattern().Unit))
		if err != nil {
			return err
		}
		if mm = l.MM(); mm < 50 {
			return words.Error("the targets lie farther apart than that, from middle to middle")
		}
	}
	if mm != ph.ask.Apart[i] {
		ph.ask.Apart[i] = mm
		w.straightenIfReady(ph)
	}
	w.refresh()
	return nil
}

// longUnit is the unit of lengths of some tens of centimetres.
func longUnit(u model.Unit) string {
	if u == model.Inches {
		return words.C("inches", "in")
	}
	return words.T("cm")
}

// longBare is the unit meant where such a length is typed without one.
func longBare(u model.Unit) measure.Unit {
	if u == model.Inches {
		return measure.Inches
	}
	return measure.Centimetres
}

func bareLong(mm float64, u model.Unit) string {
	switch {
	case mm == 0:
		return ""
	case u == model.Inches:
		return amount(mm, u)
	}
	return words.Figure(mm/10, 1)
}

// targetTitle names what lies in the photo, and says how much of it was found.
func targetTitle(s paper.Sighting) (title, found string, chips []bool) {
	title = words.T("Corner targets")
	switch {
	case s.Layout == paper.NoTargets:
		return words.T("Printed targets"), words.T("none found"), nil
	case s.Layout == paper.Sheet:
		return words.T("Sheet of targets"), words.F("%s found", count(len(s.Found), "target")), nil
	case s.Layout == paper.Strips && !distancesNeeded(s):
		title = words.T("Target strips")
	}
	if distancesNeeded(s) {
		chips = []bool{true, true, true, true}
	} else {
		for i := range target.Parts {
			chips = append(chips, !slices.Contains(s.Missing, i+1))
		}
	}
	n := 0
	for _, ok := range chips {
		if ok {
			n++
		}
	}
	return title, words.F("%d of %d found", n, len(chips)), chips
}

// targetTrace frames the targets found, and joins those of one strip, or the
// middles of the cards in their turn. The numbers stand outwards.
func targetTrace(ph *photo) *scene.Trace {
	t := &scene.Trace{}
	if ph.ask.Reference != paper.Targets {
		return t
	}
	found := slices.Clone(ph.seen.Found)
	slices.SortFunc(found, func(a, b target.Found) int { return a.Code - b.Code })
	singly := distancesNeeded(ph.seen)
	var strips [target.Parts][]geom.Point
	var on [target.Parts][]int // places in t.Targets of those on each strip
	var ring, places []geom.Point
	for i, f := range found {
		spot, ok := target.SpotOf(f.Code)
		at := ph.onTable(f.Centre)
		places = append(places, at)
		k := scene.TraceTarget{At: at, Half: 1.5 * f.Size / ph.perMM()}
		switch {
		case singly:
			k.Number, ring = i+1, append(ring, at)
		case !ok:
		case spot.Middle():
			k.Number, ring = spot.Part+1, append(ring, at)
			k.Half = cardHalf(ph, found, spot.Part, at)
		case spot.Set == target.Corners && ph.seen.Middles[spot.Part] != (geom.Point{}):
			continue // within the frame of its card
		case spot.Set == target.Strips:
			strips[spot.Part] = append(strips[spot.Part], at)
			on[spot.Part] = append(on[spot.Part], len(t.Targets))
		}
		t.Targets = append(t.Targets, k)
	}
	for i, k := range on {
		if len(k) > 0 {
			t.Targets[k[len(k)/2]].Number = i + 1
		}
	}
	mid := geom.BoxOf(places...).Centre()
	for i := range t.Targets {
		t.Targets[i].Side = t.Targets[i].At.Sub(mid)
	}
	if len(ring) > 2 {
		ring = append(ring, ring[0])
	}
	for _, line := range append(strips[:], ring) {
		if len(line) > 1 {
			t.Frame = append(t.Frame, geom.Polyline(line...))
		}
	}
	return t
}

// cardHalf is half the side, on the Table, of the frame round a card whose middle
// lies at a place: round all of its targets that were found.
func cardHalf(ph *photo, found []target.Found, part int, mid geom.Point) float64 {
	half := 0.0
	for _, f := range found {
		if spot, ok := target.SpotOf(f.Code); ok && spot.Set == target.Corners && spot.Part == part {
			d := ph.onTable(f.Centre).Sub(mid)
			half = max(half, math.Abs(d.X)+1.5*f.Size/ph.perMM(), math.Abs(d.Y)+1.5*f.Size/ph.perMM())
		}
	}
	return half
}
