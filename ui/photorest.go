package ui

import (
	"context"
	"image"
	"slices"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/scene"
)

// restPixels is about how large a photo is that the Table does not show: large
// enough for its card, and to stand in until the whole is read again.
const restPixels = 200_000

// restPhotos keeps whole only the photos that the Table shows, as many at once
// take more memory than there is; of the others a coarse picture stays, and the
// printed lines of the one that was in hand before. What is shown coarse is read
// again beside the window.
func (w *Window) restPhotos(p model.Pattern) {
	if hand := w.photo(); hand != w.paper.hand {
		w.paper.before, w.paper.hand = w.paper.hand, hand
	}
	for _, ph := range w.paper.photos {
		taken, flat := w.looksAt(p, ph)
		switch {
		case ph.shot == nil || len(ph.taken) == 0:
		case !taken:
			rest(&ph.taken)
			ph.shot.PutDown()
		case ph.taken[0].Rect.Size() != ph.takenSize() && ph.idle():
			w.readTaken(ph)
		}
		file := w.flatFile(p, ph)
		switch {
		case len(ph.flat) == 0 || len(file) == 0:
		case !flat && !ph.prepared && w.tracesOn(ph) && ph.idle():
			w.readFlat(ph, file)
		case !flat:
			was := ph.flat[0].Rect.Dx()
			rest(&ph.flat)
			ph.flatPer *= float64(ph.flat[0].Rect.Dx()) / float64(was)
			if ph != w.paper.before && !w.tracesOn(ph) && !ph.busy() {
				ph.lines, ph.prepared = nil, false
			}
		case (ph.flatPer < ph.flatWhole || !ph.prepared && w.tracesOn(ph)) && ph.idle():
			w.readFlat(ph, file)
		}
	}
}

// busy reports that something is done with a photo beside the window.
func (ph *photo) busy() bool { return ph.job.stop != nil }

// idle reports that nothing is done with a photo, and that nothing went wrong.
func (ph *photo) idle() bool { return !ph.busy() && ph.note == "" }

// rest leaves of a picture what is coarse.
func rest(levels *[]*image.RGBA) {
	all := *levels
	for i, l := range all {
		if l.Rect.Dx()*l.Rect.Dy() <= restPixels || i == len(all)-1 {
			*levels = slices.Clone(all[i:])
			return
		}
	}
}

// looksAt reports whether the Table shows a photo as taken, and flat.
func (w *Window) looksAt(p model.Pattern, ph *photo) (taken, flat bool) {
	hand := w.photo()
	if w.step != stepBringIn {
		return false, w.paper.under && slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return q.Picture == ph.id })
	}
	if hand != nil && w.joining(hand) {
		return false, ph == hand || ph == hand.lead
	}
	flat = w.showsFlat(hand)
	return ph == hand && !flat, ph == hand && flat
}

// tracesOn reports whether the Table shows a photo to trace from.
func (w *Window) tracesOn(ph *photo) bool {
	return w.step == stepBringIn && ph == w.photo() && (w.showsFlat(ph) || w.tracesTaken(ph)) && !w.joining(ph)
}

// takenSize is how large the photo as taken is, turned as it is looked at.
func (ph *photo) takenSize() image.Point {
	size := ph.shot.Picture.Size()
	if ph.turns%2 == 1 {
		size.X, size.Y = size.Y, size.X
	}
	return size
}

// readTaken reads a photo as it was taken again.
func (w *Window) readTaken(ph *photo) {
	shot, turns := ph.shot, ph.turns
	w.beside(ph, words.F("Reading %s", ph.name), func(context.Context, func(float64)) (func(), error) {
		picture, err := shot.Colours()
		if err != nil {
			return nil, err
		}
		for range turns % 4 {
			picture = scene.TurnedRight(picture)
		}
		levels := scene.Levels(picture)
		return func() {
			if ph.turns == turns {
				ph.taken = levels
			}
		}, nil
	})
}

// flatFile is the file of the flat picture that a photo shows; empty where the
// document has it no more.
func (w *Window) flatFile(p model.Pattern, ph *photo) []byte {
	if i := p.PictureIndex(ph.flatOf); i >= 0 {
		return w.doc.Picture(p.Pictures[i].File)
	}
	return w.doc.Picture(keptName(ph.flatOf))
}

// readFlat reads the flat picture of a photo again.
func (w *Window) readFlat(ph *photo, file []byte) {
	of, per := ph.flatOf, ph.flatWhole
	w.beside(ph, words.F("Reading %s", ph.name), func(context.Context, func(float64)) (func(), error) {
		flat, err := paper.Kept(file, per)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			if ph.flatOf == of {
				ph.flat, ph.flatPer = levels, per
				if !ph.prepared && w.tracesOn(ph) {
					w.makeReady(ph, flat)
				}
			}
		}, nil
	})
}
