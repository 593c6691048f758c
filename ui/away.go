package ui

import (
	"time"

	"fyne.io/fyne/v2"
)

// away does work that waits for a disk, the system or a long reckoning beside the
// window, and then, in the window, then with what went wrong.
func away(work func() error, then func(error)) {
	besideWindow(func() {
		err := guarded(work)
		fyne.Do(func() { then(err) })
	})
}

// aMoment is how long something may keep her waiting before she is told.
const aMoment = 1500 * time.Millisecond

// afterAMoment does work in the window after a moment, unless it is stopped before.
// Tests do it when they like.
var afterAMoment = func(work func()) (stop func()) {
	stopped := false // belongs to the window
	t := time.AfterFunc(aMoment, func() {
		fyne.Do(func() {
			if !stopped {
				work()
			}
		})
	})
	return func() {
		stopped = true
		t.Stop()
	}
}
