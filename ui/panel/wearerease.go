package panel

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// EaseView is one girth of the body and of the finished garment.
type EaseView struct {
	Name, Body, Finished, Ease string
	Print                      string // the ease the printed sizes have there; "–" when not known
	Look                       bool   // ease is lost or gained against the print
}

// easeTable lists girths with their ease, and under them the girths that have
// no figure.
type easeTable struct {
	widget.BaseWidget
	rows    []EaseView
	unit    string
	unknown string
	waits   bool // the figures are those of before
}

func newEaseTable() *easeTable {
	t := &easeTable{}
	t.Hidden = true
	t.ExtendBaseWidget(t)
	return t
}

func (t *easeTable) set(rows []EaseView, unit string, unknown []string, waits bool) {
	why := strings.Join(unknown, " ")
	if slices.Equal(t.rows, rows) && t.unit == unit && t.unknown == why && t.waits == waits {
		return
	}
	t.rows, t.unit, t.unknown, t.waits = slices.Clone(rows), unit, why, waits
	t.Hidden = len(rows) == 0 && why == "" && !waits
	t.Refresh()
}

// easeColumns are where the columns of figures end, in shares of the width.
var easeColumns = [...]float32{0.41, 0.64, 0.815, 1}

func (t *easeTable) CreateRenderer() fyne.WidgetRenderer {
	top := canvas.NewRectangle(nil)
	title := newBold("", theme.Body, ink)
	var head []*saying
	for _, word := range []string{words.T("Body"), words.T("Finished"), words.T("Ease"), words.T("In print")} {
		head = append(head, trailing(newWords(word, theme.Caption, inkSoft)))
	}
	why := newWrapped("", theme.Caption, inkSoft, sideContent)
	var names, figures []*saying
	var lines []*canvas.Rectangle
	d := &drawn{}
	d.paint = func(p theme.Palette) {
		for len(lines) < len(t.rows) {
			lines = append(lines, canvas.NewRectangle(nil))
			names = append(names, newCut("", theme.Body, inkSoft))
			for range easeColumns {
				figures = append(figures, trailing(newWords("", theme.Body, ink)))
			}
		}
		title.setText(words.F("Ease, %s", t.unit))
		if t.waits {
			title.setText(words.T("Ease: measuring ..."))
		}
		why.setText(t.unknown)
		top.FillColor = p.Separator
		d.objects = []fyne.CanvasObject{top, title}
		for _, h := range head {
			h.Hidden = len(t.rows) == 0
			d.objects = append(d.objects, h)
		}
		for i, row := range t.rows {
			lines[i].FillColor = p.Separator
			names[i].setText(row.Name)
			d.objects = append(d.objects, lines[i], names[i])
			for k, text := range []string{row.Body, row.Finished, row.Ease, row.Print} {
				tone := ink
				switch {
				case t.waits:
					tone = inkFaint
				case row.Look && k == 2:
					tone = amberInk
				}
				figures[len(easeColumns)*i+k].set(text, tone, k == 2)
				d.objects = append(d.objects, figures[len(easeColumns)*i+k])
			}
		}
		d.objects = append(d.objects, why)
	}
	row := func() float32 { return theme.Px(pointRow) }
	d.min = func() fyne.Size {
		high := row() * float32(2+len(t.rows))
		if t.unknown != "" {
			high += why.MinSize().Height + 4
		}
		return fyne.NewSize(theme.Px(sideContent), high)
	}
	d.lay = func(size fyne.Size) {
		h := row()
		place(top, 0, 0, size.Width, 1)
		middle(title, 0, title.MinSize().Width, h)
		line := func(ws []*saying, y float32) {
			for k, end := range easeColumns {
				w := ws[k].MinSize()
				place(ws[k], size.Width*end-w.Width, y+(h-w.Height)/2, w.Width, w.Height)
			}
		}
		line(head, h*0.9)
		for i := range t.rows {
			y := h * (float32(i) + 1.9)
			m := names[i].MinSize().Height
			place(lines[i], 0, y, size.Width, 1)
			place(names[i], 0, y+(h-m)/2, size.Width*0.22, m)
			line(figures[len(easeColumns)*i:], y)
		}
		place(why, 0, h*(float32(len(t.rows))+1.9)+4, size.Width, why.MinSize().Height)
	}
	return d.ready()
}

func trailing(w *saying) *saying {
	w.align = fyne.TextAlignTrailing
	return w
}
