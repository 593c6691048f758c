package trace

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// followed is the printed line between two places: beside the guides, or on the
// rim of the nest as long as no size is traced, as one is told to begin with the
// outermost; by itself where no line leads there so. What leaves anything to
// doubt beside guides that lie sizes away is held against the rim and the line by
// itself, and beside a straight edge against the straight line. Where all go a
// long way round, it is the guide carried along, with a doubt that says so.
func followed(f *follow.Field, from, to geom.Point, via []geom.Point, guides []geom.Path, rim bool) (follow.Edge, error) {
	best, err := f.Follow(from, to, via, follow.Options{Guides: guides, Rim: rim})
	if err == nil && len(best.Doubts) == 0 {
		return best, nil
	}
	switch {
	case err != nil && len(guides) > 0:
		best, err = f.Follow(from, to, via, follow.Options{})
	case len(guides) > 0 && farFrom(guides, from, to):
		best = surer(f, best, from, to, via)
	}
	if len(via) > 0 {
		return best, err
	}
	if line, ok := printedStraight(f, from, to, guides); ok && (err != nil || strays(best.Path, line.Path)) {
		return line, nil
	}
	if err == nil && len(guides) > 0 && longWay(best.Path, guides[0], from, to) {
		return carried(guides[0], from, to), nil
	}
	return best, err
}

// farFrom reports that the corners of all guides lie so far away that there are
// sizes between, and that they may run otherwise: as the largest does when the
// smallest is traced after it.
func farFrom(guides []geom.Path, from, to geom.Point) bool {
	const far = 12 // mm
	return !slices.ContainsFunc(guides, func(g geom.Path) bool { return g.Start().Dist(from) < far && g.End().Dist(to) < far })
}

// surer is a line that leaves something to doubt, or one that leaves nothing: on
// the nest's rim, or by itself, with a doubt that says how far off the other is.
func surer(f *follow.Field, doubtful follow.Edge, from, to geom.Point, via []geom.Point) follow.Edge {
	for _, o := range []follow.Options{{Rim: true}, {}} {
		e, err := f.Follow(from, to, via, o)
		if err != nil || len(e.Doubts) > 0 {
			continue
		}
		const beside, tol = 0.6, 0.05 // mm
		var at geom.Point
		var most float64
		for _, p := range e.Path.Flatten(tol) {
			if d := off(doubtful.Path, p); d > most {
				at, most = p, d
			}
		}
		if most > beside {
			e.Doubts = []follow.Doubt{{At: at, Say: words.F("If this size is neither the outermost nor the innermost here, the line %.0f mm away may be meant.", most)}}
		}
		return e
	}
	return doubtful
}

// printedStraight is the straight line between two places, where the size beside
// it is straight and print lies along it.
func printedStraight(f *follow.Field, from, to geom.Point, guides []geom.Path) (follow.Edge, bool) {
	if len(guides) == 0 || strays(guides[0], geom.Polyline(guides[0].Start(), guides[0].End())) {
		return follow.Edge{}, false
	}
	e, err := f.Follow(from, to, nil, follow.Options{Straight: true})
	return e, err == nil && len(e.Doubts) == 0
}

// strays reports that a line leaves the straight one by more than a printed
// straight line can: it is another one there.
func strays(e, straight geom.Path) bool {
	const beside, tol = 0.6, 0.05 // mm
	for _, at := range e.Flatten(tol) {
		if off(straight, at) > beside {
			return true
		}
	}
	return false
}

// longWay reports that a line is far longer than the one beside it, carried to
// its ends.
func longWay(e, guide geom.Path, from, to geom.Point) bool {
	const longer, tol = 1.3, 0.05 // times
	got, err := e.Length(tol)
	want, errGuide := carried(guide, from, to).Path.Length(tol)
	return err == nil && errGuide == nil && got > longer*want
}

// carried is a guide carried along with its ends.
func carried(guide geom.Path, from, to geom.Point) follow.Edge {
	const tol = 0.01
	path := guide.CarryEnds(from.Sub(guide.Start()), to.Sub(guide.End()), tol)
	return follow.Edge{Path: path, Points: []geom.Point{from, to}, Doubts: []follow.Doubt{{
		At: from.Lerp(to, 0.5), Say: words.T("The printed line is lost here, so this edge is that of the size beside it."),
	}}}
}
