package ui

import "fyne.io/fyne/v2"

// away does work that waits for a disk, the system or a long reckoning beside the
// window, and then, in the window, then with what went wrong.
func away(work func() error, then func(error)) {
	besideWindow(func() {
		err := guarded(work)
		fyne.Do(func() { then(err) })
	})
}
