package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// TourView is one step of the guided demo.
type TourView struct {
	Step, Of int
	Title    string
	Say      string
	Do       string // what to try: "Drag the violet pin to another size"
	Done     bool   // she tried it
	Last     bool
}

// Tour is the card over the Table that leads through the demo.
type Tour struct {
	widget.BaseWidget
	OnNext, OnBack, OnLeave func()

	count, title *saying
	say          *saying
	do           *note
	next         *Push
	back, leave  *link
	box          *fyne.Container
}

const tourWide = 420

// NewTour makes a hidden card.
func NewTour() *Tour {
	t := &Tour{
		count: newWords("", theme.Caption, inkSoft),
		title: newBold("", theme.SubHead, ink),
		say:   newWrapped("", theme.Body, ink, tourWide-32),
		do:    newNote(tourWide - 32),
	}
	t.do.task = true
	t.next = NewPush(words.C("step", "Next"), func() { call(t.OnNext) })
	t.next.Importance = widget.HighImportance
	t.back = newLink(words.C("a step back", "Back"), func() { call(t.OnBack) })
	t.leave = newLink(words.T("Leave the tour"), func() { call(t.OnLeave) })
	t.box = below(8, t.count, t.title, t.say, t.do, beside(8, 2, t.leave, t.back, newWords("", theme.Body, ink), t.next))
	t.Hidden = true
	t.ExtendBaseWidget(t)
	return t
}

// SetView shows a step.
func (t *Tour) SetView(v TourView) {
	t.count.setText(words.F("Step %d of %d", v.Step, v.Of))
	t.title.setText(v.Title)
	t.say.setText(v.Say)
	do := v.Do
	t.do.icon = theme.Pointer
	if do != "" && v.Done {
		do, t.do.icon = words.F("Done. %s", do), theme.Tick
	}
	t.do.set(do, do != "" && !v.Done)
	word := words.C("step", "Next")
	if v.Last {
		word = words.T("Begin my own")
	}
	setButton(t.next, word, false)
	t.back.Hidden = v.Step <= 1
	relay(t.box)
}

// CreateRenderer is Fyne's.
func (t *Tour) CreateRenderer() fyne.WidgetRenderer {
	return over(newBox(raisedFill, accent, 1.6, theme.PanelRadius), tourWide, inset(12, 12, 16, 16, t.box))
}

// over renders something that lies over the Table on a ground of its own, so wide
// at text scale 1.
func over(g *ground, wide float32, inner fyne.CanvasObject) fyne.WidgetRenderer {
	d := &drawn{objects: []fyne.CanvasObject{g, inner}}
	d.paint = func(theme.Palette) {}
	d.min = func() fyne.Size { return fyne.NewSize(theme.Px(wide), inner.MinSize().Height) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		place(inner, 0, 0, size.Width, size.Height)
	}
	return d.ready()
}
