package straight

import (
	"quarterstep/assets/words"
	"quarterstep/model/measure"
)

// Misfit is how far the places a Map went by lie from where it takes them.
type Misfit struct {
	RMS, Worst float64 // mm
	Points     int
	// Exact says that there were no more places than needed, which agree always:
	// the misfit tells nothing.
	Exact bool
}

// A traced line is wanted within half a millimetre; a place off by more than
// one and a half shows in the seam.
const (
	goodWorst = 0.6
	fairWorst = 1.5
)

// Say is what the misfit means to the sewist, in the unit her pattern is shown
// in; small amounts are in mm also where it is shown in inches, as no ruler has
// them.
func (m Misfit) Say(measure.Unit) string {
	switch {
	case m.Exact:
		return words.T("Four places always agree: measure one more distance to be sure.")
	case m.Worst <= goodWorst:
		return words.F("They agree to within %s mm, good enough to trace.", words.Figure(max(m.Worst, 0.1), 1))
	case m.Worst <= fairWorst:
		return words.F("They agree to within %s mm: you can trace it, but a flatter photo would do better.", words.Figure(m.Worst, 1))
	}
	return words.F("Off by up to %s mm: take it again, flatter.", words.Figure(m.Worst, 1))
}
