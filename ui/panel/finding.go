package panel

import (
	"fmt"

	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// finding is one thing to look at: its number, what and by how much, and a
// button that shows the place. The one in hand is tinted, says what would help
// and offers that.
type finding struct {
	touch
	view   FindingView
	number int
	chosen bool
	show   *button
	do     *button
}

func newFinding(i int, show, do func()) *finding {
	f := &finding{number: i + 1, show: newButton(words.T("Show"), show), do: newButton("", do)}
	f.press = show
	f.ExtendBaseWidget(f)
	return f
}

func (f *finding) set(v FindingView, chosen bool) {
	if f.view != v || f.chosen != chosen {
		f.view, f.chosen = v, chosen
		f.Refresh()
	}
}

// Lengths within a finding, px.
const (
	findingText = 36 // from the left to the words
	findingPad  = 7
)

func (f *finding) CreateRenderer() fyne.WidgetRenderer {
	g, bar := newGround(), newGround()
	bar.CornerRadius = 0
	m := newMark(theme.Look, 17, ink)
	room := float32(sideContent - findingText - 62)
	what := newWrapped("", theme.Body, ink, room)
	what.bold = true
	much := newWrapped("", theme.Caption, amberInk, room)
	help := newWrapped("", theme.Caption, ink, sideContent-findingText-8)
	d := &drawn{objects: []fyne.CanvasObject{g, bar, m, what, much, help, f.show, f.do}}
	d.paint = func(p theme.Palette) {
		f.paintGround(g, p)
		what.set(fmt.Sprintf("%d  %s", f.number, f.view.What), ink, true)
		bar.Hidden = !f.chosen // so that it is not told by its tint alone
		bar.FillColor = p.AmberLine
		if f.chosen {
			g.FillColor = p.AmberTint
		}
		much.setText(f.view.HowMuch)
		help.setText(f.view.Help)
		help.Hidden = !f.chosen || f.view.Help == ""
		f.show.setQuiet(!f.chosen)
		f.do.setWord(f.view.Do)
		f.do.Hidden = !f.chosen || f.view.Do == ""
	}
	height := func(w *saying) float32 {
		if w.Hidden || w.text == "" {
			return 0
		}
		return w.MinSize().Height
	}
	d.min = func() fyne.Size {
		h := max(height(what)+height(much), f.show.MinSize().Height) + height(help) + 2*findingPad
		if !f.do.Hidden {
			h += f.do.MinSize().Height + 4
		}
		return fyne.NewSize(theme.Px(sideContent), h)
	}
	d.lay = func(size fyne.Size) {
		place(g, -8, 0, size.Width+16, size.Height)
		place(bar, -8, 0, 3, size.Height)
		side := theme.Px(17)
		place(m, 2, findingPad+1, side, side)
		y, left := float32(findingPad), theme.Px(28)
		place(what, left, y, what.MinSize().Width, height(what))
		y += height(what)
		place(much, left, y, much.MinSize().Width, height(much))
		s := f.show.MinSize()
		place(f.show, size.Width-s.Width, findingPad, s.Width, s.Height)
		y = max(y+height(much), findingPad+s.Height)
		place(help, left, y, help.MinSize().Width, height(help))
		y += height(help) + 4
		place(f.do, left, y, f.do.MinSize().Width, f.do.MinSize().Height)
	}
	return d.ready()
}

// button is a word on a ground of its own, or, quiet, without one.
type button struct {
	touch
	sign  theme.Name // drawn before the word; none where empty
	word  string
	quiet bool
}

func newButton(word string, press func()) *button {
	b := &button{word: word}
	b.press = press
	b.ExtendBaseWidget(b)
	return b
}

func (b *button) setWord(word string) {
	if b.word != word {
		b.word = word
		b.Refresh()
	}
}

func (b *button) setQuiet(quiet bool) {
	if b.quiet != quiet {
		b.quiet = quiet
		b.Refresh()
	}
}

func (b *button) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	label := newWords(b.word, theme.Body, ink)
	label.align = fyne.TextAlignCenter
	d := &drawn{objects: []fyne.CanvasObject{g, label}}
	const signRoom = theme.BarIcon + 6
	room := float32(0)
	sign := newMark(b.sign, theme.BarIcon, ink)
	if b.sign != "" {
		room = theme.Px(signRoom)
		d.objects = append(d.objects, sign)
	}
	d.paint = func(p theme.Palette) {
		b.paintGround(g, p)
		if !b.quiet && b.hovered {
			g.FillColor = p.ButtonHover
		} else if !b.quiet {
			g.FillColor = p.Button
		}
		label.setText(b.word)
	}
	d.min = func() fyne.Size { return fyne.NewSize(room+label.MinSize().Width+20, max(32, theme.Px(32))) }
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		left := max((size.Width-room-label.MinSize().Width)/2, 10)
		place(sign, left, 0, theme.Px(theme.BarIcon), size.Height)
		middle(label, left+room, max(size.Width-left-room-10, 0), size.Height)
		if b.sign == "" {
			middle(label, 10, size.Width-20, size.Height)
		}
	}
	return d.ready()
}
