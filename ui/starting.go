package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/app/safekeeping"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/theme"
)

// First is what the window opens with: a document, photos or a drawing, or nothing.
type First struct {
	Path    string                        // of the project that is opened, empty for none
	Pattern func() (model.Pattern, error) // drawn anew where there is no Path; nil for none
	Files   []string                      // brought in as if dropped on the window
}

// Start is Open by turns, each short: the window shows at once, empty; its parts
// come in the frames that follow, and the document once it was read beside the
// window. Show it with ShowAndRun.
func Start(a fyne.App, s settings.Settings, settingsDir string, f First) *Window {
	w := newWindow(a, s, settingsDir)
	ground := canvas.NewRectangle(w.palette().Window)
	ground.SetMinSize(panel.Smallest)
	w.win.SetContent(ground)
	doc := f.read()
	besideWindow(func() {
		theme.ReadFonts()
		fyne.Do(func() { // once the window shows; what makes it and its drawing takes long enough
			nextFrame(func() { w.buildByTurns(func() { w.begin(f, doc) }) })
		})
	})
	return w
}

// beginning is the first document, or why there is none.
type beginning struct {
	doc *session.Session
	err error
}

// read reads the document beside the window; nil where there is none to read.
func (f First) read() <-chan beginning {
	if f.Path == "" && f.Pattern == nil {
		return nil
	}
	out := make(chan beginning, 1)
	besideWindow(func() {
		var m beginning
		m.err = guarded(func() (err error) {
			m.doc, err = f.document()
			return err
		})
		out <- m
	})
	return out
}

func (f First) document() (*session.Session, error) {
	if f.Path != "" {
		safekeeping.Know(f.Path)
		return session.Open(f.Path)
	}
	p, err := f.Pattern()
	if err != nil {
		return nil, err
	}
	return session.New(p)
}

// buildByTurns makes the widgets, shows them a few a frame, and then does then.
func (w *Window) buildByTurns(then func()) {
	w.build()
	w.doc = nothing() // for what the hand does meanwhile
	groups := [][]fyne.CanvasObject{{w.table}, {w.rail, w.shelf}, {w.tools, w.strip, w.status}, {w.side}}
	for _, g := range groups {
		for _, o := range g {
			o.Hide()
		}
	}
	var next func()
	next = func() {
		if len(groups) == 0 {
			then()
			return
		}
		for _, o := range groups[0] {
			o.Show()
		}
		groups = groups[1:]
		nextFrame(next)
	}
	nextFrame(next)
}

// nothing is a document without anything.
func nothing() *session.Session {
	doc, err := session.New(model.Pattern{Unit: atHome.unit})
	if err != nil {
		panic("a pattern without pieces cannot be opened: " + err.Error())
	}
	return doc
}

// begin shows the first document, which may still be read, or none.
func (w *Window) begin(f First, doc <-chan beginning) {
	w.openSafe()
	w.connectEnds()
	switch {
	case doc == nil:
		w.take(nothing())
		w.OfferLeft()
		if len(f.Files) > 0 {
			w.BringIn(f.Files)
		}
	case len(doc) > 0:
		w.began(f, <-doc)
	default:
		w.starts = true
		w.take(nothing())
		title := words.T("Drawing the demo")
		if f.Path != "" {
			title = words.F("Opening %s", filepath.Base(f.Path))
			w.say(title)
		}
		x := w.wait(title)
		x.letGo = func() {
			w.starts = false
			w.refresh()
		}
		besideWindow(func() {
			m := <-doc
			fyne.Do(func() {
				if x.end() {
					w.began(f, m)
				}
			})
		})
	}
}

// began shows the first document, or says why there is none.
func (w *Window) began(f First, m beginning) {
	w.starts = false
	w.hasNoDialog()
	if m.err != nil {
		w.take(nothing())
		w.fail(f.failing(), m.err)
		return
	}
	w.take(m.doc)
	w.demoOpen = f.Path == ""
	w.sayCopy(f.Path)
	w.OfferLeft()
}

func (f First) failing() string {
	if f.Path != "" {
		return words.T("This file cannot be opened")
	}
	return words.T("The demo cannot be drawn")
}
