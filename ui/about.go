package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// about says which Quarterstep this is and under which licences it and what is
// built into it may be used.
func (w *Window) about() {
	if w.dialogOpen {
		return
	}
	head := widget.NewLabel(words.F("Quarterstep, %s. A workbench for paper patterns.\nIt comes without warranty: check the scale, sew a toile. Below are its licence and those of what is built into it.", app.VersionWords()))
	text := linesOf(assets.Licences, 740)
	w.tell(words.T("About Quarterstep"), container.NewBorder(head, nil, nil, nil, text), nil, fyne.NewSize(820, 640))
	w.asked.list = text
}

// linesOf shows a long text in letters of one width, so many px wide. Only the lines in
// sight are drawn: a label of some thousand lines takes seconds.
func linesOf(text string, wide float32) *widget.List {
	style := fyne.TextStyle{Monospace: true}
	size := theme.Px(theme.Body)
	letters := int(wide / fyne.MeasureText("m", size, style).Width)
	var lines []string
	for l := range strings.Lines(text) {
		lines = append(lines, wrapped(strings.TrimRight(l, "\r\n"), letters)...)
	}
	list := widget.NewList(func() int { return len(lines) }, func() fyne.CanvasObject {
		return &canvas.Text{TextSize: size, TextStyle: style}
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		t := o.(*canvas.Text)
		t.Text, t.Color = lines[i], theme.Now().Ink
		t.Refresh()
	})
	list.HideSeparators = true
	list.OnSelected = list.Unselect
	return list
}

// wrapped is a line in lines of no more than so many letters, parted between words
// where that can be.
func wrapped(line string, letters int) []string {
	var out []string
	for runes := []rune(line); ; {
		if len(runes) <= letters {
			return append(out, string(runes))
		}
		end := letters
		for end > 0 && runes[end] != ' ' {
			end--
		}
		if end == 0 {
			end = letters
		}
		out = append(out, string(runes[:end]))
		for runes = runes[end:]; len(runes) > 0 && runes[0] == ' '; {
			runes = runes[1:]
		}
	}
}
