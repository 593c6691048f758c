package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

const (
	railHeight  = 60
	railNarrow  = 1300 // below this width the rail's right end takes only what it needs
	nameNarrow  = 176
	controlsEnd = 272
	stepNarrow  = 80 // a step narrower than this has no room for its name
	stepSign    = 40 // a step that shows its sign alone
)

// RailView is what the guide rail shows.
type RailView struct {
	Pattern string // "Fennel blouse"
	Wearer  string // "for Maren"
	Steps   []StepView
	Present int
	Undo    string // what undo would take back, "move underarm"; "" when nothing
	Redo    string
	Cm      bool // lengths are shown in cm, else in inches
	Dark    bool
}

// StepView is one step of the way: its name, one line on how it stands. A step
// that cannot be entered is not Enabled, and its line says why.
type StepView struct {
	Name, State string
	Mark        State // Done shows a tick, LookAt a diamond, the others the number
	Enabled     bool
}

// Rail is the guide rail along the top of the window: the pattern, the steps,
// undo and redo, units, light or dark, help.
type Rail struct {
	widget.BaseWidget
	OnStep         func(i int)
	OnUndo, OnRedo func()
	OnUnit         func(cm bool)
	OnDark         func(dark bool)
	OnHelp         func()
	OnHint         func(string) // what the thing under the pointer does; "" after
	Menu           func() *fyne.Menu

	view             RailView
	name             *nameButton
	steps            []*stepButton
	undo, redo       *iconButton
	dark, help       *iconButton
	unit             *twoWay
	divide, stitches fyne.CanvasObject
	back             *ground
}

// NewRail makes a rail with the number of steps the view will have.
func NewRail(steps int) *Rail {
	r := &Rail{back: newFill(railFill), divide: newFill(separatorInk)}
	r.stitches = canvas.NewRaster(r.sew)
	r.name = newNameButton(r.OpenMenu)
	for i := range steps {
		r.steps = append(r.steps, newStepButton(i+1, func() { call1(r.OnStep, i) }))
	}
	r.undo = newIconButton(theme.Undo, "", func() { call(r.OnUndo) })
	r.redo = newIconButton(theme.Redo, "", func() { call(r.OnRedo) })
	r.dark = newIconButton(theme.Moon, words.T("Light or dark"), func() { call1(r.OnDark, !r.view.Dark) })
	r.help = newIconButton(theme.Help, words.T("Help: the steps, words, keys"), func() { call(r.OnHelp) })
	r.unit = newTwoWay(words.C("inches", "in"), "cm", words.T("Show lengths in inches or centimetres"))
	r.unit.onTurn = func(cm bool) { call1(r.OnUnit, cm) }
	hint := func(s string) { call1(r.OnHint, s) }
	for _, s := range r.steps {
		s.onHint = hint
	}
	r.undo.onHint, r.redo.onHint, r.dark.onHint, r.help.onHint, r.unit.onHint = hint, hint, hint, hint, hint
	r.ExtendBaseWidget(r)
	r.SetView(RailView{})
	return r
}

// SetView shows a view.
func (r *Rail) SetView(v RailView) {
	moved, least, below := r.view.Present != v.Present, r.leastStep(), r.below()
	r.view = v
	r.name.set(v.Pattern, v.Wearer)
	for i, s := range r.steps {
		var sv StepView
		if i < len(v.Steps) {
			sv = v.Steps[i]
		}
		s.set(sv, i == v.Present)
	}
	r.undo.hint, r.redo.hint = words.T("Nothing to undo"), words.T("Nothing to redo")
	if v.Undo != "" {
		r.undo.hint = words.F("Undo %s", v.Undo)
	}
	if v.Redo != "" {
		r.redo.hint = words.F("Redo %s", v.Redo)
	}
	r.undo.setOff(v.Undo == "")
	r.redo.setOff(v.Redo == "")
	r.unit.set(v.Cm)
	r.dark.setName(theme.Moon)
	if v.Dark {
		r.dark.setName(theme.Sun)
	}
	r.stitches.Refresh()
	if moved || r.leastStep() != least || r.below() != below {
		r.Refresh()
	}
}

// OpenMenu opens the menu under the pattern's name.
func (r *Rail) OpenMenu() {
	if r.Menu == nil {
		return
	}
	menu := r.Menu()
	c := fyne.CurrentApp().Driver().CanvasForObject(r)
	if menu == nil || c == nil {
		return
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(r.name)
	widget.ShowPopUpMenuAtPosition(menu, c, at.AddXY(6, r.name.Size().Height))
}

// stepSpan is where step i lies across.
func (r *Rail) stepSpan(i int, width float32) (x, w float32) {
	start, end := theme.Px(ShelfWidth), theme.Px(SideWidth)
	if width < theme.Px(railNarrow) {
		start, end = theme.Px(nameNarrow), theme.Px(controlsEnd)
	}
	room := max(width-start-end, 0)
	w = room / float32(max(len(r.steps), 1))
	if w >= r.leastStep() {
		return start + float32(i)*w, w
	}
	// Too little for all the names: the present step has its own, the others
	// only their signs.
	w = min(w, theme.Px(stepSign))
	x, rest := start+float32(i)*w, room-float32(len(r.steps))*w
	switch {
	case i == r.view.Present:
		return x, w + rest
	case i > r.view.Present:
		return x + rest, w
	}
	return x, w
}

// leastStep is how wide every step must be for all names to stand whole.
func (r *Rail) leastStep() float32 {
	least := theme.Px(stepNarrow)
	for _, s := range r.steps {
		least = max(least, stepText+boldWidth(s.view.Name)+2)
	}
	return least
}

// below reports that the steps are to say how they stand below their signs: with
// large words there is no room beside all of them.
func (r *Rail) below() bool {
	const large = 1.2
	if theme.Px(1) < large {
		return false
	}
	_, w := r.stepSpan(0, r.Size().Width)
	for _, s := range r.steps {
		if stepText+theme.WordSize(s.view.State, theme.Px(theme.Caption), false).Width+2 > w {
			return true
		}
	}
	return false
}

// CreateRenderer is Fyne's.
func (r *Rail) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{objects: []fyne.CanvasObject{r.back}}
	for _, s := range r.steps {
		d.objects = append(d.objects, s)
	}
	d.objects = append(d.objects, r.name, r.undo, r.redo, r.divide, r.unit, r.dark, r.help, r.stitches)
	d.paint = func(theme.Palette) {}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(nameNarrow+controlsEnd)+400, max(railHeight, theme.Px(railHeight)))
	}
	d.lay = func(size fyne.Size) {
		h := size.Height
		place(r.back, 0, 0, size.Width, h)
		start, _ := r.stepSpan(0, size.Width)
		below := r.below()
		place(r.name, 0, 0, start-4, h-5)
		for i, s := range r.steps {
			x, w := r.stepSpan(i, size.Width)
			if s.below != below {
				s.below = below
				s.Refresh()
			}
			place(s, x, 0, w, h)
		}
		place(r.stitches, 0, h-5, size.Width, 5)
		x := size.Width - 8
		for _, o := range []fyne.CanvasObject{r.help, r.dark, r.unit, r.divide, r.redo, r.undo} {
			w := o.MinSize().Width
			if o == r.divide {
				w = 1
				x -= 12
				place(o, x-w, 18, w, h-40)
				x -= 12 + w
				continue
			}
			middle(o, x-w, w, h-4)
			x -= w + 4
		}
	}
	return d.ready()
}
