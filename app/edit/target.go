package edit

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Place asks for the size at a place on the chart; beyond its ends the nearest
// end is taken.
func Place(place float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Target.Place = min(max(place, 0), float64(len(p.Chart.Sizes)-1))
		return p, nil
	}
}

// Method chooses by steps or by chart.
func Method(m model.Method) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Target.Method = m
		return p, nil
	}
}

// Wearer names the person it is for.
func Wearer(name string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Target.Wearer = strings.TrimSpace(name)
		return p, nil
	}
}

// Unit chooses how lengths are shown.
func Unit(u model.Unit) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Unit = u
		return p, nil
	}
}

// NamePattern gives the pattern a name, which stands on every printed page.
func NamePattern(name string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		p.Name = name
		return p, nil
	}
}

// Chart puts another size chart under the pattern. Every printed size must be
// on it, and every size a correction belongs to; the target keeps its name where
// the new chart has it. The wearer's own measurements stay, and where there are
// some the target goes by them.
func Chart(c model.SizeChart) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		for _, q := range p.Pieces {
			for _, o := range q.Nest {
				for _, size := range o.Sizes() {
					if _, ok := c.Place(size); !ok {
						return p, words.Errorf("the chart %s has no size %s, in which %s is printed", c.Name, size, q.Name)
					}
				}
			}
		}
		if err := stagesOn(p, c); err != nil {
			return p, err
		}
		place, ok := c.Place(p.Chart.NameAt(p.Target.Place))
		if !ok {
			place = min(int(p.Target.Place), len(c.Sizes)-1)
		}
		p.Chart, p.Target.Place = c, float64(place)
		p.Target.Place = restPlace(p)
		return p, nil
	}
}

// Follow has a grade point follow another measure across or along the grain.
func Follow(piece, point string, along bool, m model.Measure) func(model.Pattern) (model.Pattern, error) {
	return onPoint(piece, point, func(g model.GradePoint) model.GradePoint {
		if along {
			g.Along = m
		} else {
			g.Across = m
		}
		return g
	})
}

// LayPiece moves a piece on the Table by v.
func LayPiece(piece string, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.At = q.At.Add(v)
			return q, nil
		})
	}
}

// Rename gives a piece another name.
func Rename(piece, name string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		name = strings.TrimSpace(name)
		if name == "" {
			return p, words.Error("a piece needs a name")
		}
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Name = name
			return q, nil
		})
	}
}

// Cut sets how many of a piece to cut.
func Cut(piece string, n int) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if n < 1 || n > 99 {
			return p, words.Error("cut 1 to 99 of a piece")
		}
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Cut = n
			return q, nil
		})
	}
}

// CutLining sets how many more of a piece to cut in lining; 0 for none.
func CutLining(piece string, n int) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if n < 0 || n > 99 {
			return p, words.Error("cut up to 99 of a piece in lining")
		}
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Lining = n
			return q, nil
		})
	}
}
