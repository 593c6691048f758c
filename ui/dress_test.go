package ui

import "testing"

// TestDressedAnew: dark and light, and larger words, leave the keys where they were
// and all of the window in its place.
func TestDressedAnew(t *testing.T) {
	w := open(t)
	c := w.win.Canvas()
	c.Focus(w.table)
	for _, change := range []func(){
		func() { w.rail.OnDark(true) }, func() { w.setText(1.5) }, func() { w.rail.OnDark(false) }, func() { w.setText(1) },
	} {
		change()
		if c.Focused() != w.table {
			t.Error("the keys are elsewhere")
		}
		if c.Content() != w.frame || w.frame.Size() != c.Size() {
			t.Errorf("the window holds %T of %v, is %v", c.Content(), c.Content().Size(), c.Size())
		}
	}
}
