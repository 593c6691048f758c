package ui

import (
	"bytes"
	"context"
	"image"
	"image/png"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/folders"
	"quarterstep/assets/words"
	"quarterstep/model"
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
func (w *Window) question(title, text string, answers ...answer) {
	if w.dialogOpen {
		return
	}
	said := widget.NewLabel(text)
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

// askChart asks for a size chart of the sewist's own.
func (w *Window) askChart() {
	w.askFile(words.T("Open a size chart"), []folders.Kind{{Name: words.T("Size charts (CSV)"), Endings: []string{".csv"}}}, w.useChart)
}

// useChart puts a size chart of the sewist's own under the pattern.
func (w *Window) useChart(path string) {
	var c model.SizeChart
	away(func() (err error) {
		c, err = app.Chart(path)
		return err
	}, func(err error) {
		if err != nil {
			w.fail(words.T("This size chart cannot be used"), err)
			return
		}
		w.do(words.F("choose the chart %s", c.Name), edit.Chart(c))
	})
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
	w.form(words.T("Name of the piece"), words.T("Rename"), []*widget.FormItem{widget.NewFormItem(words.T("Name"), name)}, name, func() {
		w.do(words.T("rename a piece"), edit.Rename(piece, name.Text))
	})
}

// help shows the keys and the cautions.
func (w *Window) help() {
	if w.dialogOpen {
		return
	}
	v := helpView()
	v.Unpack, v.Later = w.unpack, nextFrame
	content, scroll := panel.NewHelp(v)
	w.tell(words.T("Help"), content, scroll, fyne.NewSize(820, 640))
}

// unpack has a picture of the help unpacked beside the window, as large as it is shown,
// and then shown.
func (w *Window) unpack(file []byte, size fyne.Size, show func(image.Image)) {
	px := w.win.Canvas().Scale()
	out := image.NewRGBA(image.Rect(0, 0, int(size.Width*px), int(size.Height*px)))
	w.aside(context.Background(), func() {
		whole, err := png.Decode(bytes.NewReader(file))
		if err != nil {
			return // words alone help too
		}
		draw.CatmullRom.Scale(out, out.Rect, whole, whole.Bounds(), draw.Src, nil)
		fyne.Do(func() { show(out) })
	})
}
