package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// answer is a button under a question; best is the one that loses nothing.
type answer struct {
	word string
	then func()
	best bool
	away bool // what Escape does; without one, the first that does nothing
}

// question asks in a dialog; while another is open it is not asked.
func (w *Window) question(title, words string, answers ...answer) {
	if w.dialogOpen {
		return
	}
	said := widget.NewLabel(words)
	said.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, said, w.win)
	var buttons []fyne.CanvasObject
	var first *panel.Push
	keys := asked{}
	for _, a := range answers {
		give := func() {
			d.Hide()
			w.hasNoDialog()
			if a.then != nil {
				a.then()
			}
		}
		b := panel.NewPush(a.word, give)
		if a.best {
			b.Importance = widget.HighImportance
			first, keys.yes = b, give
		}
		if a.away || keys.no == nil && a.then == nil {
			keys.no = give
		}
		buttons = append(buttons, b)
	}
	d.SetButtons(buttons)
	w.hasDialog(keys)
	d.Resize(fyne.NewSize(460, 0))
	d.Show()
	if first != nil {
		w.win.Canvas().Focus(first)
	}
}

// useChart puts a size chart of the sewist's own under the pattern.
func (w *Window) useChart(path string) {
	c, err := app.Chart(path)
	if err != nil {
		w.fail("This size chart cannot be used", err)
		return
	}
	w.do("choose the chart "+c.Name, edit.Chart(c))
}

// askScreen has the sewist lay a ruler on the screen, so that true size is
// true.
func (w *Window) askScreen() {
	if w.dialogOpen {
		return
	}
	const long = 400
	bar := canvas.NewRectangle(w.palette().Accent)
	bar.SetMinSize(fyne.NewSize(long, 24))
	length := panel.NewLine()
	length.SetPlaceHolder("10.6 cm, 4 1/8 in")
	w.form("True size on this screen", "That is it", []*widget.FormItem{
		widget.NewFormItem("", widget.NewLabel("Lay a ruler on the screen. How long is this bar?")),
		widget.NewFormItem("", container.NewHBox(bar)),
		widget.NewFormItem("Length", length),
	}, length, func() { w.setScreen(long, length.Text) })
}

// setScreen takes a bar of px window pixels to be as long as text says.
func (w *Window) setScreen(px float64, text string) {
	const least, most = 20.0, 1000.0 // mm, for any screen there is
	l, err := measure.Parse(text, measure.Centimetres)
	if err != nil || l.MM() < least || l.MM() > most {
		w.say("Measure the bar and type its length, like 10.6 cm or 4 1/8 in.")
		return
	}
	w.settings.Screen = px / l.MM()
	w.table.SetScreen(w.settings.Screen)
	w.keepSettings()
	w.table.TrueSize()
}

// rename asks for another name for the piece in hand.
func (w *Window) rename() {
	i := w.doc.Pattern().PieceIndex(w.hand.Piece)
	if i < 0 || w.dialogOpen {
		return
	}
	piece := w.hand.Piece
	name := panel.NewLine()
	name.SetText(w.doc.Pattern().Pieces[i].Name)
	w.form("Name of the piece", "Rename", []*widget.FormItem{widget.NewFormItem("Name", name)}, name, func() {
		w.do("rename a piece", edit.Rename(piece, name.Text))
	})
}

// help shows the keys and the cautions.
func (w *Window) help() {
	if w.dialogOpen {
		return
	}
	content, scroll := panel.NewHelp(helpView())
	w.tell("Help", content, scroll, fyne.NewSize(820, 640))
}
