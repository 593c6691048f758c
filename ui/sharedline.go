package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// askShared asks which sizes above it a printed line of the piece in hand serves
// too.
func (w *Window) askShared() {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 || w.dialogOpen {
		return
	}
	q := p.Pieces[i]
	var lines []string
	for _, o := range q.Nest {
		lines = append(lines, o.Label())
	}
	const columns = 8
	var also []*widget.Check
	boxes := container.NewGridWithColumns(columns)
	none := widget.NewLabel(words.T("The next size up has a line of its own."))
	line := panel.NewListed(lines, nil)
	line.OnChanged = func(string) {
		n := line.SelectedIndex()
		also = nil
		boxes.RemoveAll()
		for _, size := range sizesAbove(p.Chart, q, n) {
			c := widget.NewCheck(size, nil)
			c.Checked = slices.Contains(q.Nest[n].Also, size)
			also = append(also, c)
			boxes.Add(c)
		}
		none.Hidden = len(also) > 0
	}
	line.SetSelectedIndex(len(lines) - 1)
	w.form(words.F("Sizes of %s that share a line", q.Name), words.T("That is so"), []*widget.FormItem{
		widget.NewFormItem(words.T("The line of size"), line),
		widget.NewFormItem(words.T("serves also"), boxes),
		widget.NewFormItem("", none),
	}, line, func() { w.shareLine(q, line.SelectedIndex(), ticked(also)) })
}

func ticked(checks []*widget.Check) []string {
	var out []string
	for _, c := range checks {
		if c.Checked {
			out = append(out, c.Text)
		}
	}
	return out
}

// shareLine says that printed line n of q serves those sizes too.
func (w *Window) shareLine(q model.Piece, n int, also []string) {
	size := q.Nest[n].Size
	label := words.F("size %s has its line alone", size)
	if len(also) > 0 {
		label = words.F("one line for sizes %s", strings.Join(append([]string{size}, also...), ", "))
	}
	w.do(label, edit.SharedLine(q.ID, size, also))
}

// sizesAbove is the sizes above that of printed line n of q which have no line
// of their own up to the next one printed.
func sizesAbove(c model.SizeChart, q model.Piece, n int) []string {
	place, ok := c.Place(q.Nest[n].Size)
	if !ok {
		return nil
	}
	end := len(c.Sizes)
	if n+1 < len(q.Nest) {
		if next, ok := c.Place(q.Nest[n+1].Size); ok {
			end = next
		}
	}
	var out []string
	for _, s := range c.Sizes[place+1 : end] {
		out = append(out, s.Name)
	}
	return out
}
