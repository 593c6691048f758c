package ui

import (
	"fmt"

	"quarterstep/app/paper"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// photoView is the Photo panel.
func (w *Window) photoView(p model.Pattern) panel.PhotoView {
	v := panel.PhotoView{
		Empty: "Take a photo of the paper pattern with a plain A4 or Letter page or a cutting mat beside it, from straight above, or scan it. Several at once are fine.",
		Photo: w.paper.inHand,
	}
	for i, ph := range w.paper.photos {
		v.Photos = append(v.Photos, fmt.Sprintf("%d of %d: %s", i+1, len(w.paper.photos), ph.name))
	}
	ph := w.photo()
	if ph == nil {
		return v
	}
	v.Busy, v.Share, v.Note = ph.job.words, ph.job.share, ph.note
	v.Flat = w.isFlat(ph) && ph.shot != nil
	v.Shown = w.showsFlat(ph)
	if i := p.PictureIndex(ph.id); i >= 0 {
		v.Dimmed = p.Pictures[i].Faded > 0
	}
	if ph.solved {
		v.Says = ph.straight.Say
	}
	if ph.shot != nil {
		w.takenView(&v, ph)
	}
	if v.Shown {
		v.Lines = w.linesView(p, ph)
	}
	return v
}

// takenView is how the photo is made flat.
func (w *Window) takenView(v *panel.PhotoView, ph *photo) {
	v.References, v.Reference = referenceNames(), chosenReference(ph.ask)
	v.Fields = measuredFields(ph, w.doc.Pattern().Unit)
	need := clicksNeeded(ph)
	v.Clicked = len(ph.clicks)
	for i := range need {
		v.Targets = append(v.Targets, i < len(ph.clicks))
	}
	if need > 0 {
		v.Found = fmt.Sprintf("%d of %d clicked", len(ph.clicks), need)
	}
	if ph.ask.Reference == paper.Scan {
		v.Ask = "A scan says its own scale. To be sure, type how long two drawn lines are, one across and one down, and click their ends."
	}
	if len(ph.clicks) == need && ph.job.words == "" {
		v.Flatten = "Straighten this photo"
	}
}

// pillWords is what to click next.
func (w *Window) pillWords() string {
	ph := w.photo()
	if w.step != stepBringIn || ph == nil {
		return ""
	}
	if !w.showsFlat(ph) {
		if ph.shot == nil || ph.job.words != "" {
			return ""
		}
		if len(ph.clicks) < clicksNeeded(ph) {
			return takenAsk(ph)
		}
		return ""
	}
	if ask := w.markAsk(); ask != "" {
		return ask
	}
	return w.traceAsk()
}
