package spread

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Spread is a piece printed in one size with its cut lines, ready to be spread
// by any amount. It is read once and safe to use from several goroutines.
type Spread struct {
	*outline
	ctl   [][]geom.Point // control points of the printed edges
	cuts  []cutLine
	moved []carried // per cut
}

// Read reads the first printed line of q and its cuts. A cut that does not run
// across the piece, runs lengthwise through a dart, crosses another that runs
// the same way, or would move a fold or centre edge off its line is an error in
// plain words; so is a line that cannot be measured.
func Read(q model.Piece) (*Spread, error) {
	o, err := newOutline(q)
	if err != nil {
		return nil, err
	}
	s := &Spread{outline: o}
	for i, c := range q.Cuts {
		l, err := o.readCut(c)
		if err == nil {
			err = o.refuse(l, s.cuts)
		}
		if err != nil {
			return nil, words.Errorf("cut line %d of %s %w", i+1, q.Name, err)
		}
		s.cuts = append(s.cuts, l)
	}
	o.smoothTurns(s.cuts)
	for _, l := range s.cuts {
		c, err := o.carry(l)
		if err != nil {
			return nil, words.Errorf("measuring %s: %w", q.Name, err)
		}
		s.moved = append(s.moved, c)
	}
	for _, e := range o.edges {
		s.ctl = append(s.ctl, e.Controls())
	}
	return s, nil
}

// Reach is the two places, mm, where the cut of that index meets the outline
// when it is carried on.
func (s *Spread) Reach(cut int) (from, to geom.Point) { return s.cuts[cut].from, s.cuts[cut].to }

// Down is the unit direction of the centre line, down the piece.
func (s *Spread) Down() geom.Vec { return s.centre }

// Travel is how far the part that moves goes per mm the cut of that index opens.
func (s *Spread) Travel(cut int) geom.Vec { return s.cuts[cut].travel }

// Edges is the piece's edges once every cut has opened by its share of what
// grow says its measure grew, in mm; below 0 it is overlapped. An overlap of
// more than the paper between two cuts, or between a cut and a corner, has is an
// error.
func (s *Spread) Edges(grow func(model.Measure) float64) ([]geom.Path, error) {
	open, closes := s.open(grow)
	out := make([]geom.Path, len(s.edges))
	var pts []geom.Point
	for j, printed := range s.ctl {
		pts = append(pts[:0], printed...)
		for i, by := range open {
			for k, v := range s.moved[i][j] {
				pts[k] = pts[k].Add(v.Scale(by))
			}
		}
		if closes && runsBack(printed, pts) {
			return nil, words.Errorf("%s cannot be made so small: its cut lines overlap by more than the paper between them", s.piece.Name)
		}
		out[j] = geom.FromControls(pts)
	}
	for j := range out { // rounding aside, they meet already
		out[j][len(out[j])-1].P3 = out[(j+1)%len(out)].Start()
	}
	return out, nil
}

// open is by how many mm each cut opens, and whether one overlaps.
func (s *Spread) open(grow func(model.Measure) float64) (by []float64, closes bool) {
	by = make([]float64, len(s.cuts))
	for i, l := range s.cuts {
		by[i] = l.Share * grow(l.Measure)
		closes = closes || by[i] < 0
	}
	return by, closes
}

// runsBack reports that a line with control points now runs, joint to joint or
// along a handle, against the way it was printed.
func runsBack(printed, now []geom.Point) bool {
	back := func(i, k int) bool {
		return printed[i].Dist(printed[k]) > lineTol && now[k].Sub(now[i]).Dot(printed[k].Sub(printed[i])) <= 0
	}
	for i := 0; i+3 < len(now); i += 3 {
		if back(i, i+3) || back(i, i+1) || back(i+2, i+3) {
			return true
		}
	}
	return false
}

// At is how far the place p of the printed paper moves, in mm: a grade point
// with the line of Edges, any other place with the part of the paper it lies on,
// and by half where a cut runs through it.
func (s *Spread) At(p geom.Point, grow func(model.Measure) float64) geom.Vec {
	open, _ := s.open(grow)
	var v geom.Vec
	if j := s.pointAt(p); j >= 0 {
		for i, by := range open {
			if c := s.moved[i][j]; len(c) > 0 {
				v = v.Add(c[0].Scale(by))
			}
		}
		return v
	}
	on, near := s.nearest(p)
	for i, by := range open {
		l := s.cuts[i]
		share := s.share(l, on)
		if !near {
			share = l.paperShare(p)
		}
		v = v.Add(l.travel.Scale(by * share))
	}
	return v
}

// nearest is the place on the ring nearest to p, and whether p goes by it
// because it lies on the line or off the paper.
func (s *Spread) nearest(p geom.Point) (on float64, goes bool) {
	i, t, d := s.ring.Path().Nearest(p, lineTol)
	return s.ring.To(i, t), d <= 2*roughTol || !s.rough.contains(p)
}

// pointAt is the grade point at p, or -1.
func (s *Spread) pointAt(p geom.Point) int {
	for j, c := range s.ctl {
		if c[0].Dist(p) <= lineTol {
			return j
		}
	}
	return -1
}

// paperShare is the share of the cut's movement that the paper at p takes,
// inside the piece.
func (l cutLine) paperShare(p geom.Point) float64 {
	if _, _, d := (geom.Path{geom.Line(l.from, l.to)}).Nearest(p, lineTol/4); d <= lineTol {
		return 0.5
	}
	if l.part.contains(p) {
		return 1
	}
	return 0
}
