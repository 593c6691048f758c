package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// across sets things side by side, gap apart, each centred in the height at its
// least size; the one numbered grow, if any, takes the spare width.
type across struct {
	gap  float32
	grow int
}

const noneGrows = -1

func beside(gap float32, grow int, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(across{gap, grow}, objects...)
}

func (a across) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	shown := 0
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		size.Width += m.Width
		size.Height = max(size.Height, m.Height)
		shown++
	}
	size.Width += a.gap * float32(max(shown-1, 0))
	return size
}

func (a across) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	spare := size.Width - a.MinSize(objects).Width
	x := float32(0)
	for i, o := range objects {
		if !o.Visible() {
			continue
		}
		w := o.MinSize().Width
		if i == a.grow {
			w = max(w+spare, 0)
		}
		middle(o, x, w, size.Height)
		x += w + a.gap
	}
}

// atLeast gives what it holds a least size.
type atLeast fyne.Size

func sized(width, height float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(atLeast{width, height}, o)
}

func (s atLeast) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.Size(s).Max(objects[0].MinSize())
}

func (s atLeast) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	place(objects[0], 0, 0, size.Width, size.Height)
}

// withWords gives what it holds a least size that grows with the size of words.
type withWords fyne.Size

func roomy(width, height float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(withWords{width, height}, o)
}

func (s withWords) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(theme.Px(s.Width), theme.Px(s.Height)).Max(objects[0].MinSize())
}

func (s withWords) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	place(objects[0], 0, 0, size.Width, size.Height)
}

// evenly sets things in so many columns of one width, row after row.
type evenly struct{ columns int }

const evenGap = 8 // between columns

func (l evenly) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var most fyne.Size
	n := 0
	for _, o := range objects {
		if o.Visible() {
			most = most.Max(o.MinSize())
			n++
		}
	}
	rows := (n + l.columns - 1) / l.columns
	return fyne.NewSize(float32(l.columns)*most.Width+float32(l.columns-1)*evenGap, float32(rows)*most.Height+float32(max(rows-1, 0))*evenGap/2)
}

func (l evenly) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	n := 0
	for _, o := range objects {
		if o.Visible() {
			n++
		}
	}
	rows := max((n+l.columns-1)/l.columns, 1)
	w := (size.Width - float32(l.columns-1)*evenGap) / float32(l.columns)
	h := (size.Height - float32(rows-1)*evenGap/2) / float32(rows)
	i := 0
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		place(o, float32(i%l.columns)*(w+evenGap), float32(i/l.columns)*(h+evenGap/2), w, h)
		i++
	}
}

// sideOrBelow sets things side by side in equal widths, gap apart, where the
// side panel has room for the widest of them so often, else below one another.
type sideOrBelow struct{ gap float32 }

func (l sideOrBelow) shown(objects []fyne.CanvasObject) (shown []fyne.CanvasObject, most fyne.Size) {
	for _, o := range objects {
		if o.Visible() {
			shown, most = append(shown, o), most.Max(o.MinSize())
		}
	}
	return shown, most
}

func (l sideOrBelow) fits(n int, most fyne.Size) bool {
	return float32(n)*most.Width+float32(n-1)*l.gap <= theme.Px(sideContent)
}

func (l sideOrBelow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	shown, most := l.shown(objects)
	n := float32(len(shown))
	if l.fits(len(shown), most) {
		return fyne.NewSize(n*most.Width+max(n-1, 0)*l.gap, most.Height)
	}
	return fyne.NewSize(most.Width, n*most.Height+max(n-1, 0)*l.gap)
}

func (l sideOrBelow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	shown, most := l.shown(objects)
	n := float32(len(shown))
	if l.fits(len(shown), most) {
		w := (size.Width - (n-1)*l.gap) / max(n, 1)
		for i, o := range shown {
			place(o, float32(i)*(w+l.gap), 0, w, size.Height)
		}
		return
	}
	for i, o := range shown {
		place(o, 0, float32(i)*(most.Height+l.gap), size.Width, most.Height)
	}
}

func below(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(gap), objects...)
}

// Stacked sets parts of one panel below each other.
func Stacked(parts ...fyne.CanvasObject) fyne.CanvasObject { return below(8, parts...) }

func inset(top, bottom, left, right float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedLayout(top, bottom, left, right), o)
}

func rule() fyne.CanvasObject { return widget.NewSeparator() }

// relay lays a container out anew after things in it came, went or grew, and
// leaves alone what stayed.
func relay(c *fyne.Container) {
	c.Layout.Layout(c.Objects, c.Size())
}
