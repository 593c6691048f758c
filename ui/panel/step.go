package panel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// stepInset is the room before a step's sign, px, half as much where there is
// little; stepDisc is how large the sign is.
const (
	stepInset = 12
	stepDisc  = 24

	stepSignSide = 29 // of the tick and the diamond, whose drawing fills stepDisc of it
)

// stepText is where the words of a step with little room begin, when its sign is
// as large as drawn.
const stepText = stepInset + stepDisc - 2

// stepButton is one step on the rail.
type stepButton struct {
	touch
	number  int
	view    StepView
	present bool
	// below says that how it stands is written below its sign and not beside it.
	below bool
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
		side, left := float32(stepDisc), float32(stepInset)
		if size.Width < 140 {
			left = stepInset / 2
		}
		alone := size.Width < theme.Px(stepNarrow)
		name.Hidden, state.Hidden = alone, alone
		if grown := theme.Px(stepDisc); alone || 2*left+grown+boldWidth(s.view.Name) <= size.Width {
			side = grown
		}
		if alone {
			left = (size.Width - side) / 2
		}
		h := name.MinSize().Height
		text := 2*left + side - 2
		room := max(size.Width-text-2, 0)
		place(state, text, mid, room, state.MinSize().Height)
		if s.below && !alone {
			side = stepDisc
			text = left + side + 6
			place(state, left, mid, size.Width-left-2, state.MinSize().Height)
			mid -= h / 2
			place(name, text, mid-h/2, size.Width-text-2, h)
		} else {
			place(name, text, mid-h+0.5, room, h)
		}
		place(disc, left, mid-side/2, side, side)
		middle(figure, left, side, 2*mid)
		sign := side * stepSignSide / stepDisc
		place(m, left+(side-sign)/2, mid-sign/2, sign, sign)
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
