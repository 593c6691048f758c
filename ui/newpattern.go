package ui

import (
	"quarterstep/assets/words"
)

// newPattern puts away what is open, asking first where work would be lost, and
// shows the page a new window begins with.
func (w *Window) newPattern() {
	w.ifSafe(func() { w.take(nothing()) })
}

// inDemo reports that a demo is open which she has not made her own by saving it.
func (w *Window) inDemo() bool { return w.demoOpen && w.doc.Path() == "" }

// apartFromDemo does f, which brings in paper of her own, in a pattern of her own:
// a demo is put away first. One that she changed is put away only when she says so.
func (w *Window) apartFromDemo(f func()) {
	own := func() {
		w.take(nothing())
		f()
	}
	switch {
	case !w.inDemo():
		f()
	case !w.doc.Dirty():
		own()
	default:
		w.question(
			words.T("Put the demo away?"), words.T("What you bring in begins a pattern of your own. What you tried in the demo is not saved."),
			answer{word: words.T("Stay here")},
			answer{word: words.T("Add it to the demo"), then: f},
			answer{word: words.T("Begin my own"), then: own, best: true},
		)
	}
}
