package ui

import (
	"slices"

	"quarterstep/assets/words"
)

// apart are the photos by themselves that could be joined to the one in hand.
func (w *Window) apart(ph *photo) []*photo {
	var out []*photo
	p := w.doc.Pattern()
	for _, q := range w.paper.photos {
		if q != ph && q.shot != nil && q.solved && q.lead == nil && len(q.joined) == 0 && !traced(p, q.id) {
			out = append(out, q)
		}
	}
	return out
}

// joinAllWords offers to join all photos to the one in hand; empty where it has
// no others, or they are being joined.
func (w *Window) joinAllWords(ph *photo) string {
	n := len(w.apart(ph))
	if n == 0 || !ph.solved || ph.lead != nil || len(w.paper.toJoin) > 0 || traced(w.doc.Pattern(), ph.id) {
		return ""
	}
	if n+1+len(ph.joined) == 2 {
		return words.T("Join both photos into one piece")
	}
	return words.F("Join all %d photos into one piece", n+1+len(ph.joined))
}

// joinAll joins all photos to the one in hand, one after another, by what they
// show alike.
func (w *Window) joinAll() {
	if ph := w.photo(); ph != nil && w.joinAllWords(ph) != "" {
		w.paper.toJoin = w.apart(ph)
		w.joinNext(ph)
	}
}

// joinNext goes on with the next part to be joined to a photo.
func (w *Window) joinNext(lead *photo) {
	if len(w.paper.toJoin) == 0 {
		return
	}
	ph := w.paper.toJoin[0]
	w.paper.toJoin = w.paper.toJoin[1:]
	i := slices.Index(w.paper.photos, ph)
	if slices.Index(w.paper.photos, lead) < 0 {
		w.paper.toJoin = nil
		return
	}
	if i < 0 || ph.lead != nil {
		w.joinNext(lead)
		return
	}
	if w.photo() == lead { // else she looks at another one meanwhile
		w.letGo()
		w.paper.inHand = i
	}
	ph.lead, ph.missed = lead, ph.missed && len(lead.joined) == ph.missedBy
	if ph.missed {
		w.notMet(ph)
		return
	}
	w.meet(ph)
	w.refresh()
	w.table.Fit()
}

// notMet is a part whose place the overlap does not tell: it waits while others
// are joined, as it may overlap one of those, and then its marks are clicked.
func (w *Window) notMet(ph *photo) {
	lead := ph.lead
	if len(w.paper.toJoin) > 0 && !ph.missed {
		ph.lead, ph.missed, ph.missedBy = nil, true, len(lead.joined)
		w.paper.toJoin = append(w.paper.toJoin, ph)
		if i := slices.Index(w.paper.photos, lead); i >= 0 && w.photo() == ph {
			w.paper.inHand = i
		}
		w.joinNext(lead)
		return
	}
	w.paper.toJoin = nil
	ph.note = words.T("What the photos show alike does not tell where they meet: click two places that both show. If they show different pieces, choose “A piece of its own”.")
	w.refresh()
}
