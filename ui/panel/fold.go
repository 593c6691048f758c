package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// Widths of the window's layout, in pixels at text scale 1.
const (
	SideWidth  = 348
	ShelfWidth = 212

	sideInset   = 14
	foldSign    = 18
	sideMargin  = 10 // beside the panels
	sideContent = SideWidth - 2*sideMargin - 2*sideInset
)

// Fold is a side panel that opens and folds at its header. Folded, it still
// says in one line how things stand.
type Fold struct {
	widget.BaseWidget
	OnFold func(open bool) // by the sewist, not by SetOpen

	head   *foldHead
	body   fyne.CanvasObject
	ground *ground
	drawn  *drawn
	open   bool
}

// NewFold makes a folded panel around its content.
func NewFold(title string, content fyne.CanvasObject) *Fold {
	f := &Fold{body: inset(0, 12, sideInset, sideInset, content), ground: newBox(windowFill, separatorInk, 1, theme.PanelRadius)}
	f.head = newFoldHead(title, func() {
		f.SetOpen(!f.open)
		if f.OnFold != nil {
			f.OnFold(f.open)
		}
	})
	f.body.Hide()
	f.ExtendBaseWidget(f)
	return f
}

// Open tells whether the content shows.
func (f *Fold) Open() bool { return f.open }

// SetOpen opens or folds it. What is in it was kept up while it was folded, and is
// not drawn anew.
func (f *Fold) SetOpen(open bool) {
	if f.open == open {
		return
	}
	f.open, f.head.open = open, open
	if open {
		f.body.Show()
	} else {
		f.body.Hide()
	}
	f.head.Refresh()
	if f.drawn == nil {
		return
	}
	f.drawn.paint(theme.Now())
	f.ground.Refresh()
	f.Relay()
}

// Relay lays out anew what changed in size, and draws nothing anew.
func (f *Fold) Relay() {
	if f.drawn != nil {
		f.drawn.lay(f.drawn.size)
	}
}

// SetState says in one line how things stand; look marks it in amber.
func (f *Fold) SetState(state string, look bool) {
	if f.head.state != state || f.head.look != look {
		f.head.state, f.head.look = state, look
		f.head.Refresh()
	}
}

// CreateRenderer is Fyne's.
func (f *Fold) CreateRenderer() fyne.WidgetRenderer {
	g := f.ground
	d := &drawn{objects: []fyne.CanvasObject{g, f.head, f.body}}
	f.drawn = d
	d.paint = func(theme.Palette) {
		g.fill = windowFill
		if f.open {
			g.fill = raisedFill
		}
	}
	d.min = func() fyne.Size {
		size := f.head.MinSize()
		if f.open {
			body := f.body.MinSize()
			size = fyne.NewSize(max(size.Width, body.Width), size.Height+body.Height)
		}
		return size
	}
	d.lay = func(size fyne.Size) {
		h := f.head.MinSize().Height
		place(g, 0, 0, size.Width, size.Height)
		place(f.head, 0, 0, size.Width, h)
		place(f.body, 0, h, size.Width, max(size.Height-h, 0))
	}
	return d.ready()
}

// ScrollToTop shows the first of the panels stacked by NewSide.
func ScrollToTop(side fyne.CanvasObject) {
	eachScroll(side, func(s *container.Scroll) { s.ScrollToTop() })
}

type foldHead struct {
	touch
	title, state string
	open, look   bool
}

func newFoldHead(title string, press func()) *foldHead {
	h := &foldHead{title: title}
	h.press = press
	h.ExtendBaseWidget(h)
	return h
}

func (h *foldHead) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	g.CornerRadius = theme.PanelRadius
	m := newMark(theme.Folded, foldSign, ink)
	title := newBold(h.title, theme.Body, ink)
	look := newMark(theme.Look, 15, ink)
	state := newCut("", theme.Caption, inkSoft)
	state.align = fyne.TextAlignTrailing
	d := &drawn{objects: []fyne.CanvasObject{g, m, title, look, state}}
	d.paint = func(p theme.Palette) {
		h.paintGround(g, p)
		m.set(theme.Folded, ink)
		if h.open {
			m.set(theme.Opened, ink)
		}
		look.Hidden = !h.look
		state.set(h.state, inkSoft, false)
		if h.look {
			state.set(h.state, amberInk, true)
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, theme.Px(38)) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		text, side := theme.Px(32), theme.Px(15)
		place(m, theme.Px(9), 0, theme.Px(foldSign), size.Height)
		w := title.MinSize().Width
		middle(title, text, w, size.Height)
		room := max(size.Width-text-w-16-sideInset, 0)
		if h.look {
			room = max(room-side-7, 0)
		}
		need := min(state.measure(state.text).Width+1, room)
		middle(state, size.Width-sideInset-need, need, size.Height)
		place(look, size.Width-sideInset-need-side-7, 0, side, size.Height)
	}
	return d.ready()
}

// NewSide stacks side panels in the window's right-hand column, scrolled when
// they do not fit.
func NewSide(folds ...*Fold) fyne.CanvasObject {
	stack := below(6)
	for _, f := range folds {
		stack.Add(f)
	}
	scroll := container.NewVScroll(inset(8, 8, sideMargin, sideMargin, stack))
	return container.NewStack(newFill(windowFill), sized(theme.Px(SideWidth), 100, scroll))
}
