package panel

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A window lays out anew whatever holds new shapes. A strip that made its shapes
// at every layout would keep the window busy for ever.
func TestStripKeepsItsShapes(t *testing.T) {
	test.NewTempApp(t)
	s := NewStrip()
	s.SetView(StripView{Sizes: []SizeView{{Name: "34", Printed: true}, {Name: "36"}}, Target: 1, Shown: true, Handle: "36"})
	s.line.Resize(fyne.NewSize(600, 100))
	r := test.TempWidgetRenderer(t, s.line)
	r.Layout(s.line.Size())
	before := slices.Clone(r.Objects())
	r.Layout(s.line.Size())
	if len(before) == 0 || !slices.Equal(before, r.Objects()) {
		t.Error("laying out the same size again made new shapes")
	}
	r.Layout(fyne.NewSize(700, 100))
	if slices.Equal(before, r.Objects()) {
		t.Error("another size was not drawn")
	}
}
