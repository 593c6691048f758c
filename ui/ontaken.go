package ui

import "quarterstep/app/edit"

// connectTaken turns what the Photo panel reports of a photo and its way to be
// flat into steps.
func (w *Window) connectTaken() {
	t, p := w.table, w.photos
	t.OnPlace, t.OnGrab, t.OnDragTraced = w.placed, w.grab, w.dragTraced
	w.table.OnMenuTraced = w.tracedMenu
	p.OnBringIn = w.bringIn
	p.OnPhoto = w.choosePhoto
	p.OnRemove = w.removePhoto
	p.OnCancel = func() {
		w.stopJob(w.photo())
		w.refresh()
	}
	p.OnReference = w.chooseReference
	p.OnMeasured = w.typedMeasured
	p.OnAgain = func() {
		if ph := w.photo(); ph != nil {
			ph.clicks, ph.note = nil, ""
			w.refresh()
		}
	}
	p.OnFlatten = w.straightenPhoto
	p.OnShown = func(flat bool) {
		if ph := w.photo(); ph != nil {
			ph.asTaken = !flat
			w.refresh()
			w.table.Fit()
		}
	}
	p.OnDim = func(on bool) {
		const dim = 0.6
		faded := 0.0
		if on {
			faded = dim
		}
		w.do("dim a photo", edit.FadePicture(w.photo().id, faded))
	}
	p.OnGrown = w.relaySide
}
