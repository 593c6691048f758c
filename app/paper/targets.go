package paper

import (
	"context"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
)

// Targets are our own printed ones, found by themselves: no clicks.
const Targets Reference = "targets"

// Layout is how the targets of a photo lie.
type Layout string

// The layouts. NoTargets is the zero Layout.
const (
	NoTargets Layout = ""
	Strips    Layout = "strips"  // strips cut apart, laid anywhere round the piece
	Corners   Layout = "corners" // numbered cards cut apart, laid anywhere round the piece
	Sheet     Layout = "page"    // a whole sheet of either, uncut, beside the piece
)

// Sighting is what targets a photo shows.
type Sighting struct {
	Found  []target.Found
	Layout Layout
	// Missing are the strips or cards that are not seen well enough to go by,
	// counted from 1 as they are printed; of a whole sheet none is missing.
	Missing []int
	// Middles are where the middles of the cards 1 to 4 lie in the photo, from
	// which is measured; the zero Point for one not found.
	Middles [target.Parts]geom.Point
}

// FindTargets finds our own targets in a photo. It is no error that there are
// none.
func (p *Photo) FindTargets(ctx context.Context) (Sighting, error) {
	full, done, err := p.hold(false)
	if err != nil {
		return Sighting{}, err
	}
	defer done()
	found, err := target.Find(ctx, full.Gray)
	if err != nil {
		return Sighting{}, err
	}
	return p.sight(found), nil
}

// seen is a target found and where it is printed.
type seen struct {
	target.Spot
	code int
	px   geom.Point
}

// sight tells how the targets found lie.
func (p *Photo) sight(found []target.Found) Sighting {
	s := Sighting{Found: found}
	all := printed(found)
	if len(all) == 0 {
		return s
	}
	set := foremost(all)
	for _, t := range all {
		if t.Middle() {
			s.Middles[t.Part] = t.px
		}
	}
	switch {
	case p.isSheet(all):
		s.Layout = Sheet
		return s
	case set == target.Corners:
		s.Layout = Corners
	default:
		s.Layout = Strips
	}
	count := countParts(all, set)
	for i, n := range count {
		if n < leastOnPart && !(n == 1 && middlesOnly(all)) {
			s.Missing = append(s.Missing, i+1)
		}
	}
	return s
}

// leastOnPart are needed for a part to say anything.
const leastOnPart = 2

// printed are the targets found that a set has. One that is seen twice is left
// out: which is whose cannot be told.
func printed(found []target.Found) []seen {
	times := map[int]int{}
	for _, f := range found {
		times[f.Code]++
	}
	var out []seen
	for _, f := range found {
		if s, ok := target.SpotOf(f.Code); ok && times[f.Code] == 1 {
			out = append(out, seen{s, f.Code, f.Centre})
		}
	}
	return out
}

// twice are the parts of which targets are seen twice, counted from 1, as those
// of a set printed and laid twice.
func twice(found []target.Found) []int {
	times, told := map[int]int{}, map[int]bool{}
	var out []int
	for _, f := range found {
		times[f.Code]++
		if s, ok := target.SpotOf(f.Code); ok && times[f.Code] == 2 && !told[s.Part] {
			told[s.Part] = true
			out = append(out, s.Part+1)
		}
	}
	return out
}

// foremost is the set that most of the targets are of.
func foremost(all []seen) target.Set {
	n := 0
	for _, t := range all {
		if t.Set == target.Corners {
			n++
		}
	}
	if 2*n > len(all) {
		return target.Corners
	}
	return target.Strips
}

func countParts(all []seen, set target.Set) (count [target.Parts]int) {
	for _, t := range all {
		if t.Set == set {
			count[t.Part]++
		}
	}
	return count
}

// middlesOnly reports that nothing but middles of cards is seen.
func middlesOnly(all []seen) bool {
	for _, t := range all {
		if !t.Middle() {
			return false
		}
	}
	return len(all) > 0
}

// A sheet that lies uncut shows leastOnSheet targets at least, on two of its
// parts, where they were printed to sheetOff mm: cut apart and laid round a
// piece they are off by centimetres.
const (
	leastOnSheet = 6
	sheetOff     = 0.6
)

// isSheet reports that the targets lie as they were printed on one sheet.
func (p *Photo) isSheet(all []seen) bool {
	parts := 0
	for _, n := range countParts(all, all[0].Set) {
		if n > 0 {
			parts++
		}
	}
	if len(all) < leastOnSheet || parts < 2 {
		return false
	}
	g, one := onSheet(all)
	if !one {
		return false
	}
	r, err := straight.FromGroups([]straight.Group{g}, nil, p.Picture.Size(), straight.Shot{Focal35: p.Picture.Focal35}, targetNoise)
	return err == nil && r.Misfit.RMS <= sheetOff
}

// onSheet is all targets as one group, where they are printed on their sheet;
// false where they are of two sheets.
func onSheet(all []seen) (straight.Group, bool) {
	var g straight.Group
	for _, t := range all {
		if t.Set != all[0].Set {
			return nil, false
		}
		g = append(g, straight.Pair{Pixel: t.px, MM: t.Sheet})
	}
	return g, true
}
