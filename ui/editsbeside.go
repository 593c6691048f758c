package ui

import (
	"fyne.io/fyne/v2"

	"quarterstep/app/session"
)

// besideEdits has edits that take long worked out beside the window, which shows the
// last picture meanwhile and says that it is working.
func (w *Window) besideEdits() session.Aside {
	doc := w.doc
	return session.Aside{
		Run: func(work, done func()) {
			besideWindow(func() {
				work()
				fyne.Do(func() {
					if w.doc == doc {
						done()
					}
				})
			})
		},
		Failed: func(err error) { w.say(err.Error()) },
		Turned: w.workTurned,
	}
}

// workTurned shows that an edit is being worked out, or no more: what can be taken
// back, and what waits.
func (w *Window) workTurned() {
	p, r := w.doc.Pattern(), w.doc.Result()
	w.rail.SetView(w.railView(p, r, w.toLookAt(w.report())))
	w.showStatus()
}
