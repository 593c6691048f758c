package panel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// stepInset is the room before a step's sign, px, half as much where there is
// little; stepText is where its words begin then.
const (
	stepInset = 12
	stepText  = stepInset + 22

	stepSignSide = 29 // of the tick and the diamond, whose drawing fills 24 of it
)

// stepButton is one step on the rail.
type stepButton struct {
	touch
	number  int
	view    StepView
	present bool
}

func newStepButton(number int, press func()) *stepButton {
	s := &stepButton{number: number}
	s.press = press
	s.ExtendBaseWidget(s)
	return s
}

func (s *stepButton) set(v StepView, present bool) {
	if s.view == v && s.present == present {
		return
	}
	s.view, s.present = v, present
	s.off = !v.Enabled
	s.hint = v.Name + ": " + v.State
	s.Refresh()
}

func (s *stepButton) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	g.CornerRadius = 0
	disc := canvas.NewCircle(nil)
	figure := newBold(strconv.Itoa(s.number), theme.Caption, ink)
	figure.align = fyne.TextAlignCenter
	m := newMark(theme.Full, stepSignSide, inkSoft)
	name := newCut("", theme.Body, ink)
	name.bold = true
	state := newCut("", theme.Caption, inkSoft)
	d := &drawn{objects: []fyne.CanvasObject{g, disc, figure, m, name, state}}
	d.paint = func(p theme.Palette) {
		s.paintGround(g, p)
		if s.present {
			g.FillColor = p.Window
		}
		s.paintDisc(p, disc, figure, m)
		name.set(s.view.Name, s.tone(), true)
		t := tone(inkSoft)
		if s.off {
			t = inkFaint
		}
		state.set(s.view.State, t, false)
	}
	d.min = func() fyne.Size { return fyne.NewSize(60, theme.Px(railHeight)) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		mid := size.Height/2 - 2
		left := float32(stepInset)
		if size.Width < 140 {
			left = stepInset / 2
		}
		alone := size.Width < theme.Px(stepNarrow)
		name.Hidden, state.Hidden = alone, alone
		if alone {
			left = (size.Width - 24) / 2
		}
		place(disc, left, mid-12, 24, 24)
		middle(figure, left, 24, 2*mid)
		place(m, left+12-stepSignSide/2, mid-stepSignSide/2, stepSignSide, stepSignSide)
		text := 2*left + 22
		room := max(size.Width-text-2, 0)
		h := name.MinSize().Height
		place(name, text, mid-h+0.5, room, h)
		place(state, text, mid, room, state.MinSize().Height)
	}
	return d.ready()
}

func (s *stepButton) tone() tone {
	switch {
	case s.present:
		return accentInk
	case s.off:
		return inkFaint
	}
	return ink
}

// paintDisc gives a step its sign: filled number, tick, diamond or ring.
func (s *stepButton) paintDisc(p theme.Palette, disc *canvas.Circle, figure *saying, m *mark) {
	disc.FillColor, disc.StrokeColor, disc.StrokeWidth = theme.Faded(p.Ink, 0), p.Edge, 1.3
	m.Hidden = s.present || s.view.Mark < Done
	disc.Hidden, figure.Hidden = !m.Hidden, !m.Hidden
	switch {
	case s.present:
		disc.FillColor, disc.StrokeWidth = p.Accent, 0
		figure.set(figure.text, onAccent, true)
	case s.off:
		figure.set(figure.text, inkFaint, false)
	default:
		figure.set(figure.text, inkSoft, false)
	}
	m.set(s.view.Mark.icon(), inkSoft)
}
