package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/assets"
	"quarterstep/assets/words"
)

// about says which Quarterstep this is and under which licences it and what is
// built into it may be used.
func (w *Window) about() {
	if w.dialogOpen {
		return
	}
	text := widget.NewLabel(assets.Licences)
	text.TextStyle = fyne.TextStyle{Monospace: true}
	text.Wrapping = fyne.TextWrapWord
	head := widget.NewLabel(words.F("Quarterstep, %s. A workbench for paper patterns.\nIt comes without warranty: check the scale, sew a toile. Below are its licence and those of what is built into it.", app.VersionWords()))
	scroll := container.NewVScroll(text)
	w.tell(words.T("About Quarterstep"), container.NewBorder(head, nil, nil, nil, scroll), scroll, fyne.NewSize(820, 640))
}
