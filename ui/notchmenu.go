package ui

import (
	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model/geom"
)

// notchReach is how near, in mm, a right click must be to a notch to mean it.
const notchReach = 15

// notchItems is what can be done to the notches of the edge in hand where the
// pointer is: mark one there, with its mate across the seam, or take the one
// there off.
func (w *Window) notchItems() []*fyne.MenuItem {
	q, j, _, ok := w.inHandOf()
	if !ok || w.hand.Edge == "" || w.hand.Point != "" {
		return nil
	}
	at, err := w.onPiece(q.ID, w.pointer)
	if err != nil {
		return nil
	}
	r := w.doc.Result().Pieces[w.doc.Pattern().PieceIndex(q.ID)]
	if id, near := nearNotch(r, j, at); near {
		return []*fyne.MenuItem{
			fyne.NewMenuItem(words.T("Take this notch off"), func() { w.do(words.T("take a notch off"), edit.RemoveNotch(q.ID, id)) }),
			fyne.NewMenuItemSeparator(),
		}
	}
	share, err := edit.EdgeShare(r.Edges[j], at)
	if err != nil {
		return nil
	}
	return []*fyne.MenuItem{
		fyne.NewMenuItem(words.F("Notch %s here", words.Small(edgeName(q, j))), func() { w.do(words.T("add a notch"), edit.AddNotch(q.ID, q.Edges[j].ID, share)) }),
		fyne.NewMenuItemSeparator(),
	}
}

// nearNotch is the notch of an edge nearest to a place, within reach.
func nearNotch(r grading.Piece, edge int, at geom.Point) (id string, near bool) {
	best := float64(notchReach)
	for _, n := range r.Notches {
		if d := n.At.Dist(at); n.Edge == edge && d < best {
			id, near, best = n.ID, true, d
		}
	}
	return id, near
}
