package ui

import (
	"context"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/scene"
)

// keepPhotos brings the photos in line with the pictures the document has: one
// that was opened with a project has a photo too, read when it is shown; one that
// undo brought back is its photo's again.
func (w *Window) keepPhotos(p model.Pattern) {
	for _, ph := range w.paper.photos {
		ph.comeBack(p)
	}
	for _, q := range p.Pictures {
		if !w.knownPhoto(q.ID) {
			w.paper.photos = append(w.paper.photos, &photo{laid: laid{id: q.ID}, name: q.Name})
		}
	}
	hand := w.photo()
	w.paper.photos = slices.DeleteFunc(w.paper.photos, func(ph *photo) bool {
		return ph.id != "" && ph.shot == nil && (p.PictureIndex(ph.id) < 0 || w.hasShot(ph.id))
	})
	if i := slices.Index(w.paper.photos, hand); i >= 0 {
		w.paper.inHand = i
	}
	w.paper.inHand = max(min(w.paper.inHand, len(w.paper.photos)-1), 0)
	if ph := w.photo(); ph != nil && w.step == stepBringIn {
		w.readKept(p, ph)
	}
}

// comeBack takes up an earlier way of a photo to be flat where the document has
// its picture again and not the present one.
func (ph *photo) comeBack(p model.Pattern) {
	if p.PictureIndex(ph.id) >= 0 {
		return
	}
	for i := len(ph.past) - 1; i >= 0; i-- {
		was := ph.past[i]
		if p.PictureIndex(was.id) < 0 {
			continue
		}
		ph.past = slices.Delete(ph.past, i, i+1)
		if ph.id != "" {
			ph.past = append(ph.past, ph.laid)
		}
		ph.laid, ph.asTaken = was, false
		if ph.flatOf != was.id {
			ph.flat, ph.flatOf, ph.lines, ph.prepared = nil, "", nil, false
		}
		return
	}
}

// readKept reads a picture kept with the project, if that has not been done.
func (w *Window) readKept(p model.Pattern, ph *photo) {
	i := p.PictureIndex(ph.id)
	if i < 0 || ph.prepared || len(ph.flat) > 0 || ph.job.stop != nil || ph.note != "" {
		return
	}
	q := p.Pictures[i]
	file := w.doc.Picture(q.File)
	ph.prepared = true
	w.beside(ph, words.F("Reading %s", ph.name), func(ctx context.Context, progress func(float64)) (func(), error) {
		flat, err := paper.Kept(file, q.PerMM)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			ph.flat, ph.flatOf, ph.flatPer, ph.flatWhole = levels, q.ID, q.PerMM, q.PerMM
			w.makeReady(ph, flat)
			w.table.Fit()
		}, nil
	})
}

// traced reports whether anything was traced from a picture.
func traced(p model.Pattern, picture string) bool {
	return slices.ContainsFunc(p.Tracings, func(t model.Tracing) bool { return t.Picture == picture }) ||
		slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return q.Picture == picture })
}

func (w *Window) knownPhoto(id string) bool {
	return slices.ContainsFunc(w.paper.photos, func(ph *photo) bool { return ph.id == id })
}

// hasShot reports whether a picture is that of a photo still there as taken.
func (w *Window) hasShot(id string) bool {
	return slices.ContainsFunc(w.paper.photos, func(ph *photo) bool { return ph.id == id && ph.shot != nil })
}

// removePhoto takes the photo in hand away; pieces traced from it stay, and so do
// the other parts of its piece, each for itself.
func (w *Window) removePhoto() {
	ph := w.photo()
	switch {
	case ph == nil:
	case ph.shot != nil && w.doc.Pattern().PictureIndex(ph.id) < 0:
		w.question(
			words.F("Take %s away?", ph.name), words.T("It is not flat yet, so this cannot be undone. Its file stays where it is."),
			answer{word: words.T("Keep it"), best: true},
			answer{word: words.T("Take it away"), then: func() { w.takePhotoAway(ph) }},
		)
	default:
		w.takePhotoAway(ph)
	}
}

// takePhotoAway takes ph out of the window and, if it is kept there, of the
// document.
func (w *Window) takePhotoAway(ph *photo) {
	if !slices.Contains(w.paper.photos, ph) {
		return
	}
	w.stopJob(ph)
	w.letGo()
	if lead := ph.leads(); lead != nil {
		w.takeApart(ph)
	}
	for _, other := range w.paper.photos {
		if other.lead == ph {
			other.lead, other.marks = nil, partMarks{}
		}
	}
	i := slices.Index(w.paper.photos, ph)
	w.paper.photos = slices.Delete(w.paper.photos, i, i+1)
	if w.doc.Pattern().PictureIndex(ph.id) >= 0 {
		w.do(words.F("take %s away", ph.name), edit.RemovePicture(ph.id))
	}
	w.refresh()
	w.table.Fit()
}

// choosePhoto takes a photo in hand.
func (w *Window) choosePhoto(i int) {
	if i < 0 || i >= len(w.paper.photos) || i == w.paper.inHand {
		return
	}
	w.letGo()
	w.paper.inHand = i
	w.refresh()
	w.table.Fit()
}

// letGo drops what was begun on the photo in hand.
func (w *Window) letGo() {
	w.paper.trace = w.paper.trace.habits()
	w.paper.measure, w.paper.held, w.paper.picked = measuring{}, takenGrip{}, takenGrip{}
}

// turnPhoto turns the photo in hand by a quarter to the right, as it was taken and
// flat, as long as nothing was traced from it.
func (w *Window) turnPhoto() {
	ph := w.photo()
	switch {
	case ph == nil || ph.shot == nil && !w.isFlat(ph):
		w.say(words.T("There is no photo to turn."))
	case traced(w.doc.Pattern(), ph.id):
		w.say(words.T("Pieces were traced from this photo as it lies, so it stays."))
	case ph.job.words != "":
		w.say(words.T("Wait until this photo is ready, or cancel what is being done."))
	case ph.shot == nil:
		w.turnKept(ph)
	default:
		w.turnTaken(ph)
	}
}

// turnTaken turns the photo as taken, and makes it flat anew where it was flat.
func (w *Window) turnTaken(ph *photo) {
	was, again, asTaken := ph.taken, w.isFlat(ph), ph.asTaken
	w.beside(ph, words.T("Turning"), func(context.Context, func(float64)) (func(), error) {
		levels := scene.Levels(scene.TurnedRight(was[0]))
		return func() {
			ph.turns, ph.taken = (ph.turns+1)%4, levels
			w.table.Fit()
			if again {
				w.straighten(ph)
				ph.asTaken = asTaken
			}
		}, nil
	})
}

// turnKept turns a flat picture that was kept with the project.
func (w *Window) turnKept(ph *photo) {
	p := w.doc.Pattern()
	file, per := w.flatFile(p, ph), ph.flatWhole
	w.beside(ph, words.T("Turning"), func(context.Context, func(float64)) (func(), error) {
		was, err := paper.Kept(file, per)
		if err != nil {
			return nil, err
		}
		flat, err := paper.Flat{Colour: scene.TurnedRight(was.Colour), PerMM: per}.Keep()
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() { w.keepFlat(ph, laid{}, flat, levels, words.F("turn %s", ph.name)) }, nil
	})
}
