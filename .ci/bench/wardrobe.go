package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
)

// mostSizes is how many sizes the chart has beside the one that is wanted.
const mostSizes = 30

// chart is an invented chart in even steps, long enough for a nest of thirty
// sizes: the bust grows 2 cm a size.
func chart() model.SizeChart {
	c := model.SizeChart{ID: "long", Name: "Long invented chart", Measures: []model.Measure{model.Bust, model.Waist, model.Hip, model.BackWaist}}
	for i := range mostSizes + 2 {
		k := float64(i)
		c.Sizes = append(c.Sizes, model.ChartSize{Name: strconv.Itoa(30 + 2*i), Body: map[model.Measure]float64{
			model.Bust: 800 + 20*k, model.Waist: 640 + 20*k, model.Hip: 860 + 20*k, model.BackWaist: 405 + 2*k,
		}})
	}
	return c
}

// wardrobe is so many pieces printed in so many sizes, wanted one size beyond
// them: the pieces of the demo blouse with its links, over and over. A link of
// which a piece is missing is left out.
func wardrobe(pieces, sizes int) (model.Pattern, error) {
	c := chart()
	var names []string
	for _, s := range c.Sizes[:sizes] {
		names = append(names, s.Name)
	}
	one, err := draft.Blouse(c, names)
	if err != nil {
		return model.Pattern{}, err
	}
	front := one.PieceIndex("front")
	one.Pieces[0], one.Pieces[front] = one.Pieces[front], one.Pieces[0]
	p := one
	p.Pieces, p.Links, p.Target = nil, nil, model.Target{Place: float64(sizes)}
	for i := range pieces {
		p.Pieces = append(p.Pieces, again(one.Pieces[i%len(one.Pieces)], i/len(one.Pieces)))
	}
	layOut(p.Pieces)
	for round := 0; round*len(one.Pieces) < pieces; round++ {
		for _, l := range one.Links {
			l.ID += suffix(round)
			l.Lead.Piece += suffix(round)
			l.Follow.Piece += suffix(round)
			if p.PieceIndex(l.Lead.Piece) >= 0 && p.PieceIndex(l.Follow.Piece) >= 0 {
				p.Links = append(p.Links, l)
			}
		}
	}
	return p, p.Validate()
}

func suffix(round int) string {
	if round == 0 {
		return ""
	}
	return fmt.Sprint(" ", round+1)
}

// again is the piece of a further garment, with lines of its own: grading
// remembers a nest by the identity of its slices.
func again(q model.Piece, round int) model.Piece {
	q.ID += suffix(round)
	q.Name += suffix(round)
	nest := make([]model.Outline, len(q.Nest))
	for i, o := range q.Nest {
		nest[i] = o
		nest[i].Edges = nil
		for _, e := range o.Edges {
			nest[i].Edges = append(nest[i].Edges, slices.Clone(e))
		}
	}
	q.Nest, q.Edges, q.Points = nest, slices.Clone(q.Edges), slices.Clone(q.Points)
	return q
}

// layOut lays the pieces beside each other in a square of rows.
func layOut(pieces []model.Piece) {
	const gap = 40
	across := int(math.Ceil(math.Sqrt(float64(len(pieces)))))
	var x, y, deep float64
	for i := range pieces {
		var box geom.Box
		for _, o := range pieces[i].Nest {
			box = box.Union(geom.Join(o.Edges...).Bounds())
		}
		if i%across == 0 {
			x, y, deep = gap, y+deep+gap, 0
		}
		pieces[i].At = geom.Vec{X: x - box.Min.X, Y: y - box.Min.Y}
		x, deep = x+box.Width()+gap, max(deep, box.Height())
	}
}

// moved is p with one grade point of its first piece drawn a little further, as
// a hand does in frame after frame; the lines that follow it go along.
func moved(p model.Pattern, frame int) model.Pattern {
	by := float64(frame%10) / 2
	return p.WithPiece(0, func(q model.Piece) model.Piece {
		q.Hand.Moves = []model.PointMove{{Point: "neck-point", By: geom.Vec{Y: by}}, {Point: "shoulder-tip", By: geom.Vec{X: by}}}
		return q
	})
}
