package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ToolView is one tool of the Table.
type ToolView struct {
	Name theme.Name // its drawing
	Word string
	Hint string // what it does and its key: "Move a point or an edge (M)"
}

// ToggleView is one thing the Table can show.
type ToggleView struct {
	Word, Hint string
	On         bool
}

// ToolsView is what the bar above the Table shows.
type ToolsView struct {
	Tools   []ToolView
	Chosen  int
	Toggles []ToggleView
	Zoom    string // "26 %"
}

// Tools is the bar above the Table: what the pointer does, what is shown, how
// large.
type Tools struct {
	widget.BaseWidget
	OnTool         func(i int)
	OnToggle       func(i int, on bool)
	OnZoom         func(in bool)
	OnFit          func()
	OnTrueSize     func()
	OnHint         func(string)
	tools          []*toolButton
	toggles        []*check
	out, in        *iconButton
	zoom           *saying
	fit, trueSize  *toolButton
	divide, ground *ground
	view           ToolsView
	onTurn         func() // it holds other things, and may be higher or lower
}

// NewTools makes an empty bar.
func NewTools() *Tools {
	t := &Tools{ground: newFill(windowFill), divide: newFill(separatorInk)}
	t.out = newIconButton(theme.Minus, words.T("Smaller (-)"), func() { call1(t.OnZoom, false) })
	t.in = newIconButton(theme.Plus, words.T("Larger (+)"), func() { call1(t.OnZoom, true) })
	t.zoom = newWords("", theme.Body, ink)
	t.zoom.align = fyne.TextAlignCenter
	t.fit = newToolButton(theme.Fit, words.T("Fit"), words.T("Show everything (0)"), func() { call(t.OnFit) })
	t.trueSize = newToolButton(theme.TrueSize, words.T("True size"), words.T("As large as on paper (9)"), func() { call(t.OnTrueSize) })
	for _, b := range []*touch{&t.out.touch, &t.in.touch, &t.fit.touch, &t.trueSize.touch} {
		b.onHint = t.hint
	}
	t.ExtendBaseWidget(t)
	return t
}

func (t *Tools) hint(h string) { call1(t.OnHint, h) }

// SetView shows a view.
func (t *Tools) SetView(v ToolsView) {
	t.view = v
	if len(t.tools) != len(v.Tools) || len(t.toggles) != len(v.Toggles) {
		t.rebuild(v)
	}
	for i, tv := range v.Toggles {
		if t.toggles[i].word != tv.Word {
			t.rebuild(v)
			break
		}
	}
	for i, tv := range v.Tools {
		t.tools[i].hint = tv.Hint
		t.tools[i].setChosen(i == v.Chosen)
	}
	for i, tv := range v.Toggles {
		t.toggles[i].hint = tv.Hint
		t.toggles[i].set(tv.On)
	}
	t.zoom.setText(v.Zoom)
}

func (t *Tools) rebuild(v ToolsView) {
	t.tools, t.toggles = nil, nil
	for i, tv := range v.Tools {
		b := newToolButton(tv.Name, tv.Word, tv.Hint, func() { call1(t.OnTool, i) })
		b.onHint = t.hint
		t.tools = append(t.tools, b)
	}
	for i, tv := range v.Toggles {
		c := newCheck(tv.Word)
		c.onHint = t.hint
		c.onTurn = func(on bool) { call2(t.OnToggle, i, on) }
		t.toggles = append(t.toggles, c)
	}
	t.Refresh()
	call(t.onTurn)
}

// CreateRenderer is Fyne's.
func (t *Tools) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{}
	d.paint = func(theme.Palette) {
		d.objects = []fyne.CanvasObject{t.ground, t.divide, t.out, t.zoom, t.in, t.fit, t.trueSize}
		for _, b := range t.tools {
			d.objects = append(d.objects, b)
		}
		for _, c := range t.toggles {
			d.objects = append(d.objects, c)
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(400, toolsHigh()) }
	d.lay = t.lay
	return d.ready()
}

// toolNarrow is how wide a tool is without its word: its drawing, with room round it
// that need not grow with the words.
func toolNarrow() float32 { return theme.Px(theme.BarIcon) + 20 }

func toolsHigh() float32 { return max(48, theme.Px(48)) }

// HeightFor is how high the bar is at a width: where even its drawings alone
// leave no room for what can be shown, that goes into a row below.
func (t *Tools) HeightFor(width float32) float32 {
	if t.twoRows(width) {
		return 2*toolsHigh() - theme.Px(14)
	}
	return toolsHigh()
}

func (t *Tools) twoRows(width float32) bool {
	return float32(len(t.tools))*(toolNarrow()+4)+t.restWide()+2*toolNarrow() > width
}

// restWide is how wide all is that has no short form.
func (t *Tools) restWide() float32 {
	rest := 8 + 8 + 4 + 6 + 1 + 8 + 2*t.zoomWide() + theme.Px(46) // as layEnds has it
	for _, c := range t.toggles {
		rest += c.MinSize().Width + 4
	}
	return rest
}

// zoomWide is how wide each of what zooms is.
func (t *Tools) zoomWide() float32 { return min(t.in.MinSize().Width, toolNarrow()) }

// lay puts the tools at the left, the rest at the right. Where the bar is too
// short for all the words, those of Fit and True size go first, then the
// tools'.
func (t *Tools) lay(size fyne.Size) {
	place(t.ground, 0, 0, size.Width, size.Height)
	if t.twoRows(size.Width) {
		t.layTwo(size)
		return
	}
	words, ends := float32(0), t.fit.MinSize().Width+t.trueSize.MinSize().Width
	for _, b := range t.tools {
		words += b.MinSize().Width + 4
	}
	rest := t.restWide()
	shortEnds := words+rest+ends > size.Width
	gap := float32(toolGap)
	if least := words + rest + 2*toolNarrow(); least > size.Width && least-t.spared() <= size.Width {
		gap, rest = tightGap, rest-float32(len(t.toggles))*(toolGap-tightGap)
	}
	t.layTools(size, size.Width-rest-2*toolNarrow(), gap)
	right := t.layEnds(size, shortEnds)
	t.layToggles(right, size.Height/2, gap)
}

// Gaps between tools and between what can be shown: as drawn, and where all words
// just fit with less.
const (
	toolGap  = 4
	tightGap = 1
)

// spared is how much width the bar saves with the tight gaps.
func (t *Tools) spared() float32 {
	return float32(2*len(t.tools)+len(t.toggles)) * (toolGap - tightGap)
}

// layTwo lays the toggles in a row of their own.
func (t *Tools) layTwo(size fyne.Size) {
	row := fyne.NewSize(size.Width, size.Height/2)
	t.layTools(row, 0, toolGap)
	t.layEnds(row, true)
	x := float32(8)
	for _, c := range t.toggles {
		w, h := c.MinSize().Width, c.MinSize().Height
		place(c, x, row.Height+(row.Height-h)/2, w, h)
		x += w + 4
	}
}

// layTools lays the tools, from the left with as many of their words as the room
// for all of them has; a tight gap makes the tools themselves tighter too.
func (t *Tools) layTools(size fyne.Size, room, gap float32) {
	x := float32(8)
	room -= float32(len(t.tools)) * (toolNarrow() + gap)
	for _, b := range t.tools {
		w := toolNarrow()
		wide := b.MinSize().Width - (toolGap - gap)
		if more := wide - w; more <= room {
			room -= max(more, 0)
			w = max(wide, w)
		} else {
			room = 0 // one after a tool without its word goes without as well
		}
		middle(b, x, w, size.Height)
		x += w + gap
	}
}

// layEnds lays what zooms from the right and gives where it begins.
func (t *Tools) layEnds(size fyne.Size, short bool) float32 {
	right := size.Width - 8
	step := func(o fyne.CanvasObject, w, gap float32) {
		right -= w
		middle(o, right, w, size.Height)
		right -= gap
	}
	for _, b := range []*toolButton{t.trueSize, t.fit} {
		w := b.MinSize().Width
		if short {
			w = toolNarrow()
		}
		step(b, w, 0)
	}
	right -= 4
	step(t.in, t.zoomWide(), 0)
	step(t.zoom, theme.Px(46), 0)
	step(t.out, t.zoomWide(), 6)
	place(t.divide, right, 13, 1, size.Height-26)
	return right - 8
}

// layToggles lays what can be shown up to right, in the middle of a row.
func (t *Tools) layToggles(right, mid, gap float32) {
	for i := len(t.toggles) - 1; i >= 0; i-- {
		w, h := t.toggles[i].MinSize().Width, t.toggles[i].MinSize().Height
		right -= w
		place(t.toggles[i], right, mid-h/2, w, h)
		right -= gap
	}
}
