package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// waiting is work beside the window that she waits for. No dialog opens meanwhile;
// after a moment one says what is done, and how far it is where that is known. Escape
// lets go of it at any time, as does the dialog's button.
type waiting struct {
	w     *Window
	ctx   context.Context // ends when she lets go
	stop  context.CancelFunc
	still func() // shows no dialog
	title string
	over  bool
	share float64

	saying string               // in the dialog
	shown  *dialog.CustomDialog // nil before the moment
	bar    *widget.ProgressBar
	letGo  func() // what follows where she lets go; nil for nothing
}

// wait begins to wait for work that title names, as "Opening Blouse". She does nothing
// else meanwhile.
func (w *Window) wait(title string) *waiting {
	x := w.goOn(title)
	x.alone()
	return x
}

// goOn is wait, but she goes on until the moment is over.
func (w *Window) goOn(title string) *waiting {
	x := &waiting{w: w, title: title, saying: words.T("This takes a while. Cancel leaves everything as it was.")}
	x.ctx, x.stop = context.WithCancel(context.Background())
	x.still = afterAMoment(x.show)
	return x
}

// alone keeps dialogs away; what she waited for before is let go.
func (x *waiting) alone() {
	if x.w.waits != nil {
		x.w.waits.cancel()
	}
	x.w.waits = x
	x.w.hasDialog(asked{no: x.cancel})
}

// show says that it takes long, as soon as no other dialog is open.
func (x *waiting) show() {
	switch {
	case x.over:
		return
	case x.w.waits == x:
	case x.w.dialogOpen:
		x.still = afterAMoment(x.show)
		return
	default:
		x.alone()
	}
	x.bar = widget.NewProgressBar()
	said := widget.NewLabel(x.saying)
	said.Wrapping = fyne.TextWrapWord
	x.shown = dialog.NewCustomWithoutButtons(x.title, container.NewVBox(said, x.bar), x.w.win)
	x.shown.SetButtons([]fyne.CanvasObject{panel.NewPush(words.T("Cancel"), x.cancel)})
	x.far()
	x.shown.Resize(fyne.NewSize(420, 0))
	x.shown.Show()
}

// far shows how far it is.
func (x *waiting) far() {
	if x.bar != nil {
		x.bar.SetValue(x.share)
		x.bar.Hidden = x.share == 0
		x.bar.Refresh()
	}
}

// watch is for the work: it ends it, and hears how far it is.
func (x *waiting) watch() app.Watch {
	return app.Watch{Context: x.ctx, Progress: oneAtATime(func(share float64) {
		fyne.Do(func() {
			if !x.over && share > x.share {
				x.share = share
				x.far()
			}
		})
	})}
}

// cancel lets go of it; what comes of it does not count.
func (x *waiting) cancel() {
	if x.end() && x.letGo != nil {
		x.letGo()
	}
}

// end says that it came to its end; false where she has let go of it before.
func (x *waiting) end() (wanted bool) {
	if x.over {
		return false
	}
	x.over = true
	x.stop()
	x.still()
	if x.shown != nil {
		x.shown.Hide()
	}
	if x.w.waits == x {
		x.w.waits = nil
		x.w.hasNoDialog()
	}
	return true
}
