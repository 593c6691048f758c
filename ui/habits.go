package ui

import "quarterstep/assets/words"

// keeping is the way of the settings to their file: beside the window, one after the
// other, the latest counting.
type keeping struct {
	under, anew bool
	after       []func()
}

// keepSettings keeps the settings as they are now.
func (w *Window) keepSettings() {
	if w.settingsDir == "" {
		return
	}
	k := &w.keeping
	if k.under {
		k.anew = true
		return
	}
	k.under = true
	now, dir := w.settings, w.settingsDir
	away(func() error { return now.Save(dir) }, func(err error) {
		k.under = false
		if err != nil {
			w.say(words.F("What Quarterstep remembers could not be kept: %s", err))
		}
		if k.anew {
			k.anew = false
			w.keepSettings()
			return
		}
		after := k.after
		k.after = nil
		for _, f := range after {
			f()
		}
	})
}

// whenKept does f once the settings are in their file.
func (w *Window) whenKept(f func()) {
	if w.keeping.under {
		w.keeping.after = append(w.keeping.after, f)
		return
	}
	f()
}
