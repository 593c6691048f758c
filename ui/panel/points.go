package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

const pointRow = 27

// pointTable lists the grade points of an edge with how far each goes out and
// down. A press on a figure opens a field over it.
type pointTable struct {
	touch
	rows    []PointView
	chosen  int
	cell    *field // floats over the figure being typed
	editing bool
	row     int
	down    bool
	onPoint func(i int)
	onOut   func(i int, text string) error
	onDown  func(i int, text string) error
}

func newPointTable() *pointTable {
	t := &pointTable{chosen: -1}
	t.cell = newField("", t.commit)
	t.cell.onLeave = t.close
	t.cell.onTab = t.next
	t.cell.Hide()
	t.ExtendBaseWidget(t)
	return t
}

func (t *pointTable) set(rows []PointView, chosen int) {
	if t.editing {
		if t.row >= len(rows) {
			t.editing = false
		} else {
			t.cell.set(figure(rows[t.row], t.down))
		}
	}
	if !slices.Equal(t.rows, rows) || t.chosen != chosen {
		t.rows, t.chosen = slices.Clone(rows), chosen
		t.Refresh()
	}
}

func figure(p PointView, down bool) string {
	if down {
		return p.Down
	}
	return p.Out
}

func (t *pointTable) commit(text string) error {
	if t.down {
		return t.onDown(t.row, text)
	}
	return t.onOut(t.row, text)
}

func (t *pointTable) close() {
	if t.cell.refused {
		return
	}
	t.editing = false
	t.Refresh()
}

// Tapped chooses the row under the pointer, and opens the figure under it.
func (t *pointTable) Tapped(e *fyne.PointEvent) {
	if e == nil {
		t.edit(t.chosen, false)
		return
	}
	row := int(e.Position.Y/t.rowHeight()) - 1
	if row < 0 || row >= len(t.rows) {
		return
	}
	call1(t.onPoint, row)
	if out, down := t.columns(); e.Position.X >= out {
		t.edit(row, e.Position.X >= down)
	}
}

// TypedKey goes up and down the rows; Enter opens the figure under Out.
func (t *pointTable) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp:
		call1(t.onPoint, max(t.chosen-1, 0))
	case fyne.KeyDown:
		call1(t.onPoint, min(t.chosen+1, len(t.rows)-1))
	default:
		t.touch.TypedKey(e)
	}
}

// next opens the figure after the one being typed, or before it; from the last
// one it lets the keyboard go.
func (t *pointTable) next(back bool) {
	at := 2 * t.row
	if t.down {
		at++
	}
	if at++; back {
		at -= 2
	}
	if at < 0 || at >= 2*len(t.rows) {
		t.cell.entry.letGo()
		return
	}
	t.edit(at/2, at%2 == 1)
}

func (t *pointTable) edit(row int, down bool) {
	if row < 0 || row >= len(t.rows) {
		return
	}
	t.cell.giveUp()
	t.editing, t.row, t.down = true, row, down
	t.cell.set(figure(t.rows[row], down))
	t.Refresh()
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t.cell.entry)
		t.cell.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

func (t *pointTable) rowHeight() float32 { return theme.Px(pointRow) }

// columns is where the figures under Out and under Down begin.
func (t *pointTable) columns() (out, down float32) {
	w := t.Size().Width
	return w * 0.43, w * 0.715
}

func (t *pointTable) CreateRenderer() fyne.WidgetRenderer {
	head := []*saying{
		newWords(words.T("Grade point"), theme.Caption, inkSoft),
		newWords(words.C("of the piece", "Out"), theme.Caption, inkSoft),
		newWords(words.C("along the grain", "Down"), theme.Caption, inkSoft),
	}
	ring := newGround()
	var cells []*saying
	var lines []*canvas.Rectangle
	d := &drawn{}
	d.paint = func(p theme.Palette) {
		for len(lines) < len(t.rows) {
			lines = append(lines, canvas.NewRectangle(nil))
			cells = append(cells, newCut("", theme.Body, ink), newWords("", theme.Body, ink), newWords("", theme.Body, ink))
		}
		ring.FillColor = theme.Faded(p.Ink, 0)
		t.paintFocus(ring, p)
		d.objects = []fyne.CanvasObject{ring, head[0], head[1], head[2]}
		for i, row := range t.rows {
			tone, bold := ink, false
			if i == t.chosen {
				tone, bold = accentInk, true
			}
			for k, text := range []string{row.Name, row.Out, row.Down} {
				cells[3*i+k].set(text, tone, bold)
				d.objects = append(d.objects, cells[3*i+k])
			}
			lines[i].FillColor = p.Separator
			d.objects = append(d.objects, lines[i])
		}
		t.cell.Hidden = !t.editing
		d.objects = append(d.objects, t.cell)
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, t.rowHeight()*float32(1+len(t.rows))) }
	d.lay = func(size fyne.Size) {
		h := t.rowHeight()
		out, down := t.columns()
		place(ring, -4, 0, size.Width+8, size.Height)
		line := func(ws []*saying, y float32) {
			for k, x := range []float32{0, out, down} {
				w := []float32{out - 6, down - out, size.Width - down}[k]
				m := ws[k].MinSize().Height
				place(ws[k], x, y+(h-m)/2, w, m)
			}
		}
		line(head, 0)
		for i := range t.rows {
			y := h * float32(i+1)
			place(lines[i], 0, y-0.5, size.Width, 1)
			line(cells[3*i:3*i+3], y)
		}
		if t.editing {
			x, w := out, down-out-4
			if t.down {
				x, w = down, size.Width-down
			}
			place(t.cell, x-10, h*float32(t.row+1)+h/2-controlHeight/2, w+10, controlHeight)
		}
	}
	return d.ready()
}
