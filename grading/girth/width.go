package girth

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// beside is how far above and below a level a piece is measured, mm: a corner
// on the level, such as an underarm, ends the seam that is meant on one side
// of it only. The wider figure counts.
const beside = 2e-3

// end is where a level leaves the piece.
type end struct {
	side   float64
	edge   int
	across bool // the edge there runs more across the grain than along it
}

// across measures the piece square to its grain at height h.
func (s *sheet) across(sewn []geom.Path, h float64, m model.Measure) (width, allowances, darts float64, why string) {
	cut, stitched := s.closed(s.cut), s.closed(sewn)
	best := 0.0
	why = words.F("%s does not reach the %s.", s.q.Name, m.Said())
	for _, at := range [2]float64{h - beside, h + beside} {
		paper, okP := s.ends(cut, at)
		inner, okI := s.ends(stitched, at)
		if !okP || !okI {
			continue
		}
		if e, bad := wrongEnd(inner); bad {
			if best == 0 {
				why = words.F("The %s level of %s runs out at its %s, not at a seam along the body.", m.Said(), s.q.Name, s.edgeName(e.edge))
			}
			continue
		}
		s.stopAtCentre(at, &paper, &inner)
		taken := s.takenUp(at, inner[0].side, inner[1].side)
		all, net := paper[1].side-paper[0].side, inner[1].side-inner[0].side
		if net-taken > best {
			best, width, allowances, darts, why = net-taken, all, all-net, taken, ""
		}
	}
	return width, allowances, darts, why
}

func wrongEnd(ends [2]end) (end, bool) {
	for _, e := range ends {
		if e.across {
			return e, true
		}
	}
	return end{}, false
}

func (s *sheet) edgeName(k int) string {
	if n := s.q.Edges[k].Name; n != "" {
		return n
	}
	return words.F("edge %d", k+1)
}

// ends is where the level at height h enters the outline first and leaves it
// last, by side.
func (s *sheet) ends(edges []geom.Path, h float64) (out [2]end, ok bool) {
	level := s.levelLine(edges, h)
	grain := s.q.GrainDir()
	for k, e := range edges {
		for _, x := range geom.Intersect(level, e, tol) {
			t := e[x.IB].Tangent(x.TB)
			found := end{s.side(x.At), k, math.Abs(t.Dot(grain)) < math.Abs(t.Cross(grain))}
			if !ok {
				out, ok = [2]end{found, found}, true
			}
			if found.side < out[0].side {
				out[0] = found
			}
			if found.side > out[1].side {
				out[1] = found
			}
		}
	}
	return out, ok && out[1].side-out[0].side > tol
}

// levelLine crosses the whole outline square to the grain.
func (s *sheet) levelLine(edges []geom.Path, h float64) geom.Path {
	box := geom.Join(edges...).Bounds().Grow(10)
	reach := box.Width() + box.Height()
	mid := s.side(box.Centre())
	return geom.Polyline(s.place(mid-reach, h), s.place(mid+reach, h))
}

// stopAtCentre ends the width at a centre line drawn on the piece, where what
// lies beyond it is a stand: the side that ends on a centre edge, or the
// narrower one where that is less than half the other.
func (s *sheet) stopAtCentre(h float64, paper, inner *[2]end) {
	c, ok := s.centreAt(h)
	if !ok || c <= inner[0].side || c >= inner[1].side {
		return
	}
	left, right := c-inner[0].side, inner[1].side-c
	first := s.q.Edges[inner[0].edge].Kind == model.Centre
	last := s.q.Edges[inner[1].edge].Kind == model.Centre
	switch {
	case first || !last && left < right/2:
		paper[0].side, inner[0].side = c, c
	case last || right < left/2:
		paper[1].side, inner[1].side = c, c
	}
}

// centreAt is where the centre line drawn on the piece, carried on straight,
// crosses the level at height h.
func (s *sheet) centreAt(h float64) (float64, bool) {
	for _, l := range s.lines {
		name := glossary.English(l.Name)
		if l.Kind != model.Inner || len(l.Path) == 0 || !strings.Contains(name, "centre") && !strings.Contains(name, "center") {
			continue
		}
		a, b := l.Path.Start(), l.Path.End()
		down, over := s.height(b)-s.height(a), s.side(b)-s.side(a)
		if math.Abs(down) > math.Abs(over) {
			return s.side(a) + over*(h-s.height(a))/down, true
		}
	}
	return 0, false
}
