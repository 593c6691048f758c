package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
)

// textSizes are how large words can be made.
var textSizes = []float64{1, 1.25, 1.5}

// textMenu offers the sizes of words.
func (w *Window) textMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Size of words"), nil)
	var sizes []*fyne.MenuItem
	for _, size := range textSizes {
		m := fyne.NewMenuItem(fmt.Sprintf("%.0f %%", 100*size), func() { w.setText(size) })
		m.Checked = size == w.settings.TextSize()
		sizes = append(sizes, m)
	}
	item.ChildMenu = fyne.NewMenu("", sizes...)
	return item
}

// setText shows words at another size from now on.
func (w *Window) setText(size float64) {
	w.settings.Text = size
	w.keepSettings()
	w.setTheme()
	w.refresh()
	w.table.Fit()
}
