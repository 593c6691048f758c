package panel

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// Status is the bar along the bottom of the window. It says in words what the
// Table shows.
type Status struct {
	widget.BaseWidget
	parts []string
}

// NewStatus makes an empty bar.
func NewStatus() *Status {
	s := &Status{}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows its parts, one beside the other; words between asterisks are bold:
// "Pointer *11 3/16 in* across". Empty parts are left out.
func (s *Status) Set(parts ...string) {
	parts = slices.DeleteFunc(slices.Clone(parts), func(p string) bool { return p == "" })
	if !slices.Equal(s.parts, parts) {
		s.parts = parts
		s.Refresh()
	}
}

// Text is what the bar says, without the marks of bold.
func (s *Status) Text() string {
	return strings.ReplaceAll(strings.Join(s.parts, " | "), "*", "")
}

// CreateRenderer is Fyne's.
func (s *Status) CreateRenderer() fyne.WidgetRenderer {
	back := newFill(railFill)
	var runs []*saying
	var lines []*ground
	d := &drawn{}
	d.paint = func(theme.Palette) {
		n := 0
		d.objects = []fyne.CanvasObject{back}
		for i, part := range s.parts {
			for k, run := range strings.Split(part, "*") {
				if n == len(runs) {
					runs = append(runs, newWords("", theme.Caption, inkSoft))
				}
				if k%2 == 1 {
					runs[n].set(run, ink, true)
				} else {
					runs[n].set(run, inkSoft, false)
				}
				d.objects = append(d.objects, runs[n])
				n++
			}
			if i == len(lines) {
				lines = append(lines, newFill(edge))
			}
			lines[i].Hidden = i == 0
			d.objects = append(d.objects, lines[i])
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(100, max(28, theme.Px(28))) }
	d.lay = func(size fyne.Size) {
		place(back, 0, 0, size.Width, size.Height)
		x, n := float32(14), 0
		for i, part := range s.parts {
			if i > 0 {
				place(lines[i], x+18, 7, 1, size.Height-14)
				x += 18 + 18
			}
			for range strings.Split(part, "*") {
				w := runs[n].MinSize().Width
				middle(runs[n], x, w, size.Height)
				x += w
				n++
			}
		}
	}
	return d.ready()
}

// RedStrip says under the rail that work would be lost, and stays until it is
// safe. It is hidden while there is nothing to say.
type RedStrip struct {
	widget.BaseWidget
	text   *saying
	button *Push
	onTurn func() // it came or went
}

// NewRedStrip makes a hidden strip; its button reads verb and calls act.
func NewRedStrip(verb string, act func()) *RedStrip {
	r := &RedStrip{text: newCut("", theme.Body, onLoss), button: NewPush(verb, func() { call(act) })}
	r.text.bold = true
	r.Hidden = true
	r.ExtendBaseWidget(r)
	return r
}

// Set shows a sentence, or hides the strip when it is empty.
func (r *RedStrip) Set(sentence string) {
	r.text.setText(sentence)
	if hidden := sentence == ""; hidden != r.Hidden {
		if hidden {
			r.Hide()
		} else {
			r.Show()
		}
		call(r.onTurn)
	}
}

// CreateRenderer is Fyne's.
func (r *RedStrip) CreateRenderer() fyne.WidgetRenderer {
	back := newFill(lossFill)
	d := &drawn{objects: []fyne.CanvasObject{back, r.text, r.button}}
	d.paint = func(theme.Palette) {}
	d.min = func() fyne.Size { return fyne.NewSize(200, r.button.MinSize().Height+8) }
	d.lay = func(size fyne.Size) {
		w := r.button.MinSize().Width
		place(back, 0, 0, size.Width, size.Height)
		middle(r.text, 14, max(size.Width-w-36, 0), size.Height)
		middle(r.button, size.Width-w-10, w, size.Height)
	}
	return d.ready()
}
