package panel

import (
	"math"

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

// MinSize is in whole pixels, so that what is stacked below stays sharp.
func (d *drawn) MinSize() fyne.Size {
	m := d.min()
	return fyne.NewSize(whole(m.Width+0.499), whole(m.Height+0.499))
}

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

func whole(x float32) float32 { return float32(math.Round(float64(x))) }

// place puts an object of a size at the whole pixel nearest to x, y: text
// between two pixels is blurred.
func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(whole(x), whole(y)))
	o.Resize(fyne.NewSize(w, h))
}

// sharp fills a size with one of Fyne's own fields, moved by what brings its
// text, inset by a padding of 9.6, to whole pixels.
func sharp(o fyne.CanvasObject, size fyne.Size) {
	o.Move(fyne.NewPos(0.4, 0.4))
	o.Resize(size)
}

// middle puts an object of its least height at x, centred in a height.
func middle(o fyne.CanvasObject, x, width, height float32) {
	h := o.MinSize().Height
	place(o, x, (height-h)/2, width, h)
}
