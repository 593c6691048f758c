package length

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// NoRoom says that more is folded out at a line than there is paper for.
type NoRoom struct {
	Piece string  // its name
	Where string  // in the language in use: "above the waist", "at its lengthen line"
	By    float64 // what was to be folded out, mm
	Most  float64 // what can be, mm
	Past  string  // what the fold would reach past
}

// In is the reason in plain words, lengths in a unit.
func (e NoRoom) In(u model.Unit) string {
	return words.F("%s cannot be made %s shorter %s: the fold would reach past the %s; %s is the most there",
		e.Piece, measure.FormatMM(e.By, u), e.Where, e.Past, measure.FormatMM(e.Most, u))
}

func (e NoRoom) Error() string { return e.In(model.Centimetres) }

// refuse says why the changes cannot be made: a line runs out in the mouth of a
// dart, or more is folded out than there is paper for. Of several the line that
// lacks most is named.
func (l layer) refuse(s *spread.Spread) error {
	worst, most := error(nil), 1.0
	for i, c := range l.changes {
		if err := l.inDart(i, s); err != nil {
			return err
		}
		if c.By >= 0 {
			continue
		}
		near, past := l.room(i, s)
		if lacks := -c.By / 2 / near; lacks > most {
			worst, most = NoRoom{l.q.Name, l.where(i), -c.By, math.Floor(2 * near), past}, lacks
		}
	}
	return worst
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
					return words.Errorf("%s runs out in the %s; move it above or below the dart", l.name(i), named(d.Name, words.T("dart")))
				}
			}
		}
	}
	return nil
}

// room is how far from line i the nearest corner, dart's tip or other line lies
// along the centre line, mm, and what that is; of the paper between two lines
// that are folded each has its part.
func (l layer) room(i int, s *spread.Spread) (near float64, what string) {
	half := -l.changes[i].By / 2
	from, to := s.Reach(i)
	near = math.Inf(1)
	look := func(p geom.Point, share float64, name string) {
		if d := toLine(p, from, to, s.Down()) * share; d < near {
			near, what = d, name
		}
	}
	for k, g := range l.q.Points {
		look(l.edges[k].Start(), 1, named(g.Name, words.F("corner %d", k+1)))
	}
	for k, p := range l.apexes {
		look(p, 1, words.F("tip of the %s", named(l.q.Darts[k].Name, words.T("dart"))))
	}
	for k, c := range l.changes {
		if k == i || c.By >= 0 {
			continue
		}
		share := half / (half - c.By/2) // each line folds its own part of what lies between
		a, b := s.Reach(k)
		look(a, share, words.T("next lengthen line"))
		look(b, share, words.T("next lengthen line"))
	}
	return near, what
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
