package board

import (
	"testing"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"quarterstep/model/geom"
)

// The pointer brings the keys along onto the Table from a button or a list, so that
// Space held slides it; not from a field that is being typed in, and not onto a
// Table with nothing on it.
func TestKeysFollowThePointerOntoTheTable(t *testing.T) {
	b := newTable(t)
	button, field := widget.NewButton("", nil), widget.NewEntry()
	c := test.NewTempWindow(t, container.NewBorder(button, field, nil, nil, b.Board)).Canvas()
	c.Focus(field)
	b.MouseIn(mouse(b.at(geom.Pt(60, 40)), 0))
	if c.Focused() != field {
		t.Error("the keys leave a field that is typed in")
	}
	c.Focus(button)
	b.MouseIn(mouse(b.at(geom.Pt(60, 40)), 0))
	if c.Focused() != b.Board {
		t.Errorf("the keys stay with %T", c.Focused())
	}
	empty := New()
	c = test.NewTempWindow(t, container.NewBorder(button, nil, nil, nil, empty)).Canvas()
	c.Focus(button)
	empty.MouseIn(mouse(b.at(geom.Pt(60, 40)), 0))
	if c.Focused() != button {
		t.Error("an empty Table takes the keys")
	}
}
