package edit

import (
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// SharedLine says that the line a piece is printed with in one size serves
// other sizes too: it is then the line of size and of also, and of no other. A
// size that has a line of its own is an error, and so is one beyond such a
// line.
func SharedLine(piece, size string, also []string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			i := slices.IndexFunc(q.Nest, func(o model.Outline) bool { return slices.Contains(o.Sizes(), size) })
			if i < 0 {
				return q, words.Errorf("%s is not printed in size %s", q.Name, size)
			}
			sizes, err := inChartOrder(p.Chart, append([]string{size}, also...))
			if err != nil {
				return q, err
			}
			if err := noneBetween(p.Chart, q, i, sizes); err != nil {
				return q, err
			}
			return serving(q, i, sizes), nil
		})
	}
}

// inChartOrder is the sizes by their first names, each once, smallest first.
func inChartOrder(c model.SizeChart, sizes []string) ([]string, error) {
	var places []int
	for _, s := range sizes {
		place, ok := c.Place(s)
		if !ok {
			return nil, words.Errorf("the chart %s has no size %s", c.Name, s)
		}
		places = append(places, place)
	}
	slices.Sort(places)
	var out []string
	for _, place := range slices.Compact(places) {
		out = append(out, c.Sizes[place].Name)
	}
	return out, nil
}

// noneBetween is an error where, from the first of the sizes to the last, one
// is printed on a line other than line i.
func noneBetween(c model.SizeChart, q model.Piece, i int, sizes []string) error {
	first, _ := c.Place(sizes[0])
	last, _ := c.Place(sizes[len(sizes)-1])
	for j, o := range q.Nest {
		for _, s := range o.Sizes() {
			if place, _ := c.Place(s); j != i && place >= first && place <= last {
				return words.Errorf("size %s of %s has a line of its own; sizes %s cannot share one", s, q.Name, strings.Join(sizes, ", "))
			}
		}
	}
	return nil
}

// serving is the piece with line i serving those sizes; the line's marks go by
// the first of them.
func serving(q model.Piece, i int, sizes []string) model.Piece {
	was := q.Nest[i].Sizes()
	of := func(size string) (string, bool) {
		if slices.Contains(was, size) || slices.Contains(sizes, size) {
			return sizes[0], true
		}
		return size, false
	}
	q.Nest = slices.Clone(q.Nest)
	q.Nest[i].Size, q.Nest[i].Also = sizes[0], sizes[1:]
	q.Lines = slices.Clone(q.Lines)
	for k, l := range q.Lines {
		q.Lines[k].Drawn = onLine(l.Drawn, of, func(d *model.SizedPath) *string { return &d.Size })
	}
	q.Notches = slices.Clone(q.Notches)
	for k, n := range q.Notches {
		q.Notches[k].Spots = onLine(n.Spots, of, func(s *model.Spot) *string { return &s.Size })
	}
	q.Darts = slices.Clone(q.Darts)
	for k, d := range q.Darts {
		q.Darts[k].Apex = onLine(d.Apex, of, func(a *model.SizedPoint) *string { return &a.Size })
	}
	return q
}

// onLine is a mark by size, of which those on the line (of says which, and the
// size they go by) are kept once.
func onLine[T any](marks []T, of func(string) (string, bool), size func(*T) *string) []T {
	var out []T
	met := false
	for _, m := range marks {
		s, on := of(*size(&m))
		if on && met {
			continue
		}
		met = met || on
		*size(&m) = s
		out = append(out, m)
	}
	return out
}

// OneForAll says that a piece is the same in all sizes, or that it is not: then
// its line is that of the smallest size it was printed in, and typed gaps can
// say how it grows. A piece with several lines is not the same in all sizes.
func OneForAll(piece string, on bool) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if on && len(q.Nest) > 1 {
				return q, words.Errorf("%s is printed with a line for each of several sizes; it cannot be the same in all", q.Name)
			}
			if !on && q.OneForAll && len(q.Nest) == 1 && len(q.Nest[0].Also) > 0 {
				q = serving(q, 0, q.Nest[0].Sizes()[:1])
			}
			q.OneForAll = on
			return q, nil
		})
	}
}
