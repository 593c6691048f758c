package ui

import (
	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model/trace/target"
)

// connectTaken turns what the Photo panel reports of a photo and its way to be
// flat into steps.
func (w *Window) connectTaken() {
	t, p := w.table, w.photos
	t.OnPlace, t.OnGrab, t.OnDragTraced = w.placedTaken, w.grabTaken, w.dragTaken
	t.OnMenuTraced = w.tracedMenu
	p.OnBringIn = w.bringIn
	p.OnTargets = func() { w.saveTargets(target.Strips) }
	p.OnPhoto = w.choosePhoto
	p.OnRemove = w.removePhoto
	p.OnCancel = func() {
		w.stopJob(w.photo())
		w.paper.toJoin = nil
		w.refresh()
	}
	p.OnReference = w.chooseReference
	p.OnMeasured = w.typedMeasured
	p.OnLength = w.typedLength
	p.OnCard = w.checkCard
	p.OnMeasure = w.measureLength
	p.OnAgain = w.clickAgain
	p.OnFlatten = w.straightenPhoto
	p.OnLead, p.OnPart, p.OnJoinAll = w.chooseLead, w.choosePart, w.joinAll
	p.OnShown = w.showFlat
	p.OnDim = w.dimPhoto
	p.OnGrown = w.relaySide
}

// showFlat shows the photo in hand straightened, or as it was taken.
func (w *Window) showFlat(flat bool) {
	ph := w.photo()
	if ph == nil {
		return
	}
	ph.asTaken = !flat
	w.letGo()
	w.refresh()
	w.table.Fit()
}

// dimPhoto dims the photo in hand, or shows it as it is.
func (w *Window) dimPhoto(on bool) {
	const dim = 0.6
	faded := 0.0
	if on {
		faded = dim
	}
	if ph := w.photo(); ph != nil {
		w.do(words.T("dim a photo"), edit.FadePicture(ph.id, faded))
	}
}

// takenKey is a key while a photo is made flat: Esc lets go, Backspace takes a
// click back. It is false for another key, and while a line is traced.
func (w *Window) takenKey(e *fyne.KeyEvent) bool {
	ph := w.photo()
	if e.Name == fyne.KeyEscape && w.paper.picked.place != nil {
		w.paper.picked = takenGrip{}
		w.refresh()
		return true
	}
	if w.step != stepBringIn || ph == nil || w.tracingNow() {
		return false
	}
	switch {
	case e.Name == fyne.KeyEscape && w.paper.measure.on:
		w.paper.measure = measuring{}
	case e.Name != fyne.KeyBackspace && e.Name != fyne.KeyDelete:
		return false
	case w.joining(ph):
		ph.undoMark()
	case w.paper.measure.on:
		w.paper.measure.first = nil
	case len(ph.clicks) > 0 && len(ph.clicks) < clicksNeeded(ph):
		ph.clicks = ph.clicks[:len(ph.clicks)-1]
	default:
		return false
	}
	w.refresh()
	return true
}
