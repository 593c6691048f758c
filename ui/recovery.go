package ui

import (
	"errors"
	"io/fs"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/session"
	"quarterstep/app/settings"
)

// autosaveEvery is how often unsaved work is copied aside.
const autosaveEvery = 30 * time.Second

// autosave copies unsaved work aside now and then until stop is called.
func (w *Window) autosave() (stop func()) {
	if w.settingsDir == "" {
		return func() {}
	}
	tick := time.NewTicker(autosaveEvery)
	done := make(chan struct{})
	go func() {
		for {
			select {
			case <-tick.C:
				fyne.Do(w.keepCopy)
			case <-done:
				return
			}
		}
	}()
	return func() {
		tick.Stop()
		close(done)
	}
}

func (w *Window) keepCopy() {
	if _, err := w.doc.Autosave(settings.RecoveryFile(w.settingsDir)); err != nil {
		w.say("A copy of unsaved work could not be kept: " + err.Error())
	}
}

// forget drops the copy once the work is safe, or is not wanted.
func (w *Window) forget() {
	if w.settingsDir == "" {
		return
	}
	if err := session.Forget(settings.RecoveryFile(w.settingsDir)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		w.say("The copy of unsaved work could not be removed: " + err.Error())
	}
}

// Recovered opens the copy of unsaved work that a crash left behind; nil when
// there is none, or it cannot be read.
func Recovered(settingsDir string) *session.Session {
	if settingsDir == "" {
		return nil
	}
	doc, err := session.Recover(settings.RecoveryFile(settingsDir))
	if err != nil {
		return nil
	}
	return doc
}

// SayRecovered tells the sewist that her unsaved work is back.
func (w *Window) SayRecovered() {
	w.say("Quarterstep did not close as it should have. Your unsaved work is back; save it now.")
}
