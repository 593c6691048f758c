package panel

import "fyne.io/fyne/v2"

// First is where the keyboard comes in on the rail: the present step.
func (r *Rail) First() fyne.Focusable {
	if i := r.view.Present; i >= 0 && i < len(r.steps) {
		return r.steps[i]
	}
	return r.name
}

// First is where the keyboard comes in on the Shelf: the piece in hand, else its
// first, else the way to bring one in.
func (s *Shelf) First() fyne.Focusable {
	n := len(s.list.Objects)
	for _, c := range s.cards[:n] {
		if c.chosen {
			return c
		}
	}
	if n > 0 {
		return s.cards[0]
	}
	return s.add
}

// First is where the keyboard comes in on the bar of tools: the tool in hand.
func (t *Tools) First() fyne.Focusable {
	if i := t.view.Chosen; i >= 0 && i < len(t.tools) {
		return t.tools[i]
	}
	return t.fit
}

// First is where the keyboard comes in on the Size strip: its line.
func (s *Strip) First() fyne.Focusable { return s.line }

// First is where the keyboard comes in on a side panel: its header.
func (f *Fold) First() fyne.Focusable { return f.head }

// First is where the keyboard comes in on the start page.
func (s *Start) First() fyne.Focusable { return s.first }

// First is where the keyboard comes in on the tour.
func (t *Tour) First() fyne.Focusable { return t.next }

// First is where the keyboard comes in on the strip of a seam laid together; nil
// while it has no places.
func (b *JoinBar) First() fyne.Focusable {
	if len(b.places) == 0 {
		return nil
	}
	return b.places[min(max(b.view.Place, 0), len(b.places)-1)]
}

// First is where the keyboard comes in on the strip across the head of the
// window: its button.
func (r *RedStrip) First() fyne.Focusable { return r.button }
