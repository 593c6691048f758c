package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/ui/theme"
)

// drawn renders a small widget from plain canvas objects: min gives the least
// size, lay places the objects, paint gives them the colours and words of now.
type drawn struct {
	objects []fyne.CanvasObject
	min     func() fyne.Size
	lay     func(fyne.Size)
	paint   func(theme.Palette)
	size    fyne.Size
}

// ready paints once, so that the first MinSize knows the words.
func (d *drawn) ready() *drawn {
	d.paint(theme.Now())
	return d
}

func (d *drawn) MinSize() fyne.Size { return d.min() }

func (d *drawn) Objects() []fyne.CanvasObject { return d.objects }

func (d *drawn) Destroy() {}

func (d *drawn) Layout(size fyne.Size) {
	d.size = size
	d.lay(size)
}

func (d *drawn) Refresh() {
	d.paint(theme.Now())
	d.lay(d.size)
	for _, o := range d.objects {
		o.Refresh()
	}
}

// place puts an object at x, y with a size.
func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// middle puts an object of its least height at x, centred in a height.
func middle(o fyne.CanvasObject, x, width, height float32) {
	h := o.MinSize().Height
	place(o, x, (height-h)/2, width, h)
}
