package ui

import (
	"time"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// others are lines beside the new ones, worked out for the Table as last shown.
type others struct {
	ghost  map[string][]geom.Path
	guides []scene.Guide
}

// guideTime is how long the guides may take to be worked out at each move of a
// drag; slower ones wait until its end.
const guideTime = 2 * time.Millisecond

// guides is stageGuides, left out during a drag where they took too long before
// it.
func (w *Window) guides(p model.Pattern) []scene.Guide {
	if w.doc.Previewing() {
		if w.guidesTook > guideTime {
			return nil
		}
		return w.stageGuides(p)
	}
	start := time.Now()
	out := w.stageGuides(p)
	w.guidesTook = time.Since(start)
	return out
}

// stageGuides is the piece in hand at every size between its print and the size
// wanted, while corrections are kept with their size.
func (w *Window) stageGuides(p model.Pattern) []scene.Guide {
	i := p.PieceIndex(w.hand.Piece)
	if !p.Target.Stages || i < 0 {
		return nil
	}
	q := p.Pieces[i]
	first, last := len(p.Chart.Sizes), -1
	for _, o := range q.Nest {
		for _, size := range o.Sizes() {
			if place, ok := p.Chart.Place(size); ok {
				first, last = min(first, place), max(last, place)
			}
		}
	}
	var out []scene.Guide
	for place, size := range p.Chart.Sizes {
		t := p.Target.Place
		if between := place > last && float64(place) < t || place < first && float64(place) > t; !between {
			continue
		}
		at := p
		at.Target.Place = float64(place)
		r, err := w.doc.Grader().Grade(at)
		if err != nil {
			return nil
		}
		out = append(out, scene.Guide{Size: size.Name, Edges: r.Pieces[i].Edges})
	}
	return out
}
