package paper

import (
	"context"
	"fmt"
	"math"
	"strings"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
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
	Cards     Layout = "corners" // numbered cards cut apart, one at each corner
	Sheet     Layout = "page"    // a whole sheet of either, uncut, beside the piece
)

// Sighting is what targets a photo shows.
type Sighting struct {
	Found  []target.Found
	Layout Layout
	// Missing are the strips or cards that are not seen well enough to go by,
	// counted from 1 as they are printed.
	Missing []int
	// Corners are where the middles of the cards 1 to 4 lie in the photo; the
	// zero Point for one not found, and where the layout is another.
	Corners [target.Parts]geom.Point
}

// FindTargets finds our own targets in a photo. It is no error that there are
// none; the only one is that ctx ended.
func (p *Photo) FindTargets(ctx context.Context) (Sighting, error) {
	found, err := target.Find(ctx, p.Picture.Gray)
	if err != nil {
		return Sighting{}, err
	}
	return sight(found), nil
}

// seen is a target found with where it is printed.
type seen struct {
	target.Spot
	px geom.Point
}

// sight sorts out what targets found mean.
func sight(found []target.Found) Sighting {
	s := Sighting{Found: found}
	all := printed(found)
	if len(all) == 0 {
		return s
	}
	set, parts := foremost(all)
	s.Layout = Strips
	if set == target.Corners {
		s.Layout = Cards
	}
	if len(all) >= leastOnSheet && asSheet(all) {
		s.Layout = Sheet
	}
	for i, n := range parts {
		if n < leastOnPart && (s.Layout != Cards || n == 0 || len(all) > target.Parts) {
			s.Missing = append(s.Missing, i+1)
		}
	}
	if s.Layout == Cards {
		for _, t := range all {
			if t.Middle() {
				s.Corners[t.Part] = t.px
			}
		}
	}
	return s
}
