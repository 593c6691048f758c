package ui

import (
	"slices"
	"strings"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/trace/straight"
	"quarterstep/ui/panel"
)

// photoView is the Photo panel.
func (w *Window) photoView(p model.Pattern) panel.PhotoView {
	v := panel.PhotoView{
		Empty: words.T("Lay printed targets, a plain A4 or Letter page or a cutting mat beside the paper pattern and take a photo from straight above, or scan it. Several at once are fine."),
		Photo: w.paper.inHand,
	}
	for i, ph := range w.paper.photos {
		v.Photos = append(v.Photos, words.F("Photo %d of %d: %s", i+1, len(w.paper.photos), ph.name))
	}
	ph := w.photo()
	if ph == nil {
		return v
	}
	v.Busy, v.Share, v.Note = ph.job.words, ph.job.share, ph.note
	v.Flat = w.isFlat(ph) && ph.shot != nil
	v.Shown, v.Traced = w.showsFlat(ph), ph.id != "" && traced(p, ph.id)
	if i := p.PictureIndex(ph.id); i >= 0 {
		v.Dimmed = p.Pictures[i].Faded > 0
	}
	v.Says, v.SaysLook = w.straightSays(ph)
	if ph.shot != nil {
		w.takenView(&v, ph)
		v.Leads, _, v.Lead = w.leadNames(ph)
		v.JoinAll = w.joinAllWords(ph)
		v.Parts = w.partViews(ph)
	}
	if i := slices.Index(w.paper.photos, ph.twin); i >= 0 && v.Note == "" {
		v.Note = words.F("This is the same picture as photo %d. That is fine where two pieces are traced from it, else take one of the two away.", i+1)
	}
	if v.Joining = w.joining(ph); (v.Shown || w.tracesTaken(ph)) && !v.Joining {
		v.Lines = w.linesView(p, ph)
	}
	return v
}

// straightSays is how far a photo made flat is to be trusted, and what became of
// its lens.
func (w *Window) straightSays(ph *photo) (say string, look bool) {
	if !ph.solved || ph.shot == nil {
		return "", false
	}
	say = ph.straight.Say
	if lead := ph.leads(); lead != nil {
		for _, k := range lead.joined {
			if k.ph == ph {
				say = k.straight.Say
			}
		}
	}
	look = doubtful(say)
	if ph.cardSays != "" {
		say += " " + ph.cardSays
	}
	if n := w.carried(ph); n > 0 {
		say += " " + words.N(n, "The other scan of this resolution goes by it too.", "The %d other scans of this resolution go by it too.", n)
	}
	switch {
	case ph.byLens:
		say += " " + words.T("The lens of this camera was known from an earlier photo, which helps.")
	case ph.taught:
		say += " " + words.T("The lens of this camera is known now, for its later photos.")
	}
	return say, look
}

// doubtful reports whether what is said of a photo asks for another one.
func doubtful(say string) bool {
	for _, asks := range []words.Text{"take it again", "take the photo again", "take this part again", "rough check only", "print again"} {
		if strings.Contains(say, asks.String()) {
			return true
		}
	}
	return false
}

// takenView is how the photo is made flat.
func (w *Window) takenView(v *panel.PhotoView, ph *photo) {
	u := w.doc.Pattern().Unit
	v.References, v.Reference = referenceNames(), chosenReference(ph.ask)
	v.Fields = measuredFields(ph, u)
	v.Clicked = len(ph.clicks)
	v.Lengths, v.LengthSay = w.lengthViews(ph, u)
	v.Measuring, v.Measurable = w.paper.measure.on && !w.paper.measure.card, w.measurable(ph) && !w.joining(ph)
	v.Carding, v.Cardable = w.paper.measure.card, v.Measurable && ph.solved && (ph.ask.Reference == paper.Scan || !v.Shown) && !(ph.ask.Reference == paper.Page && ph.ask.Paper.Name == straight.Card.Name)
	switch ph.ask.Reference {
	case paper.Targets:
		v.Title, v.Found, v.Targets = targetTitle(ph.seen)
		switch {
		case distancesNeeded(ph.seen) && !ph.solved:
			v.Ask = words.T("Measure from middle to middle of the targets, and type both distances.")
		case distancesAsked(ph.seen) && ph.ask.Apart == [2]float64{}:
			v.Ask = words.T("Measured from middle to middle, they tell whether the printer kept the size.")
		}
	case paper.Scan:
		v.Title = words.T("Scan")
		if !w.ready(ph) {
			v.Ask = words.T("This picture does not say its scale. Measure a drawn length, then type it.")
		}
	default:
		v.Title = words.T("Lies beside the piece")
		if v.Shown {
			v.Title = references[v.Reference].name.String()
		}
		for i := range clicksNeeded(ph) {
			v.Targets = append(v.Targets, i < len(ph.clicks))
		}
		switch {
		case ph.ask.Reference == paper.Mat:
			v.Ask = w.cellAsk(ph)
		case len(ph.clicks) == 0 && !ph.solved:
			v.Ask = words.T("Click the corners of what lies beside the piece. If nothing does, nobody knows how large it is: take the photo again, with a plain page or printed targets beside it.")
		}
		v.Found = words.F("%d of %d clicked", len(ph.clicks), clicksNeeded(ph))
	}
	if w.ready(ph) && !ph.solved && ph.job.words == "" && ph.note == "" {
		v.Flatten = words.T("Straighten this photo")
	}
}

// pillWords is what to click next.
func (w *Window) pillWords() string {
	ph := w.photo()
	if w.step != stepBringIn || ph == nil {
		return ""
	}
	if w.joining(ph) {
		return partAsk(ph)
	}
	if w.paper.measure.on {
		return w.lengthAsk()
	}
	if !w.showsFlat(ph) {
		if ph.shot == nil || ph.job.words != "" {
			return ""
		}
		if ask := w.takenAsk(ph); ask != "" || !w.tracesTaken(ph) {
			return ask
		}
	}
	if ask := w.markAsk(); ask != "" {
		return ask
	}
	return w.traceAsk()
}

// takenNow reports whether the Table shows a photo as it was taken, or parts that
// are joined.
func (w *Window) takenNow() bool {
	ph := w.photo()
	return w.step == stepBringIn && ph != nil && (w.joining(ph) || !w.showsFlat(ph))
}

// takenStatus is what the status bar says then.
func (w *Window) takenStatus() []string {
	parts := []string{words.F("Photo %d as taken", w.paper.inHand+1)}
	ph := w.photo()
	switch {
	case w.joining(ph):
		parts = []string{words.F("Photo %d beside photo %d", w.paper.inHand+1, slices.Index(w.paper.photos, ph.lead)+1), words.T("Backspace takes a mark back")}
	case len(ph.clicks) > 0 && len(ph.clicks) < clicksNeeded(ph):
		parts = append(parts, words.T("Backspace takes a click back"))
	case w.paper.picked.place != nil:
		parts = append(parts, words.T("The arrow keys move this corner, Esc lets go"))
	case len(ph.clicks) > 0:
		parts = append(parts, words.T("Drag a corner to mend it, or click it and use the arrow keys"))
	}
	return parts
}
