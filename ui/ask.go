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
}

// question asks in a dialog; while another is open it is not asked.
func (w *Window) question(title, words string, answers ...answer) {
	if w.dialogOpen {
		return
	}
	w.dialogOpen = true
	said := widget.NewLabel(words)
	said.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, said, w.win)
	var buttons []fyne.CanvasObject
	for _, a := range answers {
		b := widget.NewButton(a.word, func() {
			d.Hide()
			w.dialogOpen = false
			if a.then != nil {
				a.then()
			}
		})
		if a.best {
			b.Importance = widget.HighImportance
		}
		buttons = append(buttons, b)
	}
	d.SetButtons(buttons)
	d.Resize(fyne.NewSize(460, 0))
	d.Show()
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
	length := widget.NewEntry()
	length.SetPlaceHolder("10.6 cm, 4 1/8 in")
	w.dialogOpen = true
	d := dialog.NewForm("True size on this screen", "That is it", "Leave it", []*widget.FormItem{
		widget.NewFormItem("", widget.NewLabel("Lay a ruler on the screen. How long is this bar?")),
		widget.NewFormItem("", container.NewHBox(bar)),
		widget.NewFormItem("Length", length),
	}, func(yes bool) {
		w.dialogOpen = false
		if yes {
			w.setScreen(long, length.Text)
		}
	}, w.win)
	d.Show()
	w.win.Canvas().Focus(length)
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
	name := widget.NewEntry()
	name.SetText(w.doc.Pattern().Pieces[i].Name)
	w.dialogOpen = true
	d := dialog.NewForm("Name of the piece", "Rename", "Leave it", []*widget.FormItem{widget.NewFormItem("Name", name)}, func(yes bool) {
		w.dialogOpen = false
		if yes {
			w.do("rename a piece", edit.Rename(piece, name.Text))
		}
	}, w.win)
	d.Show()
	w.win.Canvas().Focus(name)
}

// help shows the keys and the cautions.
func (w *Window) help() {
	if w.dialogOpen {
		return
	}
	w.dialogOpen = true
	d := dialog.NewCustom("Keys and cautions", "Close", panel.NewHelp(helpView()), w.win)
	d.SetOnClosed(func() { w.dialogOpen = false })
	d.Resize(fyne.NewSize(820, 640))
	d.Show()
}

func helpView() panel.HelpView {
	return panel.HelpView{
		Keys: []panel.KeyView{
			{Keys: "Arrows", Does: "Move what is in hand by 1/16 in or 1 mm; Shift 1/4 in or 5 mm; Ctrl 1/64 in or 0.2 mm"},
			{Keys: "Tab, Shift+Tab", Does: "Next or previous handle; in a table the next figure"},
			{Keys: ", and .", Does: "One size down or up; with Shift half a size"},
			{Keys: "M S R P", Does: "Move, slide, measure, add a point"},
			{Keys: "N I C U", Does: "Nest, seam line, close-up, ruler"},
			{Keys: "L", Does: "Lock or free the point in hand"},
			{Keys: "K", Does: "Link the edge in hand to the next edge clicked; with Shift, add one to a side"},
			{Keys: "J", Does: "At True, lay the pieces of the seam together, or apart"},
			{Keys: "Delete", Does: "Take out the grade point, cut line or lengthen line in hand"},
			{Keys: "+ - 0 9", Does: "Zoom, fit, true size"},
			{Keys: "1 to 6", Does: "Bring in, Sizes, Grade, True, Length, Print"},
			{Keys: "E W H", Does: "Increments, Wearer, Checks"},
			{Keys: "F2", Does: "Rename the piece"},
			{Keys: "Ctrl+Z, Ctrl+Shift+Z", Does: "Undo, redo"},
			{Keys: "Ctrl+S, Ctrl+O, Ctrl+P", Does: "Save, open, save a PDF"},
			{Keys: "Esc", Does: "Let go without changing anything"},
		},
		Cautions: cautions(),
	}
}

// cautions are what to mind before cutting. Common practice; safety rules are
// named only, for they differ from place to place.
func cautions() []string {
	return []string{
		"Print at 100 %, with no fitting to the page, and measure the test square before you cut.",
		"A size beyond the printed ones is worked out, not proved: sew a toile first.",
		"A bought pattern is licensed for your own use. Keep graded copies to yourself.",
		"Children's nightwear, cords and drawstrings: the safety rules where you live come first.",
	}
}
