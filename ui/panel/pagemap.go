package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// pageMap shows the sheets as they lie together; the one pressed is looked at.
type pageMap struct {
	touch
	width   float32
	columns int
	pages   []PageView
	chosen  int
	onPage  func(i int)
}

func newPageMap(width float32) *pageMap {
	m := &pageMap{width: width, chosen: -1}
	m.ExtendBaseWidget(m)
	return m
}

func (m *pageMap) set(columns int, pages []PageView, chosen int) {
	columns = max(columns, 1)
	if m.columns != columns || m.chosen != chosen || !slices.Equal(m.pages, pages) {
		m.columns, m.pages, m.chosen = columns, slices.Clone(pages), chosen
		m.Refresh()
	}
}

// cell is the size of one sheet and its share of the map.
func (m *pageMap) cell() (w, h, pitchX, pitchY float32) {
	pitchX = min(m.width/float32(max(m.columns, 1)), 34)
	gap := min(4, pitchX/6)
	w = pitchX - gap
	h = w * 35 / 30
	return w, h, pitchX, h + gap
}

// wide is how wide the sheets are together.
func (m *pageMap) wide() float32 {
	_, _, px, _ := m.cell()
	return px * float32(max(m.columns, 1))
}

// Tapped looks at the sheet under the pointer.
func (m *pageMap) Tapped(e *fyne.PointEvent) {
	if e == nil {
		return
	}
	_, _, px, py := m.cell()
	col, row := int(e.Position.X/px), int(e.Position.Y/py)
	if col < m.columns {
		m.look(row*m.columns + col)
	}
}

// TypedKey goes from sheet to sheet.
func (m *pageMap) TypedKey(e *fyne.KeyEvent) {
	step, ok := map[fyne.KeyName]int{
		fyne.KeyLeft: -1, fyne.KeyRight: 1, fyne.KeyUp: -m.columns, fyne.KeyDown: m.columns,
	}[e.Name]
	if !ok {
		m.touch.TypedKey(e)
		return
	}
	m.look(m.chosen + step)
}

func (m *pageMap) look(i int) {
	if i >= 0 && i < len(m.pages) && !m.pages[i].Blank {
		call1(m.onPage, i)
	}
}

func (m *pageMap) CreateRenderer() fyne.WidgetRenderer {
	ring := newGround()
	d := &drawn{}
	d.paint = func(p theme.Palette) {
		ring.FillColor = theme.Faded(p.Ink, 0)
		m.paintFocus(ring, p)
		d.objects = []fyne.CanvasObject{ring}
		w, h, px, py := m.cell()
		for i, page := range m.pages {
			x, y := float32(i%m.columns)*px, float32(i/m.columns)*py
			d.objects = append(d.objects, m.sheet(p, i, page, x, y, w, h)...)
		}
	}
	d.min = func() fyne.Size {
		rows := (len(m.pages) + max(m.columns, 1) - 1) / max(m.columns, 1)
		_, _, _, py := m.cell()
		return fyne.NewSize(m.wide(), float32(max(rows, 1))*py)
	}
	d.lay = func(size fyne.Size) { place(ring, -3, -3, size.Width+3, size.Height+3) }
	return d.ready()
}

func (m *pageMap) sheet(p theme.Palette, i int, page PageView, x, y, w, h float32) []fyne.CanvasObject {
	if page.Blank {
		out := &canvas.Image{Resource: theme.Icon(theme.LeftOut, p.Edge, p.InkFaint)}
		place(out, x, y, w, h)
		return []fyne.CanvasObject{out}
	}
	r := canvas.NewRectangle(p.Field)
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = p.Edge, 1.2, 3
	t := canvas.NewText(page.Name, p.Ink)
	if i == m.chosen {
		r.FillColor, r.StrokeColor = p.Accent, p.Accent
		t.Color, t.TextStyle.Bold = p.OnAccent, true
	}
	place(r, x, y, w, h)
	t.TextSize = theme.Px(theme.Caption)
	t.Alignment = fyne.TextAlignCenter
	size := t.MinSize()
	if size.Width > w-2 {
		return []fyne.CanvasObject{r}
	}
	place(t, x, y+(h-size.Height)/2, w, size.Height)
	return []fyne.CanvasObject{r, t}
}
