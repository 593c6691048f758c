package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// Pill is the line over the foot of the Table that says what to click next.
// Words between asterisks are bold.
type Pill struct {
	widget.BaseWidget
	text string
}

// NewPill makes a hidden pill.
func NewPill() *Pill {
	p := &Pill{}
	p.Hidden = true
	p.ExtendBaseWidget(p)
	return p
}

// Set shows a line, or hides the pill without one.
func (p *Pill) Set(text string) {
	if p.text == text {
		return
	}
	p.text = text
	if p.Hidden = text == ""; !p.Hidden {
		p.Refresh()
	}
}

// Text is what it says, without the marks of bold.
func (p *Pill) Text() string { return strings.ReplaceAll(p.text, "*", "") }

// Wide is how wide the line is; 0 while it is hidden.
func (p *Pill) Wide() float32 {
	if p.Hidden {
		return 0
	}
	first, rest := p.parts()
	a, b := newBold(first, theme.Body, ink).MinSize().Width, newWords(rest, theme.Body, ink).MinSize().Width
	return pillWide(a, b)
}

// parts are the bold words, and the rest.
func (p *Pill) parts() (first, rest string) {
	if parts := strings.SplitN(p.text, "*", 3); len(parts) == 3 {
		return parts[1], strings.TrimSpace(parts[2])
	}
	return "", p.text
}

// pillLeft is where its words begin.
const pillLeft = 38 // px at text scale 1

func pillWide(first, rest float32) float32 {
	if first > 0 {
		first += 5
	}
	return theme.Px(pillLeft) + first + rest + 18
}

// CreateRenderer is Fyne's.
func (p *Pill) CreateRenderer() fyne.WidgetRenderer {
	back := newBox(raisedFill, edge, 1.2, 17)
	m := newMark(theme.Folded, 22, accent)
	first, rest := newBold("", theme.Body, ink), newWords("", theme.Body, ink)
	d := &drawn{objects: []fyne.CanvasObject{back, m, first, rest}}
	d.paint = func(theme.Palette) {
		bold, plain := p.parts()
		first.setText(bold)
		rest.setText(plain)
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, max(34, theme.Px(34))) }
	d.lay = func(s fyne.Size) {
		a, b := first.MinSize().Width, rest.MinSize().Width
		wide := pillWide(a, b)
		place(back, 0, 0, min(s.Width, wide), s.Height)
		middle(m, theme.Px(12), theme.Px(22), s.Height)
		middle(first, theme.Px(pillLeft), a, s.Height)
		middle(rest, wide-18-b, b, s.Height)
	}
	return d.ready()
}
