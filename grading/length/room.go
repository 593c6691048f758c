package length

import (
	"fmt"
	"math"

	"quarterstep/grading/spread"
	"quarterstep/model/geom"
)

// refuse says why the changes cannot be made: a line runs out in the mouth of a
// dart, or more is folded out than there is paper for.
func (l layer) refuse(s *spread.Spread) error {
	for i := range l.changes {
		if err := l.inDart(i, s); err != nil {
			return err
		}
	}
	for i, c := range l.changes {
		if c.By >= 0 {
			continue
		}
		if err := l.room(i, s); err != nil {
			return err
		}
	}
	return nil
}

// inDart says that line i runs out between the two legs of a dart.
func (l layer) inDart(i int, s *spread.Spread) error {
	from, to := s.Reach(i)
	for _, d := range l.q.Darts {
		a, b := l.q.PointIndex(d.From), l.q.PointIndex(d.To)
		if a < 0 || b < 0 {
			continue
		}
		for j := a; j != b; j = (j + 1) % len(l.edges) {
			for _, end := range [2]geom.Point{from, to} {
				if _, _, off := l.edges[j].Nearest(end, onLine); off <= 10*onLine {
					return fmt.Errorf("%s runs out in the %s; move it above or below the dart", l.name(i), named(d.Name, "dart"))
				}
			}
		}
	}
	return nil
}

// room says that half of what is folded out at line i reaches past a corner, a
// dart's tip or another line.
func (l layer) room(i int, s *spread.Spread) error {
	half := -l.changes[i].By / 2
	from, to := s.Reach(i)
	near, what := math.Inf(1), ""
	look := func(p geom.Point, share float64, name string) {
		if d := toLine(p, from, to, s.Down()) * share; d < near {
			near, what = d, name
		}
	}
	for k, g := range l.q.Points {
		look(l.edges[k].Start(), 1, named(g.Name, fmt.Sprintf("corner %d", k+1)))
	}
	for k, p := range l.apexes {
		look(p, 1, "tip of the "+named(l.q.Darts[k].Name, "dart"))
	}
	for k, c := range l.changes {
		if k == i || c.By >= 0 {
			continue
		}
		share := half / (half - c.By/2) // each line folds its own part of what lies between
		a, b := s.Reach(k)
		look(a, share, "next lengthen line")
		look(b, share, "next lengthen line")
	}
	if half <= near {
		return nil
	}
	return fmt.Errorf("%s cannot be made %.3g mm shorter at %s: the fold would reach past the %s; %.3g mm is the most there",
		l.q.Name, 2*half, l.name(i), what, math.Floor(2*near))
}

// toLine is how far p lies from the line through from and to, along down, mm.
func toLine(p, from, to geom.Point, down geom.Vec) float64 {
	dir := to.Sub(from).Unit()
	return math.Abs(p.Sub(from).Cross(dir) / down.Cross(dir))
}

func named(name, without string) string {
	if name == "" {
		return without
	}
	return name
}
