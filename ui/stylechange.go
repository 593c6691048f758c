package ui

import (
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// askStyle asks for a style change over the whole pattern, and by how much.
func (w *Window) askStyle() {
	if w.dialogOpen || len(w.doc.Pattern().Pieces) == 0 {
		return
	}
	var names []string
	for _, s := range edit.Styles {
		names = append(names, s.Said())
	}
	style := panel.NewListed(names, nil)
	style.SetSelectedIndex(0)
	by := panel.NewLine()
	by.SetPlaceHolder(words.T("10 mm, 3/8 in"))
	w.form(words.T("Style change, on all pieces"), words.T("Change"), []*widget.FormItem{
		widget.NewFormItem(words.C("a style change", "Change"), style),
		widget.NewFormItem(words.T("By"), by),
	}, by, func() {
		if err := w.changeStyle(style.SelectedIndex(), by.Text); err != nil {
			w.fail(words.T("This change cannot be made"), err)
		}
	})
}

// askParallel asks by how much the edge in hand is to be moved parallel.
func (w *Window) askParallel() {
	q, j, _, ok := w.inHandOf()
	if !ok || w.dialogOpen {
		return
	}
	ways := []string{words.T("out of the piece"), words.T("into the piece")}
	way := panel.NewListed(ways, nil)
	way.SetSelectedIndex(0)
	by := panel.NewLine()
	by.SetPlaceHolder(words.T("5 mm, 1/4 in"))
	w.form(words.F("Move %s of %s parallel", words.Small(edgeName(q, j)), q.Name), words.T("Move"), []*widget.FormItem{
		widget.NewFormItem(words.T("By"), by),
		widget.NewFormItem("", way),
	}, by, func() {
		if err := w.shiftEdge(way.SelectedIndex() == 1, by.Text); err != nil {
			w.fail(words.T("It cannot be moved"), err)
		}
	})
}
