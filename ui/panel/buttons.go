package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/ui/theme"
)

const controlHeight = 36

// iconButton is a square with one drawing.
type iconButton struct {
	touch
	name  theme.Name
	solid bool // stands on a ground of its own, as + and - beside a field do
}

func newIconButton(name theme.Name, hint string, press func()) *iconButton {
	b := &iconButton{name: name}
	b.hint, b.press = hint, press
	b.ExtendBaseWidget(b)
	return b
}

func (b *iconButton) setName(name theme.Name) {
	if b.name != name {
		b.name = name
		b.Refresh()
	}
}

func (b *iconButton) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	m := newMark(b.name, theme.BarIcon, ink)
	d := &drawn{objects: []fyne.CanvasObject{g, m}}
	d.paint = func(p theme.Palette) {
		b.paintGround(g, p)
		if b.solid && !b.hovered {
			g.FillColor = p.Button
		} else if b.solid {
			g.FillColor = p.ButtonHover
		}
		t := tone(ink)
		if b.off {
			t = faded
		}
		m.set(b.name, t)
	}
	d.min = func() fyne.Size { return fyne.NewSquareSize(max(controlHeight, theme.Px(controlHeight))) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		place(m, 0, 0, size.Width, size.Height)
	}
	return d.ready()
}

// toolText is where a tool's word begins, px at text scale 1.
const toolText = 31

// toolButton is a drawing with a word; the chosen one stands on a tint with a
// bar below it.
type toolButton struct {
	touch
	name   theme.Name
	word   string
	chosen bool
}

func newToolButton(name theme.Name, word, hint string, press func()) *toolButton {
	b := &toolButton{name: name, word: word}
	b.hint, b.press = hint, press
	b.ExtendBaseWidget(b)
	return b
}

func (b *toolButton) setChosen(chosen bool) {
	if b.chosen != chosen {
		b.chosen = chosen
		b.Refresh()
	}
}

func (b *toolButton) CreateRenderer() fyne.WidgetRenderer {
	g, bar := newGround(), newGround()
	m := newMark(b.name, theme.BarIcon, ink)
	label := newWords(b.word, theme.Body, ink)
	d := &drawn{objects: []fyne.CanvasObject{bar, g, m, label}}
	d.paint = func(p theme.Palette) {
		b.paintGround(g, p)
		bar.FillColor = theme.Faded(p.Accent, 0)
		t := tone(ink)
		if b.chosen {
			g.FillColor, bar.FillColor = p.AccentTint, p.Accent
			t = accentInk
		}
		m.set(b.name, t)
		label.set(b.word, t, b.chosen)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(toolText)+boldWidth(b.word)+6, max(controlHeight, theme.Px(controlHeight)))
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height-3)
		if !b.chosen {
			place(g, 0, 0, size.Width, size.Height)
		}
		place(bar, 0, size.Height-12, size.Width, 12)
		label.Hidden = size.Width < theme.Px(50)
		icon, text := theme.Px(theme.BarIcon), theme.Px(toolText)
		place(m, theme.Px(7), 0, icon, size.Height-1)
		if label.Hidden {
			place(m, (size.Width-icon)/2, 0, icon, size.Height-1)
		}
		middle(label, text, max(size.Width-text-3, 0), size.Height-1)
	}
	return d.ready()
}

func boldWidth(text string) float32 {
	return theme.WordSize(text, theme.Px(theme.Body), true).Width
}

// link is a word in the accent colour that does something when pressed.
type link struct {
	touch
	word string
}

func newLink(word string, press func()) *link {
	l := &link{word: word}
	l.press = press
	l.ExtendBaseWidget(l)
	return l
}

func (l *link) setWord(word string) {
	if l.word != word {
		l.word = word
		l.Refresh()
	}
}

func (l *link) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	label := newBold(l.word, theme.Caption, accentInk)
	d := &drawn{objects: []fyne.CanvasObject{g, label}}
	d.paint = func(p theme.Palette) {
		l.paintGround(g, p)
		label.setText(label.fit(l.word, theme.Px(sideContent)-12)) // names may be long
	}
	d.min = func() fyne.Size {
		m := label.MinSize()
		return fyne.NewSize(m.Width+12, max(m.Height+8, 27))
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		middle(label, 6, size.Width-12, size.Height)
	}
	return d.ready()
}

// twoWay is a switch between two words, one of them always chosen.
type twoWay struct {
	touch
	words  [2]string
	second bool
	onTurn func(second bool)
}

func newTwoWay(first, second, hint string) *twoWay {
	s := &twoWay{words: [2]string{first, second}}
	s.hint = hint
	s.press = func() { s.turn(!s.second) }
	s.ExtendBaseWidget(s)
	return s
}

// Tapped turns to the half that was pressed; Space and Enter turn to the other.
func (s *twoWay) Tapped(e *fyne.PointEvent) {
	if e == nil {
		s.touch.Tapped(nil)
		return
	}
	if second := e.Position.X > s.Size().Width/2; second != s.second {
		s.turn(second)
	}
}

// TypedKey turns it by the keyboard.
func (s *twoWay) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		s.turn(false)
	case fyne.KeyRight:
		s.turn(true)
	default:
		s.touch.TypedKey(e)
	}
}

func (s *twoWay) turn(second bool) {
	if s.second == second {
		return
	}
	s.set(second)
	if s.onTurn != nil {
		s.onTurn(second)
	}
}

func (s *twoWay) set(second bool) {
	if s.second != second {
		s.second = second
		s.Refresh()
	}
}

func (s *twoWay) CreateRenderer() fyne.WidgetRenderer {
	g, chosen, bar, ring := newGround(), newGround(), newGround(), newGround()
	labels := [2]*saying{newBold(s.words[0], theme.Body, ink), newBold(s.words[1], theme.Body, ink)}
	for _, l := range labels {
		l.align = fyne.TextAlignCenter
	}
	d := &drawn{objects: []fyne.CanvasObject{g, bar, chosen, ring, labels[0], labels[1]}}
	d.paint = func(p theme.Palette) {
		g.FillColor, chosen.FillColor, bar.FillColor = p.Button, p.AccentTint, p.Accent
		ring.FillColor = theme.Faded(p.Ink, 0)
		s.paintFocus(ring, p)
		for i, l := range labels {
			if (i == 1) == s.second {
				l.set(s.words[i], accentInk, true)
			} else {
				l.set(s.words[i], ink, false)
			}
		}
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(2*max(40, max(boldWidth(s.words[0]), boldWidth(s.words[1]))+22), max(controlHeight, theme.Px(controlHeight)))
	}
	d.lay = func(size fyne.Size) {
		half, x := size.Width/2, float32(0)
		if s.second {
			x = half
		}
		place(g, 0, 0, size.Width, size.Height)
		place(ring, 0, 0, size.Width, size.Height)
		place(bar, x, size.Height-12, half, 12)
		place(chosen, x, 0, half, size.Height-3)
		middle(labels[0], 0, half, size.Height-1)
		middle(labels[1], half, half, size.Height-1)
	}
	return d.ready()
}
