package ui

import (
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// toggle is one thing the Table can show.
type toggle struct {
	panel.ToggleView
	turn func(on bool)
}

// toggles is what the Table can show at the present step, in the order of the
// bar above it.
func (w *Window) toggles() []toggle {
	out := []toggle{
		{panel.ToggleView{Word: words.T("Nest"), Hint: words.T("Show the printed sizes (N)"), On: w.nest}, func(on bool) { w.nest = on }},
		{panel.ToggleView{Word: words.T("Seam"), Hint: words.T("Show the stitching line (I)"), On: w.seam}, func(on bool) { w.seam = on }},
	}
	if w.withPhoto() {
		return []toggle{w.tracedToggle(), w.closeUpToggle()}
	}
	if w.doc != nil && len(w.doc.Pattern().Pictures) > 0 {
		out = append(out, toggle{panel.ToggleView{Word: words.T("Photo"), Hint: words.T("Show the photos under the pieces"), On: w.paper.under}, func(on bool) { w.paper.under = on }})
	}
	if w.step == stepPrint {
		return append([]toggle{
			{panel.ToggleView{Word: words.T("Page names"), Hint: words.T("Show the pages' names"), On: !w.print.noNames}, func(on bool) { w.print.noNames = !on }},
			{panel.ToggleView{Word: words.T("Glue strips"), Hint: words.T("Show where pages lie over each other"), On: !w.print.noGlue}, func(on bool) { w.print.noGlue = !on }},
		}, w.laidOver()...)
	}
	if w.step == stepTrue {
		return append(append(
			out,
			toggle{panel.ToggleView{Word: words.T("Walk"), Hint: words.T("Lay the two sides of the seam along each other"), On: w.walkShown()}, func(on bool) { w.trues.walk = map[bool]wish{true: wanted, false: unwanted}[on] }},
			toggle{panel.ToggleView{Word: words.T("Join"), Hint: words.T("Lay the pieces together at the seam (J)"), On: w.trues.join}, w.joinPieces},
		), w.laidOver()...)
	}
	return append(out, w.closeUpToggle(), w.rulerToggle())
}

// laidOver are the switches of what lies over the Table from another step, so that
// it can be put away where it has none of its own.
func (w *Window) laidOver() []toggle {
	var out []toggle
	if t := w.closeUpToggle(); t.On {
		out = append(out, t)
	}
	if t := w.rulerToggle(); t.On && w.step != stepPrint { // pages have no gap to read
		out = append(out, t)
	}
	return out
}

func (w *Window) closeUpToggle() toggle {
	return toggle{panel.ToggleView{Word: words.T("Close-up"), Hint: words.T("Show the pointer's place larger (C)"), On: w.table.CloseUp()}, w.table.SetCloseUp}
}

func (w *Window) rulerToggle() toggle {
	return toggle{panel.ToggleView{Word: words.T("Ruler"), Hint: words.T("Lay the see-through ruler on the Table (U)"), On: w.table.Ruler()}, w.table.SetRuler}
}

// tracedToggle shows what is traced over the photo, or the print alone.
func (w *Window) tracedToggle() toggle {
	return toggle{
		panel.ToggleView{Word: words.T("Traced lines"), Hint: words.T("Show what is traced over the photo (N)"), On: !w.paper.unseen},
		func(on bool) { w.paper.unseen = !on },
	}
}

func (w *Window) toggleViews() []panel.ToggleView {
	var out []panel.ToggleView
	for _, t := range w.toggles() {
		out = append(out, t.ToggleView)
	}
	return out
}

// joinPieces lays the pieces of the seam in hand together, or back where they
// were.
func (w *Window) joinPieces(on bool) {
	w.trues.join = on
	w.refresh()
	w.table.Fit()
}

// nestKey shows or hides the printed sizes, and at a photo what is traced on it.
func (w *Window) nestKey() {
	if w.withPhoto() {
		w.paper.unseen = !w.paper.unseen
	} else {
		w.nest = !w.nest
	}
	w.refresh()
}
