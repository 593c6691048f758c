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

// CreateRenderer is Fyne's.
func (p *Pill) CreateRenderer() fyne.WidgetRenderer {
	back := newBox(raisedFill, edge, 1.2, 17)
	m := newMark(theme.Folded, 16, accent)
	first, rest := newBold("", theme.Body, ink), newWords("", theme.Body, ink)
	d := &drawn{objects: []fyne.CanvasObject{back, m, first, rest}}
	d.paint = func(theme.Palette) {
		parts := strings.SplitN(p.text, "*", 3)
		if len(parts) == 3 {
			first.setText(parts[1])
			rest.setText(strings.TrimSpace(parts[2]))
			return
		}
		first.setText("")
		rest.setText(p.text)
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, max(34, theme.Px(34))) }
	d.lay = func(s fyne.Size) {
		a, b := first.MinSize().Width, rest.MinSize().Width
		x := float32(38)
		if a > 0 {
			x += a + 5
		}
		place(back, 0, 0, min(s.Width, x+b+18), s.Height)
		middle(m, 14, 16, s.Height)
		middle(first, 38, a, s.Height)
		middle(rest, x, b, s.Height)
	}
	return d.ready()
}
