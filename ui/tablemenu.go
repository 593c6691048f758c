package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/ui/scene"
)

// tableMenu takes in hand what was right-clicked and shows what can be done to
// it by eye.
func (w *Window) tableMenu(at scene.Ref, place fyne.Position) {
	w.straight = scene.Ref{}
	w.dropDart()
	w.hold(at)
	w.refresh()
	// Set off from the pointer, so that a second click does not choose the first
	// entry.
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.handMenu()...), w.win.Canvas(), place.AddXY(8, 8))
}

// handMenu is what can be done to what is in hand: a grade point, an edge, or
// the piece alone.
func (w *Window) handMenu() []*fyne.MenuItem {
	items := w.dartItems()
	if q, j, k, ok := w.inHandOf(); ok {
		point, edge := words.Small(pointName(q, k)), words.Small(edgeName(q, j))
		if w.hand.Point != "" {
			lock := fyne.NewMenuItem(words.F("Lock %s", point), w.lock)
			lock.Checked = q.Points[k].Locked
			items = append(
				items,
				fyne.NewMenuItem(words.F("Run smoothly through %s", point), w.smoothThrough),
				fyne.NewMenuItem(words.T("Straighten to another point ..."), w.straightenFrom),
				fyne.NewMenuItem(words.T("Make a dart to another point ..."), w.newDart),
				lock,
				fyne.NewMenuItemSeparator(),
			)
		}
		if w.hand.Edge != "" {
			items = append(
				items,
				fyne.NewMenuItem(words.F("Straighten %s", edge), w.straightenEdge),
				fyne.NewMenuItem(words.F("Move %s parallel ...", edge), w.askParallel),
				w.curveMenu(),
				fyne.NewMenuItemSeparator(),
			)
		}
	}
	items = append(items, w.notchItems()...)
	items = append(items, w.linkItems()...)
	return append(items, w.pieceMenu(), fyne.NewMenuItem(words.T("Style change ..."), w.askStyle), w.stagesItem())
}

// curveMenu is the curves the edge in hand can have.
func (w *Window) curveMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Curve"), nil)
	item.ChildMenu = fyne.NewMenu("")
	q, j, _, ok := w.inHandOf()
	if !ok {
		return item
	}
	names, chosen := curveChoices(q, j)
	for i, name := range names {
		choice := fyne.NewMenuItem(name, func() { w.chooseCurve(i) })
		choice.Checked = i == chosen
		item.ChildMenu.Items = append(item.ChildMenu.Items, choice)
	}
	return item
}

// stagesItem keeps corrections with the size they are made at, or for all sizes.
func (w *Window) stagesItem() *fyne.MenuItem {
	on := w.doc.Pattern().Target.Stages
	item := fyne.NewMenuItem(words.T("Keep corrections with this size"), func() { w.setStages(!on) })
	item.Checked = on
	return item
}

// setStages says whether new corrections belong to the size wanted.
func (w *Window) setStages(on bool) {
	label := words.T("corrections for all sizes")
	if on {
		label = words.T("corrections for this size")
	}
	w.do(label, edit.Stages(on))
}
