package straight

import (
	"context"
	"fmt"
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Grid is what was clicked of a cutting mat: a rectangle of its squares.
type Grid struct {
	Corners      [4]geom.Point // px, any order
	Across, Down int           // squares between the corners, as the photo shows them; 0 is 1
	Cell         float64       // mm of a square's side: 25.4 or 10
}

// Mat is a photo straightened by the grid of a cutting mat.
type Mat struct {
	Map     Map
	Misfit  Misfit
	Crossed []Pair // the crossings found, in the photo and on the mat
}

// A crossing is taken when its lines lie this near to where the others say, in
// squares, and when at least this share of the looks across each arm shows it.
const (
	crossingNear  = 0.12
	crossingShare = 0.6
	leastCross    = 9
	mostCross     = 20_000
)

// FromMat straightens a photo by the grid of the cutting mat under the piece:
// one square of it is clicked, or a rectangle of counted squares, and all other
// crossings are found from there, outward, each where its two lines meet.
// Millimetres count from the corner nearest to the photo's top left. The lens is
// found as well, or taken as known.
func FromMat(ctx context.Context, g *image.Gray, grid Grid, shot Shot) (Mat, error) {
	doing := words.T("straightening by the cutting mat")
	grid.Across, grid.Down = max(grid.Across, 1), max(grid.Down, 1)
	if !(grid.Cell >= 5 && grid.Cell <= 200) {
		return Mat{}, words.Errorf("%s: say how large its squares are, 5 to 200 mm", doing)
	}
	corners, err := clockwise(g, grid.Corners)
	if err != nil {
		return Mat{}, fmt.Errorf("%s: %w", doing, err)
	}
	var best *survey
	for _, sign := range []float64{1, -1} { // lines lighter than the mat, or darker
		s := newSurvey(g, grid, shot, sign)
		if err := s.all(ctx, corners, grid); err != nil {
			return Mat{}, fmt.Errorf("%s: %w", doing, err)
		}
		if best == nil || len(s.pairs) > len(best.pairs) {
			best = s
		}
	}
	switch n := len(best.pairs); {
	case n < 4:
		return Mat{}, words.Errorf("%s: no lines cross where you clicked, click the corners of one square that is not at the edge of the mat, by the close-up", doing)
	case n < leastCross:
		return Mat{}, words.Errorf("%s: only %d crossings of its lines can be made out, take the photo with more of the mat in sight", doing, n)
	}
	m, err := best.settle()
	if err != nil {
		return Mat{}, fmt.Errorf("%s: %w", doing, err)
	}
	return m, nil
}

// survey is the finding of a mat's crossings.
type survey struct {
	g     *image.Gray
	cell  float64
	sign  float64 // 1 where the lines are lighter than the mat
	known *Lens
	lens  Lens
	m     Map
	seen  map[[2]int]bool // looked at, found or not
	pairs []Pair
	edge  [][2]int // found in the last round
	fresh int
}

func newSurvey(g *image.Gray, grid Grid, shot Shot, sign float64) *survey {
	c := newCamera(g.Rect.Size(), shot, true)
	return &survey{g: g, cell: grid.Cell, sign: sign, known: shot.Lens, lens: c.lens, seen: map[[2]int]bool{}}
}

// all finds every crossing from the four clicked ones on; none where those
// cannot be made out.
func (s *survey) all(ctx context.Context, corners [4]geom.Point, grid Grid) error {
	if err := s.begin(corners, grid); err != nil {
		return err
	}
	for s.fresh > 0 {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := s.grow(); err != nil {
			return err
		}
	}
	return nil
}

// begin finds the four clicked crossings, if their lines are there.
func (s *survey) begin(corners [4]geom.Point, grid Grid) error {
	at := [4][2]int{{0, 0}, {grid.Across, 0}, {grid.Across, grid.Down}, {0, grid.Down}}
	px, mm := corners, [4]geom.Point{}
	for i, k := range at {
		mm[i] = s.place(k)
	}
	for range 2 { // the lines' own ways are known better the second time
		m, err := fourPoints(px, mm, s.lens)
		if err != nil {
			return err
		}
		s.m = m
		for i := range at {
			p, ok := s.crossing(mm[i], 0.3)
			if !ok {
				return nil
			}
			px[i] = p
		}
	}
	for i, k := range at {
		s.seen[k] = true
		s.edge = append(s.edge, k)
		s.pairs = append(s.pairs, Pair{px[i], mm[i]})
	}
	s.fresh = len(at)
	return s.refit()
}

func (s *survey) place(k [2]int) geom.Point {
	return geom.Pt(float64(k[0])*s.cell, float64(k[1])*s.cell)
}

// grow looks beside the crossings last found for the next ones.
func (s *survey) grow() error {
	var next [][2]int
	for _, k := range s.edge {
		for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			n := [2]int{k[0] + d[0], k[1] + d[1]}
			if s.seen[n] || len(s.seen) > mostCross {
				continue
			}
			s.seen[n] = true
			mm := s.place(n)
			if p, ok := s.crossing(mm, crossingNear); ok {
				s.pairs = append(s.pairs, Pair{p, mm})
				next = append(next, n)
			}
		}
	}
	s.edge, s.fresh = next, len(next)
	if s.fresh == 0 {
		return nil
	}
	return s.refit()
}

// refit brings the map up to what is found by now; the lens is sought when the
// crossings reach far enough to show it.
func (s *survey) refit() error {
	o := Options{Lens: s.lens, FitLens: s.known == nil && len(s.pairs) >= 40}
	if o.FitLens {
		o.Lens.K1 = 0
	}
	m, _, err := Solve(s.pairs, o)
	s.m = m
	return err
}

// crossing finds where the two lines that should cross at mm do, in the photo,
// looking near squares away.
func (s *survey) crossing(mm geom.Point, near float64) (geom.Point, bool) {
	p := s.m.Pixel(mm)
	if !p.Finite() || !inside(s.g, p, 6) {
		return p, false
	}
	right, okR := s.line(mm, geom.Vec{X: 1}, near)
	down, okD := s.line(mm, geom.Vec{Y: 1}, near)
	if !okR || !okD {
		return p, false
	}
	q, ok := meet(right, down)
	cell := s.m.Pixel(mm.Add(geom.Vec{X: s.cell})).Dist(p)
	return q, ok && q.Dist(p) <= near*cell*1.5
}

// line is a straight line in the photo: a place and its way.
type line struct {
	at  geom.Point
	way geom.Vec
}

// meet is where two lines cross.
func meet(a, b line) (geom.Point, bool) {
	c := a.way.Cross(b.way)
	if math.Abs(c) < 0.2 {
		return geom.Point{}, false
	}
	return a.at.Add(a.way.Scale(b.at.Sub(a.at).Cross(b.way) / c)), true
}

// The arms of a crossing are looked across between these shares of a square:
// clear of the other line, and of a half square's.
const armFrom, armTo = 0.1, 0.44

// line finds the mat's line through mm along way by both its arms.
func (s *survey) line(mm geom.Point, way geom.Vec, near float64) (line, bool) {
	a, b := s.m.Pixel(mm.Add(way.Scale(-armTo*s.cell))), s.m.Pixel(mm.Add(way.Scale(armTo*s.cell)))
	length := a.Dist(b)
	if !a.Finite() || !b.Finite() || length < 12 || !inside(s.g, a, 4) || !inside(s.g, b, 4) {
		return line{}, false
	}
	n := b.Sub(a).Unit().Perp()
	side := length / (2 * armTo) // a square's side in pixels
	reach := max(near*side, 3)
	beside := min(max(0.04*side, 2.5), 8)
	count := int(min(max(length/2, 12), 60))
	var all []station
	arms := [2]int{}
	for i := range count {
		t := 2*(float64(i)+0.5)/float64(count) - 1
		if math.Abs(t) < armFrom/armTo {
			continue
		}
		p := a.Lerp(b, (t+1)/2)
		all = append(all, station{t, p, ridges(across(s.g, p, n, reach+beside+2), s.sign, beside, leastStep)})
		arms[arm(t)]++
	}
	fit, ok := straightLine(all, reach)
	if !ok {
		return line{}, false
	}
	hit := [2]int{}
	for _, st := range all {
		if _, ok := st.near(fit[0]+fit[1]*st.t, 0.8); ok {
			hit[arm(st.t)]++
		}
	}
	for i := range hit {
		if float64(hit[i]) < crossingShare*float64(arms[i]) {
			return line{}, false
		}
	}
	at := a.Lerp(b, 0.5).Add(n.Scale(fit[0]))
	return line{at, b.Add(n.Scale(fit[0] + fit[1])).Sub(at).Unit()}, true
}

// arm is 0 before the crossing and 1 behind it.
func arm(t float64) int {
	if t < 0 {
		return 0
	}
	return 1
}

// straightLine is the line off = c0 + c1 t through most spots of all.
func straightLine(all []station, reach float64) ([2]float64, bool) {
	b := bestLine(all, reach)
	fit := [2]float64{b[0], b[1]}
	for _, gate := range []float64{2, 1, 0.8} {
		var n, t, tt, o, to float64
		for _, s := range all {
			if k, ok := s.near(fit[0]+fit[1]*s.t, gate); ok {
				n, t, tt, o, to = n+1, t+s.t, tt+s.t*s.t, o+k.off, to+s.t*k.off
			}
		}
		det := n*tt - t*t
		if n < 6 || det < 1e-6 {
			return fit, false
		}
		fit = [2]float64{(o*tt - t*to) / det, (n*to - t*o) / det}
	}
	return fit, math.Abs(fit[0]) <= reach
}

// settle takes out crossings that the others contradict and gives the result.
func (s *survey) settle() (Mat, error) {
	for range 3 {
		off := make([]float64, len(s.pairs))
		for i, p := range s.pairs {
			off[i] = s.m.MM(p.Pixel).Dist(p.MM)
		}
		limit := max(5*quantile(off, 0.5), 0.02)
		var kept []Pair
		for i, p := range s.pairs {
			if off[i] <= limit {
				kept = append(kept, p)
			}
		}
		if len(kept) == len(s.pairs) || len(kept) < leastCross {
			break
		}
		s.pairs = kept
		if err := s.refit(); err != nil {
			return Mat{}, err
		}
	}
	return Mat{Map: s.m, Misfit: s.m.misfit(s.pairs), Crossed: s.pairs}, nil
}
