package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// handOfNext counts what a sewist does who goes by what is proposed: a click
// where a corner is wrong, Enter where it is right or all of them are.
type handOfNext struct {
	clicks, keys int
	wrong        int // corners that were wrong without a doubt
}

// take confirms and corrects a proposed size until it is taken.
func (h *handOfNext) take(t *testing.T, w *Window, q model.Piece, size string, at geom.Vec) {
	t.Helper()
	const right = 1.0 // mm
	next := &w.paper.trace.next
	if w.paper.trace.size != size || !next.on {
		t.Fatalf("size %s is in hand, not %s, and proposed: %v", w.paper.trace.size, size, next.on)
	}
	corners := cornersOf(t, q, size, at)
	for range 2 * len(corners) {
		if line := lineInHand(w, size); line.Closed {
			return
		}
		c, doubtful := next.Ask()
		for i := 0; !doubtful && i < len(corners); i++ { // she looks over all of them
			if d := next.Line.Corners[i].Dist(corners[i]); d > right {
				t.Logf("size %s: corner %d is %.2f mm off without a doubt", size, i+1, d)
				h.wrong++
				c = i
				break
			}
		}
		if d := next.Line.Corners[c].Dist(corners[c]); d > right {
			t.Logf("size %s: corner %d is %.2f mm off and clicked", size, c+1, d)
			w.table.OnPlace(corners[c])
			h.clicks++
			continue
		}
		press(w, fyne.KeyReturn)
		h.keys++
	}
	t.Fatalf("size %s was never done", size)
}

// The demo's front bodice has 14 corners, half of them where one edge goes on
// smoothly in the next. Clicked corner by corner its four sizes take 60 clicks.
func TestABodiceTakesFewClicks(t *testing.T) {
	q, chart := demoPiece(t, "Front bodice")
	g, at := printedPiece(q, bibPerMM)
	sizes := q.Nest
	w := onPaper(t, g, bibPerMM, chart, sizes[0].Size, sizes[len(sizes)-1].Size)
	w.table.ZoomBy(12) // as one does who looks closely
	last := len(sizes) - 1
	hand := handOfNext{clicks: clickLine(t, w, q, sizes[last].Size, at)}
	for k := last - 1; k >= 0; k-- {
		hand.take(t, w, q, sizes[k].Size, at)
	}
	if t.Logf("%+v", hand); hand.clicks+hand.keys > 32 || hand.wrong > 1 {
		t.Errorf("it took %d clicks and %d keys, %d corners were wrong without a doubt", hand.clicks, hand.keys, hand.wrong)
	}
}

// Undoing the line that a proposal goes by takes the proposal away.
func TestUndoTakesTheProposalAway(t *testing.T) {
	q, chart := demoPiece(t, "Front neck facing")
	g, at := printedPiece(q, bibPerMM)
	sizes := q.Nest
	last := len(sizes) - 1
	w := onPaper(t, g, bibPerMM, chart, sizes[0].Size, sizes[last].Size)
	w.table.ZoomBy(12)
	clickLine(t, w, q, sizes[last].Size, at)
	if !w.paper.trace.next.on {
		t.Fatal("nothing is proposed")
	}
	w.rail.OnUndo()
	if v := w.photoView(w.doc.Pattern()); w.paper.trace.next.on || v.Lines.Next != "" || len(w.traceOnTable().Next) > 0 {
		t.Errorf("the proposal stays: %+v", v.Lines)
	}
}
