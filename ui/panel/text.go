package panel

import (
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// saying is text of one size and tone that follows the theme. It is one line,
// cut with an ellipsis where cut is set and the room too narrow, or as many
// lines as it takes at the width wrap, which grows with the text scale; with most
// set no more than these, the last of them cut.
type saying struct {
	widget.BaseWidget
	text  string
	size  float32
	bold  bool
	tone  tone
	align fyne.TextAlign
	cut   bool
	wrap  float32
	most  int
}

func newWords(text string, size float32, t tone) *saying {
	w := &saying{text: text, size: size, tone: t}
	w.ExtendBaseWidget(w)
	return w
}

func newBold(text string, size float32, t tone) *saying {
	w := newWords(text, size, t)
	w.bold = true
	return w
}

func newCut(text string, size float32, t tone) *saying {
	w := newWords(text, size, t)
	w.cut = true
	return w
}

func newWrapped(text string, size float32, t tone, width float32) *saying {
	w := newWords(text, size, t)
	w.wrap = width
	return w
}

// set changes text, tone and weight, and draws again only when one differs.
func (w *saying) set(text string, t tone, bold bool) {
	p := theme.Now()
	if w.text == text && w.bold == bold && w.tone(p) == t(p) {
		return
	}
	w.text, w.tone, w.bold = text, t, bold
	w.Refresh()
}

// setWrap breaks the lines at another width.
func (w *saying) setWrap(width float32) {
	if w.wrap != width {
		w.wrap = width
		w.Refresh()
	}
}

func (w *saying) setText(text string) { w.set(text, w.tone, w.bold) }

func (w *saying) measure(text string) fyne.Size {
	return theme.WordSize(text, theme.Px(w.size), w.bold)
}

// fit shortens a line to a width, the last shape an ellipsis.
func (w *saying) fit(text string, width float32) string {
	if w.measure(text).Width <= width+0.5 {
		return text
	}
	runes := []rune(text)
	short := func(n int) string { return strings.TrimRight(string(runes[:n]), " ") + "…" }
	tooLong := sort.Search(len(runes), func(n int) bool { return w.measure(short(n+1)).Width > width })
	if tooLong == 0 {
		return ""
	}
	return short(min(tooLong, len(runes)-1))
}

// lines breaks the text at spaces so that each line holds in the width.
func (w *saying) lines() []string {
	if w.wrap == 0 || w.text == "" {
		return []string{w.text}
	}
	var out []string
	line, long := "", float32(0)
	space, room := w.measure(" ").Width, theme.Px(w.wrap)
	for _, word := range strings.Fields(w.text) {
		wide := w.measure(word).Width // a word at a time: its measure is remembered, a line's is not
		switch {
		case line == "":
			line, long = word, wide
		case long+space+wide > room:
			out = append(out, line)
			line, long = word, wide
		default:
			line, long = line+" "+word, long+space+wide
		}
	}
	out = append(out, line)
	if w.most > 0 && len(out) > w.most {
		last := w.fit(strings.Join(out[w.most-1:], " "), room)
		out = append(out[:w.most-1], last)
	}
	return out
}

func (w *saying) CreateRenderer() fyne.WidgetRenderer {
	var texts []*canvas.Text
	d := &drawn{}
	d.paint = func(p theme.Palette) {
		d.objects = d.objects[:0]
		for i, line := range w.lines() {
			if i == len(texts) {
				texts = append(texts, canvas.NewText("", nil))
			}
			t := texts[i]
			t.Text, t.Color, t.Alignment = line, w.tone(p), w.align
			t.TextSize, t.TextStyle.Bold = theme.Px(w.size), w.bold
			d.objects = append(d.objects, t)
		}
	}
	d.min = func() fyne.Size {
		size := w.measure("0")
		size.Height *= float32(len(d.objects))
		size.Width = theme.Px(w.wrap)
		if w.wrap == 0 && !w.cut {
			size.Width = w.measure(w.text).Width
		}
		return size
	}
	d.lay = func(size fyne.Size) {
		h := w.measure("0").Height
		for i := range d.objects {
			t := texts[i]
			if w.cut {
				t.Text = w.fit(w.text, size.Width)
			}
			place(t, 0, float32(i)*h, size.Width, h)
		}
	}
	return d.ready()
}
