package ui

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
)

// askOneSize asks, of a drawing without size layers, whether it is all of one
// size, and which; why says what was missing.
func (w *Window) askOneSize(path string, why error) {
	charts := w.charts()
	if w.dialogOpen || len(charts) == 0 {
		return
	}
	var names []string
	for _, c := range charts {
		names = append(names, c.Name)
	}
	size := widget.NewSelect(nil, nil)
	chart := widget.NewSelect(names, nil)
	chart.OnChanged = func(name string) {
		i := slices.Index(names, name)
		size.Options = nil
		for _, s := range charts[i].Sizes {
			size.Options = append(size.Options, s.Name)
		}
		size.ClearSelected()
		size.Refresh()
	}
	chart.SetSelected(names[max(0, slices.Index(names, w.doc.Pattern().Chart.Name))])
	said := widget.NewLabel(why.Error())
	said.Wrapping = fyne.TextWrapWord
	w.dialogOpen = true
	d := dialog.NewForm("This drawing has no nest that can be used", "It is one size", "Leave it", []*widget.FormItem{
		widget.NewFormItem("", said),
		widget.NewFormItem("Chart", chart),
		widget.NewFormItem("All of it is size", size),
	}, func(yes bool) {
		w.dialogOpen = false
		if !yes || size.Selected == "" {
			return
		}
		got, err := app.BringInOneSize(path, charts[slices.Index(names, chart.Selected)], size.Selected)
		if err != nil {
			w.fail("This drawing cannot be used", err)
			return
		}
		w.broughtIn(path, got, nil)
		w.say("Brought in " + filepath.Base(path) + " as one size: say how it grows.")
	}, w.win)
	d.Resize(d.MinSize().AddWidthHeight(160, 40))
	d.Show()
}
