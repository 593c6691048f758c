package exchange

import (
	"slices"
	"strings"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// besides are words in the name of a closed line that is no piece: what else is
// drawn on a sheet.
var besides = []string{
	"frame", "border", "page", "sheet", "paper", "background", "test", "scale", "square",
	"ruler", "legend", "key", "logo", "text", "note", "notes", "guide", "layout", "watermark",
}

// leastLoose is the area in mm² below which a closed line outside the size
// layers is taken for an arrow or a button rather than a piece.
const leastLoose = 400.0

// outside settles the closed lines outside the size layers. One with a name of
// its own that no other has is a piece that is the same in all sizes, unless it
// is tiny, named as something else or goes round other lines, as a frame does;
// drawn on a piece, or named like one, it is a line of that piece. In a layer
// that says "all sizes" every closed line is a piece that is not named like
// another or drawn on one as a mark. What lies in a layer of a size the chart
// lacks is left out.
func (s *sorter) outside() {
	var rings []found
	loose := s.looseNames()
	for _, r := range s.rings {
		switch {
		case len(r.sizes) > 0:
			rings = append(rings, r)
		case r.odd:
			s.strays++
		case s.namedLikeSized(r.name) || s.isMark(r):
			s.lines = append(s.lines, r)
		case r.all || loose[strings.ToLower(r.name)] == 1 && r.area >= leastLoose && !isBesides(r.name) && !s.goesRound(r):
			rings = append(rings, r)
		default:
			s.strays++
		}
	}
	s.rings = rings
}

// isMark reports whether a closed line outside the size layers is drawn on a
// piece: in a layer for all sizes one without a name or named as a mark, else
// any that has a name.
func (s *sorter) isMark(r found) bool {
	kind, _ := kindOf(r.name)
	mark := r.name == "" || kind == model.DartLine || kind == Notch || kind == model.Grain
	if r.all && !mark || !r.all && r.name == "" {
		return false
	}
	return slices.ContainsFunc(s.rings, func(o found) bool { return len(o.sizes) > 0 && s.liesWithin(r, o) })
}

// liesWithin reports whether all joints of a closed line lie in another.
func (s *sorter) liesWithin(r, o found) bool {
	return !slices.ContainsFunc(r.path, func(c geom.Cubic) bool { return !s.inside(o, c.P0) })
}

func (s *sorter) namedLikeSized(name string) bool {
	return name != "" && slices.ContainsFunc(s.rings, func(o found) bool { return len(o.sizes) > 0 && strings.EqualFold(o.name, name) })
}

// looseNames counts the closed lines outside the size layers by their names.
func (s *sorter) looseNames() map[string]int {
	out := map[string]int{}
	for _, r := range s.rings {
		if len(r.sizes) == 0 && r.name != "" {
			out[strings.ToLower(r.name)]++
		}
	}
	return out
}

func (s *sorter) goesRound(r found) bool {
	return slices.ContainsFunc(s.rings, func(o found) bool { return s.encloses(r, o) })
}

func isBesides(name string) bool {
	return slices.ContainsFunc(wordsOf(name), func(w string) bool { return slices.Contains(besides, w) })
}

// settleAllSizes gives the pieces without a size those that are printed. Where
// other pieces are drawn in several sizes they are the same for all, and so is
// a piece whose one line is labelled with every one of those sizes; a pattern
// drawn once throughout is one size printed.
func (s *sorter) settleAllSizes() {
	several := s.printed(2)
	printed := several
	if len(several) == 0 {
		printed = s.printed(1)
	}
	for i := range s.sheet.Pieces {
		p := &s.sheet.Pieces[i]
		o := &p.Outlines[0]
		if o.Size == "" && len(printed) > 0 {
			o.Size, o.Also = printed[0], printed[1:]
		}
		p.OneForAll = len(several) > 0 && len(p.Outlines) == 1 &&
			!slices.ContainsFunc(several, func(size string) bool { return !slices.Contains(o.Sizes(), size) })
	}
}

// printed is the sizes of all pieces with at least so many lines, in the
// chart's order.
func (s *sorter) printed(lines int) []string {
	met := map[string]bool{}
	for _, p := range s.sheet.Pieces {
		for _, o := range p.Outlines {
			for _, size := range o.Sizes() {
				met[size] = met[size] || len(p.Outlines) >= lines
			}
		}
	}
	var sizes []string
	for _, c := range s.chart.Sizes {
		if met[c.Name] {
			sizes = append(sizes, c.Name)
		}
	}
	return sizes
}
