package ui

import "fyne.io/fyne/v2"

// region is a part of the window that F6 goes to, and where the keyboard comes
// in on it.
type region struct {
	whole fyne.CanvasObject
	first func() fyne.Focusable
}

// regions are the parts of the window that show now, in the order in which F6
// goes through them. The Table comes first: there the work is.
func (w *Window) regions() []region {
	all := []region{
		{w.table, func() fyne.Focusable { return w.table }},
		{w.start, w.start.First},
		{w.tour, w.tour.First},
		{w.walk, func() fyne.Focusable { return w.walk }},
		{w.joinBar, w.joinBar.First},
		{w.strip, w.strip.First},
		{w.side, w.firstFold},
		{w.rail, w.rail.First},
		{w.red, w.red.First},
		{w.shelf, w.shelf.First},
		{w.tools, w.tools.First},
	}
	var out []region
	for _, r := range all {
		if r.whole.Visible() && r.first() != nil {
			out = append(out, r)
		}
	}
	return out
}

// firstFold is the header of the side panel that is open, else of the first.
func (w *Window) firstFold() fyne.Focusable {
	for _, open := range []bool{true, false} {
		for _, f := range w.order {
			if f.Visible() && (f.Open() || !open) {
				return f.First()
			}
		}
	}
	return nil
}

// nextRegion takes the keyboard to the part of the window after the one it is
// in, or before.
func (w *Window) nextRegion(back bool) {
	all, c := w.regions(), w.win.Canvas()
	at := -1
	if o, ok := c.Focused().(fyne.CanvasObject); ok {
		at = regionOf(all, o)
	}
	step := 1
	if back {
		step = len(all) - 1
		at = max(at, 0)
	}
	c.Focus(all[(at+step)%len(all)].first())
}

// regionOf is the region that o lies in, by its middle; of several that lie over
// each other the last, which is on top. -1 for none.
func regionOf(all []region, o fyne.CanvasObject) int {
	d := fyne.CurrentApp().Driver()
	at, size, found := d.AbsolutePositionForObject(o), o.Size(), -1
	for i, r := range all {
		if r.whole == o {
			return i
		}
		from, of := d.AbsolutePositionForObject(r.whole), r.whole.Size()
		x, y := at.X+size.Width/2-from.X, at.Y+size.Height/2-from.Y
		if x >= 0 && x < of.Width && y >= 0 && y < of.Height {
			found = i
		}
	}
	return found
}
