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

// outside settles the closed lines outside the size layers. One with a name of
// its own is a piece that is the same in all sizes, unless it is named as
// something else or goes round other lines, as a frame does; drawn on a piece,
// or named like one, it is a line of that piece. What lies in a layer of a size
// the chart lacks is left out. In a layer that says "all
// sizes" every closed line not named like a piece is one.
func (s *sorter) outside() {
	var rings []found
	for _, r := range s.rings {
		switch {
		case len(r.sizes) > 0:
			rings = append(rings, r)
		case r.odd:
			s.strays++
		case s.namedLikeSized(r.name) || s.isMark(r):
			s.lines = append(s.lines, r)
		case r.all || r.name != "" && !isBesides(r.name) && !s.goesRound(r):
			rings = append(rings, r)
		default:
			s.strays++
		}
	}
	s.rings = rings
}

// isMark reports whether a closed line outside the size layers is drawn on a
// piece: in a layer of its own for all sizes only one named as a mark is.
func (s *sorter) isMark(r found) bool {
	kind, _ := kindOf(r.name)
	mark := kind == model.DartLine || kind == Notch || kind == model.Grain
	if r.name == "" || r.all && !mark {
		return false
	}
	return slices.ContainsFunc(s.rings, func(o found) bool { return len(o.sizes) > 0 && liesWithin(r, o) })
}

// liesWithin reports whether all joints of a closed line lie in another.
func liesWithin(r, o found) bool {
	return !slices.ContainsFunc(r.path, func(c geom.Cubic) bool { return !o.path.Contains(c.P0, inTol) })
}

func (s *sorter) namedLikeSized(name string) bool {
	return name != "" && slices.ContainsFunc(s.rings, func(o found) bool { return len(o.sizes) > 0 && strings.EqualFold(o.name, name) })
}

func (s *sorter) goesRound(r found) bool {
	return slices.ContainsFunc(s.rings, func(o found) bool { return encloses(r, o) })
}

func isBesides(name string) bool {
	return slices.ContainsFunc(wordsOf(name), func(w string) bool { return slices.Contains(besides, w) })
}

// settleAllSizes gives the pieces without a size those that are printed. Where
// other pieces are drawn in several sizes they are the same for all, and so is
// a piece whose one line is labelled with every printed size; a pattern drawn
// once throughout is one size printed.
func (s *sorter) settleAllSizes() {
	printed, several := s.printed()
	for i := range s.sheet.Pieces {
		p := &s.sheet.Pieces[i]
		o := &p.Outlines[0]
		if o.Size == "" && len(printed) > 0 {
			o.Size, o.Also = printed[0], printed[1:]
		}
		p.OneForAll = several && len(p.Outlines) == 1 && slices.Equal(o.Sizes(), printed)
	}
}

// printed is every size any piece is drawn in, in the chart's order, and
// whether a piece has several lines.
func (s *sorter) printed() (sizes []string, several bool) {
	met := map[string]bool{}
	for _, p := range s.sheet.Pieces {
		several = several || len(p.Outlines) > 1
		for _, o := range p.Outlines {
			for _, size := range o.Sizes() {
				met[size] = true
			}
		}
	}
	for _, c := range s.chart.Sizes {
		if met[c.Name] {
			sizes = append(sizes, c.Name)
		}
	}
	return sizes, several
}
