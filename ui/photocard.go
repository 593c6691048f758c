package ui

import (
	"context"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// checkCard begins, or leaves, the clicking of a bank card that lies on the paper.
func (w *Window) checkCard() {
	if ph := w.photo(); ph != nil && ph.shot != nil && ph.solved {
		w.measureBy(measuring{on: !w.paper.measure.card, card: !w.paper.measure.card})
	}
}

// clickCard is a corner of the card, in px of the photo; after the fourth the
// panel says what it tells.
func (w *Window) clickCard(ph *photo, px geom.Point) {
	m := &w.paper.measure
	m.first = append(m.first, px)
	if len(m.first) < 4 {
		w.refresh()
		return
	}
	corners, shot, way := [4]geom.Point(m.first), ph.shot, ph.straight
	w.paper.measure = measuring{}
	w.beside(ph, words.T("Looking at the card"), func(ctx context.Context, _ func(float64)) (func(), error) {
		say, err := shot.CheckCard(ctx, way, corners)
		if err != nil {
			return nil, err
		}
		return func() { ph.cardSays = say }, nil
	})
	w.refresh()
}
