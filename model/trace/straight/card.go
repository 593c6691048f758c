package straight

import (
	"context"
	"fmt"
	"image"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// CheckCard holds a map to a bank card lying on the paper, by its four clicked
// corners: the distances between its edges, once lengthwise and once across.
// It is a rough check: a card is small, thick and has no sharp edges, so that
// less than half a percent off says nothing. color may be nil, as in Shot.
func CheckCard(ctx context.Context, g *image.Gray, color *image.RGBA, m Map, clicks [4]geom.Point) (Measured, error) {
	doing := words.T("checking by the card")
	corners, err := clockwise(g, clicks)
	if err != nil {
		return Measured{}, fmt.Errorf("%s: %w", doing, err)
	}
	w, h := Card.Width, Card.Height
	if side := m.MM(corners[0]).Dist(m.MM(corners[1])); side > m.MM(corners[1]).Dist(m.MM(corners[2])) {
		w, h = h, w
	}
	edges, err := seekEdges(ctx, append([]*image.Gray{g}, planes(color)...), corners, Card.corner/w, Card.corner/h)
	if err != nil {
		return Measured{}, fmt.Errorf("%s: %w", doing, err)
	}
	var middles [4]geom.Point // of the edges, in the picture
	for i, e := range edges {
		middles[i] = m.Pixel(middleOf(m, e.at))
	}
	known := []Known{
		{middles[3], middles[1], w},
		{middles[0], middles[2], h},
	}
	d, err := Measure(m, known)
	if err == nil && math.Abs(d.Off) > 0.25 {
		return Measured{}, words.Errorf("%s: this is no card, or far off scale; click its four corners", doing)
	}
	return d, err
}

// middleOf is the mean place of an edge, in mm.
func middleOf(m Map, px []geom.Point) geom.Point {
	var sum geom.Vec
	for _, p := range px {
		sum = sum.Add(geom.Vec(m.MM(p)))
	}
	return geom.Point(sum.Scale(1 / float64(len(px))))
}
