package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"quarterstep/ui/theme"
)

// FoldBelow is the window's width under which the Shelf folds to thumbnails, in
// pixels at text scale 1.
const FoldBelow = 1240

// Frame is the window's layout: the rail on top with the red strip under it,
// the status bar at the bottom, the Shelf, the Table with its tools and the
// Size strip, and the side panels.
type Frame struct {
	Rail     *Rail
	RedStrip *RedStrip
	Shelf    *Shelf
	Tools    *Tools
	Table    fyne.CanvasObject
	Over     []Overlay // what lies over the Table, shown or hidden
	Strip    *Strip
	Drawer   *Drawer // between the Table and the side panels, in a narrow window
	Side     fyne.CanvasObject
	Status   *Status
}

// Overlay is something that lies over the Table: at its foot, else at its head,
// as wide as the Table; or as large as it needs, in the Table's middle, over the
// panels where the Table is too small, or in its corner at the lower right, above
// what is at the foot.
type Overlay struct {
	Object fyne.CanvasObject
	Foot   bool
	Middle bool
	Corner bool
}

// drawerBelow is the window's width under which the panels can be put away, in
// pixels at text scale 1: with words as large as drawn the smallest window has room
// for both.
const drawerBelow = 1180

// lowWindow is the window's height below which the Size strip takes only what it
// needs, in pixels at text scale 1.
const lowWindow = 720

// lowTable is the Table's height below which what lies over it is made shorter,
// in pixels at text scale 1.
const lowTable = 560

// What overlays keep clear of, in pixels: the Table's rulers, and its edges.
const (
	overLeft  = 34
	overTop   = 26
	overInset = 14
)

// NewFrame lays the parts out as the window's content. All are needed.
func NewFrame(f Frame) *fyne.Container {
	split := []fyne.CanvasObject{newFill(separatorInk), newFill(separatorInk)}
	// In the order in which Tab goes through them.
	objects := []fyne.CanvasObject{f.Rail, f.RedStrip, f.Shelf, f.Tools, f.Table}
	var middle []fyne.CanvasObject
	for _, o := range f.Over {
		if o.Middle {
			middle = append(middle, o.Object)
		} else {
			objects = append(objects, o.Object)
		}
	}
	objects = append(objects, f.Strip, f.Drawer, f.Side, split[0], split[1], f.Status)
	objects = append(objects, middle...)
	whole := container.New(&frameLayout{f, split}, objects...)
	f.RedStrip.onTurn = func() { relay(whole) }
	f.Tools.onTurn = f.RedStrip.onTurn
	f.Strip.onTurn = f.RedStrip.onTurn
	f.Drawer.onTurn = f.RedStrip.onTurn
	return whole
}

type frameLayout struct {
	Frame
	split []fyne.CanvasObject
}

// Smallest is the smallest window, in pixels.
var Smallest = fyne.NewSize(1180, 720)

// MinSize is Smallest.
func (l *frameLayout) MinSize([]fyne.CanvasObject) fyne.Size { return Smallest }

// Layout places the parts.
func (l *frameLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.Shelf.SetNarrow(size.Width < theme.Px(FoldBelow))
	narrow := size.Width < theme.Px(drawerBelow)
	l.Strip.setLow(size.Height < theme.Px(lowWindow))
	top := l.Rail.MinSize().Height
	place(l.Rail, 0, 0, size.Width, top)
	if l.RedStrip.Visible() {
		h := l.RedStrip.MinSize().Height
		place(l.RedStrip, 0, top, size.Width, h)
		top += h
	}
	status := l.Status.MinSize().Height
	bottom := size.Height - status
	place(l.Status, 0, bottom, size.Width, status)

	side := theme.Px(SideWidth)
	left, right := l.Shelf.Width(), size.Width-side
	show(l.Drawer, narrow)
	show(l.Side, !narrow || !l.Drawer.shut)
	if narrow {
		tab := l.Drawer.MinSize().Width
		if l.Drawer.shut {
			right = size.Width
		}
		right -= tab
		place(l.Drawer, right, top, tab, bottom-top)
	}
	place(l.Shelf, 0, top, left, bottom-top)
	place(l.split[0], left-1, top, 1, bottom-top)
	place(l.Side, size.Width-side, top, side, bottom-top)
	place(l.split[1], right, top, 1, bottom-top)

	tools, strip := l.Tools.HeightFor(right-left), l.Strip.MinSize().Height
	place(l.Tools, left, top, right-left, tools)
	place(l.Strip, left, bottom-strip, right-left, strip)
	place(l.Table, left, top+tools, right-left, bottom-strip-top-tools)
	foot := bottom - strip - overInset
	for _, o := range l.Over {
		if s, ok := o.Object.(interface{ SetShort(bool) }); ok {
			s.SetShort(bottom-strip-top-tools < theme.Px(lowTable))
		}
		least := o.Object.MinSize()
		h := least.Height
		if o.Middle || o.Corner {
			x, y := right-overInset-least.Width, foot-h
			if o.Middle {
				x, y = (left+overLeft+right-least.Width)/2, max(top+tools+overTop+overInset, (top+tools+overTop+bottom-strip-h)/2)
				x = min(max(x, left+overInset), max(size.Width-overInset-least.Width, overInset))
				y = min(y, max(bottom-overInset-h, top+overInset))
			}
			place(o.Object, x, y, least.Width, h)
			continue
		}
		x, wide := left+overLeft+overInset, right-left-overLeft-2*overInset
		if o.Foot {
			place(o.Object, x, bottom-strip-overInset-h, wide, h)
			if o.Object.Visible() {
				foot = min(foot, bottom-strip-2*overInset-h)
			}
			continue
		}
		place(o.Object, x, top+tools+overTop+overInset, wide, h)
	}
}

// show shows an object or hides it.
func show(o fyne.CanvasObject, shown bool) {
	if o.Visible() == shown {
		return
	}
	if shown {
		o.Show()
	} else {
		o.Hide()
	}
}
