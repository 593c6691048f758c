package edit

import (
	"errors"
	"fmt"
	"slices"
	"sort"

	"quarterstep/assets/words"
	"quarterstep/grading/seam"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// AddLengthenLine draws a lengthen line on a piece, square to the grain, through
// a place on it (mm, the piece's own coordinates) as its outline is drawn with
// these edges, and in every printed size at the same share of the way from grade
// point to grade point. Pieces sewn along an edge it crosses, or sharing that
// edge, get one at the same distance from the end of the seam, unless they have
// one there.
func AddLengthenLine(piece string, edges []geom.Path, at geom.Point) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, words.Errorf("the pattern has no piece %q", piece)
		}
		if len(edges) != len(p.Pieces[i].Edges) {
			return p, words.Errorf("%s has other edges", p.Pieces[i].Name)
		}
		o := model.Outline{Edges: edges}
		id := newLineID(p.Pieces[i])
		p, err := addLine(p, i, o, at)
		if err != nil {
			return p, err
		}
		return carryLine(p, model.PieceLine{Piece: piece, Line: id}), nil
	}
}

// addLine draws the line on piece i, through a place of its outline o.
func addLine(p model.Pattern, i int, o model.Outline, at geom.Point) (model.Pattern, error) {
	q := p.Pieces[i]
	line := model.Line{ID: newLineID(q), Name: words.T("lengthen or shorten here"), Kind: model.Lengthen}
	for _, to := range q.Nest {
		path, err := levelLine(q, to, levelIn(q, o, to, at))
		if err != nil {
			return p, err
		}
		line.Drawn = append(line.Drawn, model.SizedPath{Size: to.Size, Path: path})
	}
	return p.WithPiece(i, func(q model.Piece) model.Piece {
		q.Lines = append(slices.Clone(q.Lines), line)
		return q
	}), nil
}

// levelIn is a place of outline to as far down the grain as at is on outline
// from: by its share of the way between the grade points above and below it.
func levelIn(q model.Piece, from, to model.Outline, at geom.Point) geom.Point {
	grain := q.GrainDir()
	height := func(p geom.Point) float64 { return geom.Vec(p).Dot(grain) }
	type rung struct{ a, b float64 }
	rungs := make([]rung, len(from.Edges))
	for k := range from.Edges {
		rungs[k] = rung{height(from.Edges[k].Start()), height(to.Edges[k].Start())}
	}
	sort.Slice(rungs, func(i, k int) bool { return rungs[i].a < rungs[k].a })
	h := height(at)
	k := sort.Search(len(rungs), func(i int) bool { return rungs[i].a > h })
	switch {
	case k == 0:
		return at.Add(grain.Scale(rungs[0].b - rungs[0].a))
	case k == len(rungs):
		last := rungs[k-1]
		return at.Add(grain.Scale(last.b - last.a))
	}
	lo, hi := rungs[k-1], rungs[k]
	now := lo.b + (hi.b-lo.b)*(h-lo.a)/(hi.a-lo.a)
	return at.Add(grain.Scale(now - h))
}

// levelLine is square to the grain through at, from outline to outline.
func levelLine(q model.Piece, o model.Outline, at geom.Point) (geom.Path, error) {
	box := geom.Join(o.Edges...).Bounds()
	reach := q.GrainDir().Perp().Scale(box.Width() + box.Height())
	s, err := spread.Read(model.Piece{
		Name: q.Name, Points: q.Points, Edges: q.Edges, Nest: []model.Outline{o}, Lines: grainOf(q),
		Cuts: []model.Cut{{From: at.Add(reach.Scale(-1)), To: at.Add(reach), Measure: model.Steps, Share: 1}},
	})
	if why := errors.Unwrap(err); why != nil {
		return nil, words.Errorf("a lengthen line of %s there %w", q.Name, why)
	}
	if err != nil {
		return nil, err
	}
	from, to := s.Reach(0)
	return geom.Polyline(from, to), nil
}

// carryLine gives the pieces linked along an edge that a lengthen line crosses
// one of their own, and those linked to them.
func carryLine(p model.Pattern, at model.PieceLine) model.Pattern {
	for next := []model.PieceLine{at}; len(next) > 0; next = next[1:] {
		lines := lengthenLines(p)
		i := slices.IndexFunc(lines, func(l lengthenLine) bool { return l.at == next[0] })
		if i < 0 {
			continue
		}
		for _, link := range p.Links {
			k, o, place, ok := lines[i].partner(p, link)
			if !ok || metBy(lines, lines[i], p.Pieces[k].ID, link) {
				continue
			}
			id := newLineID(p.Pieces[k])
			if more, err := addLine(p, k, o, place); err == nil {
				p = more
				next = append(next, model.PieceLine{Piece: p.Pieces[k].ID, Line: id})
				lines = append(lines[:len(lines):len(lines)], lengthenLines(p)...)
			}
		}
	}
	return p
}

// metBy reports that a line of that piece meets l at the link already.
func metBy(lines []lengthenLine, l lengthenLine, piece string, link model.Link) bool {
	return slices.ContainsFunc(lines, func(o lengthenLine) bool { return o.q.ID == piece && o.meet(l, link) })
}

// partner is the piece on the other side of a link that l crosses, one of its
// printed outlines, and the place on it where l would meet it.
func (l lengthenLine) partner(p model.Pattern, link model.Link) (piece int, o model.Outline, place geom.Point, ok bool) {
	for _, lead := range link.Leads() {
		for _, pair := range [2][2]model.Stretch{{lead, link.Follow}, {link.Follow, lead}} {
			at, length, crosses := l.crosses(pair[0])
			k := p.PieceIndex(pair[1].Piece)
			if !crosses || k < 0 || pair[1].Piece == l.q.ID || len(p.Pieces[k].Nest) == 0 {
				continue
			}
			q := p.Pieces[k]
			o = q.Nest[len(q.Nest)-1]
			tape := seam.NewTape(q, o.Edges)
			whole, err := tape.Stretch(q, pair[1])
			if err != nil {
				continue
			}
			if at > length/2 {
				at = whole - (length - at)
			}
			if place, ok = placeAlong(q, o, tape, pair[1], at); ok {
				return k, o, place, true
			}
		}
	}
	return 0, o, place, false
}

// placeAlong is the place on outline o that lies at mm along a stretch, as sewn.
func placeAlong(q model.Piece, o model.Outline, tape *seam.Tape, s model.Stretch, at float64) (geom.Point, bool) {
	const tol = 1e-3
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		sewn, err := tape.Length(j)
		if err != nil || at < 0 {
			return geom.Point{}, false
		}
		if at > sewn {
			at -= sewn
			continue
		}
		if s.Reverse {
			at = sewn - at
		}
		along, err := tape.Place(j, at)
		if err != nil {
			return geom.Point{}, false
		}
		m, err := geom.Measure(o.Edges[j], tol)
		return m.At(along), err == nil
	}
	return geom.Point{}, false
}

func newLineID(q model.Piece) string {
	for n := len(q.Lines) + 1; ; n++ {
		if id := fmt.Sprintf("line-%d", n); q.LineIndex(id) < 0 {
			return id
		}
	}
}

// RemoveLengthenLines takes the lengthen lines of a group of LengthGroups off
// their pieces, with what is put in there.
func RemoveLengthenLines(group string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		g, ok := FindLength(LengthGroups(p), group)
		if !ok || len(g.Lines) == 0 {
			return p, words.Errorf("the pattern has no lengthen line called %q", group)
		}
		p.Lengths = lessGroup(p.Lengths, g)
		for _, at := range g.Lines {
			p = p.WithPiece(p.PieceIndex(at.Piece), func(q model.Piece) model.Piece {
				q.Lines = slices.DeleteFunc(slices.Clone(q.Lines), func(l model.Line) bool { return l.ID == at.Line })
				return q
			})
		}
		return p, nil
	}
}
