package edit

import (
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// StyleKind names a style change in the sewist's words.
type StyleKind string

// The style changes. Each moves grade points, found by their names, on every
// piece that has them, front and back alike:
//
//   - the shoulder tip along the shoulder;
//   - the neck point along the shoulder;
//   - the centre of the neckline along the centre line;
//   - the underarm along the side seam, on a sleeve along the sleeve seam, so
//     that armhole and sleeve cap deepen together (common practice).
//
// words: none
const (
	NarrowerShoulder StyleKind = "Narrower shoulder"
	WiderShoulder    StyleKind = "Wider shoulder"
	WiderNeckline    StyleKind = "Wider neckline"
	DeeperNeckline   StyleKind = "Deeper neckline"
	LowerUnderarm    StyleKind = "Lower underarm and sleeve seam"
	HigherUnderarm   StyleKind = "Higher underarm and sleeve seam"
)

// Styles lists the style changes in the order they are offered.
var Styles = []StyleKind{NarrowerShoulder, WiderShoulder, WiderNeckline, DeeperNeckline, LowerUnderarm, HigherUnderarm}

// styleMove says which points a style change moves, and which way.
type styleMove struct {
	points []string
	// way is the unit direction at point k of a piece along one of its edges,
	// and how far in mm the point may go; false where the piece does not tell.
	way func(q model.Piece, line []geom.Path, k int) (geom.Vec, float64, bool)
}

var styleMoves = map[StyleKind]styleMove{
	NarrowerShoulder: {tips, towards(neckPoints)},
	WiderShoulder:    {tips, back(towards(neckPoints))},
	WiderNeckline:    {neckPoints, towards(shoulderEnds)},
	DeeperNeckline:   {necklineCentres, alongCentre},
	LowerUnderarm:    {underarms, awayFrom(armholeEnds)},
	HigherUnderarm:   {underarms, back(awayFrom(armholeEnds))},
}

// The names of grade points, as pieces brought in are given them and as drafts
// have them, as package glossary says them.
//
// words: none
var (
	tips            = []string{"shoulder tip"}
	neckPoints      = []string{"neck point"}
	shoulderEnds    = []string{"shoulder tip", "shoulder end", "outer shoulder"}
	necklineCentres = []string{"centre neck", "centre front neck", "centre back neck", "front edge neck", "foot of the v"}
	underarms       = []string{"underarm", "front underarm", "back underarm", "left underarm", "right underarm"}
	armholeEnds     = []string{"shoulder tip", "crown"}
)

// Style makes a style change over the whole pattern by so many mm, above 0, on
// top of what the same change did before; r is the pattern as graded. Stretches
// that follow another piece's line are left to follow it. It is an error where no
// piece has the points, one of them is locked, or there is not that much room.
func Style(kind StyleKind, by float64, r grading.Result) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		style, ok := styleMoves[kind]
		if !ok || !(by > 0) || math.IsInf(by, 0) {
			return p, words.Error("choose a style change and an amount above 0")
		}
		out, found := p, false
		for i, q := range p.Pieces {
			follows := following(p, q, r)
			for k, g := range q.Points {
				if !named(g, style.points) || follows[k] {
					continue
				}
				v, err := style.move(q, r, k, by)
				if err != nil {
					return p, err
				}
				found = true
				add := model.PointMove{Point: g.ID, By: v, Style: string(kind)}
				out = out.WithPiece(i, func(o model.Piece) model.Piece {
					o.Hand.Moves = addMove(o.Hand.Moves, add)
					return o
				})
			}
		}
		if !found {
			return p, words.Errorf("no piece has a grade point named %s; name it, or move the points by hand", style.pointName())
		}
		return out, nil
	}
}

// pointName is the usual name of the points, in the language in use.
func (s styleMove) pointName() string {
	switch s.points[0] {
	case tips[0]:
		return words.T("shoulder tip")
	case neckPoints[0]:
		return words.T("neck point")
	case necklineCentres[0]:
		return words.T("centre neck")
	}
	return words.T("underarm")
}

// move is how far point k of q goes.
func (s styleMove) move(q model.Piece, r grading.Result, k int, by float64) (geom.Vec, error) {
	line, err := gradedEdges(q, r)
	if err != nil {
		return geom.Vec{}, err
	}
	if q.Points[k].Locked {
		return geom.Vec{}, words.Errorf("%s of %s is locked", pointName(q, k), q.Name)
	}
	dir, room, ok := s.way(q, line, k)
	switch {
	case !ok:
		return geom.Vec{}, words.Errorf("%s: the line does not tell which way %s goes; move it by hand", q.Name, pointName(q, k))
	case by >= room:
		return geom.Vec{}, words.Errorf("%s of %s has less room than that before the next grade point", pointName(q, k), q.Name)
	}
	return dir.Scale(by), nil
}

// named reports that a grade point has one of the names, or one of them
// numbered.
func named(g model.GradePoint, names []string) bool {
	return slices.Contains(names, strings.TrimRight(glossary.English(g.Name), " 0123456789"))
}

// following marks the grade points of q that lie on a stretch which follows
// another piece's line, in links that r keeps.
func following(p model.Pattern, q model.Piece, r grading.Result) map[int]bool {
	out := map[int]bool{}
	for _, l := range p.Links {
		broken := slices.ContainsFunc(r.Unlinked, func(u grading.Unlinked) bool { return u.Link == l.ID })
		if l.Kind != model.SameLine || l.Follow.Piece != q.ID || broken {
			continue
		}
		for _, e := range l.Follow.Edges {
			if j := q.EdgeIndex(e); j >= 0 {
				out[j], out[(j+1)%len(q.Points)] = true, true
			}
		}
	}
	return out
}

type wayOf = func(model.Piece, []geom.Path, int) (geom.Vec, float64, bool)

// towards is the way along the edge on that side of a point on which one of the
// named points is reached first, walking the outline.
func towards(names []string) wayOf {
	return func(q model.Piece, line []geom.Path, k int) (geom.Vec, float64, bool) {
		ahead, ok := reachedAhead(q, k, names)
		dir, room := side(line, k, ahead)
		return dir, room, ok
	}
}

// awayFrom is the way along the edge on the other side.
func awayFrom(names []string) wayOf {
	return func(q model.Piece, line []geom.Path, k int) (geom.Vec, float64, bool) {
		ahead, ok := reachedAhead(q, k, names)
		dir, room := side(line, k, !ahead)
		return dir, room, ok
	}
}

// back is the way straight back, with any amount of room.
func back(way wayOf) wayOf {
	return func(q model.Piece, line []geom.Path, k int) (geom.Vec, float64, bool) {
		dir, _, ok := way(q, line, k)
		return dir.Scale(-1), math.Inf(1), ok
	}
}

// alongCentre is the way along the piece's fold or centre line, else along the
// grain, away from the neck point.
func alongCentre(q model.Piece, line []geom.Path, k int) (geom.Vec, float64, bool) {
	dir, room := q.GrainDir(), math.Inf(1)
	for j, e := range q.Edges {
		if e.Kind == model.Fold || e.Kind == model.Centre {
			dir, room = line[j].End().Sub(line[j].Start()).Unit(), line[j].Start().Dist(line[j].End())
		}
	}
	neck := slices.IndexFunc(q.Points, func(g model.GradePoint) bool { return named(g, neckPoints) })
	if neck >= 0 && line[k].Start().Sub(line[neck].Start()).Dot(dir) < 0 {
		dir = dir.Scale(-1)
	}
	return dir, room, neck >= 0 && !dir.IsZero()
}

// reachedAhead reports whether one of the named points is met sooner walking the
// outline on from point k than walking it back; not ok where none is, or both
// ways are as far.
func reachedAhead(q model.Piece, k int, names []string) (ahead, ok bool) {
	n := len(q.Points)
	for step := 1; step < n; step++ {
		on, backward := named(q.Points[(k+step)%n], names), named(q.Points[(k+n-step)%n], names)
		if on || backward {
			return on, on != backward
		}
	}
	return false, false
}

// side is the direction in which the line leaves point k, on or back, and how
// far the next grade point is.
func side(line []geom.Path, k int, ahead bool) (geom.Vec, float64) {
	e := line[k]
	if !ahead {
		e = line[(k+len(line)-1)%len(line)].Reverse()
	}
	return e.StartDir(), e.Start().Dist(e.End())
}
