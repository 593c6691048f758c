package ui

import (
	"strings"

	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/ui/panel"
)

// askStyle asks for a style change over the whole pattern, and by how much.
func (w *Window) askStyle() {
	if w.dialogOpen || len(w.doc.Pattern().Pieces) == 0 {
		return
	}
	var names []string
	for _, s := range edit.Styles {
		names = append(names, string(s))
	}
	style := panel.NewListed(names, nil)
	style.SetSelectedIndex(0)
	by := panel.NewLine()
	by.SetPlaceHolder("10 mm, 3/8 in")
	w.form("Style change, on all pieces", "Change", []*widget.FormItem{
		widget.NewFormItem("Change", style),
		widget.NewFormItem("By", by),
	}, by, func() {
		if err := w.changeStyle(style.SelectedIndex(), by.Text); err != nil {
			w.fail("This change cannot be made", err)
		}
	})
}

// askParallel asks by how much the edge in hand is to be moved parallel.
func (w *Window) askParallel() {
	q, j, _, ok := w.inHandOf()
	if !ok || w.dialogOpen {
		return
	}
	ways := []string{"out of the piece", "into the piece"}
	way := panel.NewListed(ways, nil)
	way.SetSelectedIndex(0)
	by := panel.NewLine()
	by.SetPlaceHolder("5 mm, 1/4 in")
	w.form("Move "+strings.ToLower(edgeName(q, j))+" of "+q.Name+" parallel", "Move", []*widget.FormItem{
		widget.NewFormItem("By", by),
		widget.NewFormItem("", way),
	}, by, func() {
		if err := w.shiftEdge(way.SelectedIndex() == 1, by.Text); err != nil {
			w.fail("It cannot be moved", err)
		}
	})
}
