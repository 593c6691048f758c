package panel

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// fileList is what a folder holds: the stock list, which draws no more rows than
// show, with keys and presses of its own.
type fileList struct {
	widget.List
	box     *FileBox
	focused bool
	letters letters
	pressed struct { // the last press, for a second one on the same row
		row  int
		when time.Time
	}
}

func newFileList(b *FileBox) *fileList {
	l := &fileList{box: b}
	l.HideSeparators = true
	l.Length = func() int { return b.view.Count }
	l.CreateItem = func() fyne.CanvasObject { return newFileRow(l) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if r, ok := o.(*fileRow); ok && i < b.view.Count {
			r.set(i, b.view.Row(i), i == b.view.At, l.focused)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained shows where the keyboard is.
func (l *fileList) FocusGained() {
	l.focused = true
	if l.box.view.At < 0 && l.box.view.Count > 0 {
		call2(l.box.OnMove, 0, false)
	}
	l.Refresh()
}

// FocusLost hides it.
func (l *fileList) FocusLost() {
	l.focused = false
	l.Refresh()
}

// TypedRune finds the row whose name begins with what is typed; Space marks a
// row besides others.
func (l *fileList) TypedRune(r rune) {
	if r == ' ' && l.letters.typed == "" {
		call3(l.box.OnPick, l.box.view.At, true, false)
		return
	}
	call1(l.box.OnFind, l.letters.add(r))
}

// TypedKey goes through the rows; Enter opens the one in hand, Backspace goes to
// the folder above.
func (l *fileList) TypedKey(e *fyne.KeyEvent) {
	page := max(int(l.Size().Height/theme.Px(fileRowHigh))-1, 1)
	all := l.box.view.Count
	by := map[fyne.KeyName]int{
		fyne.KeyUp: -1, fyne.KeyDown: 1, fyne.KeyPageUp: -page, fyne.KeyPageDown: page, fyne.KeyHome: -all, fyne.KeyEnd: all,
	}[e.Name]
	switch {
	case by != 0:
		call2(l.box.OnMove, by, shiftHeld())
	case e.Name == fyne.KeyBackspace:
		call(l.box.OnUp)
	case e.Name == fyne.KeySpace: // comes as a letter too
	case (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) && l.box.view.At >= 0 && !l.box.view.Marked:
		call1(l.box.OnOpen, l.box.view.At)
	default:
		passKey(l, e)
	}
}

// TypedShortcut marks all on Ctrl+A.
func (l *fileList) TypedShortcut(s fyne.Shortcut) {
	if _, ok := s.(*fyne.ShortcutSelectAll); ok {
		call(l.box.OnAll)
		return
	}
	passShortcut(l, s)
}

// press is a press of the mouse on a row; the second on the same row opens it.
func (l *fileList) press(i int) {
	const twice = 450 * time.Millisecond
	again := l.pressed.row == i && time.Since(l.pressed.when) < twice
	l.pressed.row, l.pressed.when = i, time.Now()
	if c := canvasOf(l); c != nil {
		c.Focus(l)
	}
	mods := modifiers()
	switch {
	case again && mods == 0:
		l.pressed.when = time.Time{}
		call1(l.box.OnOpen, i)
	default:
		call3(l.box.OnPick, i, mods&fyne.KeyModifierShortcutDefault != 0, mods&fyne.KeyModifierShift != 0)
	}
}

// modifiers are the keys held now with a press of the mouse.
func modifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

const fileRowHigh = 30

// fileRow is a row: a folder's drawing, the name, and when it was changed. A row
// that is marked has a tick; the one in hand stands on a tint with a bar.
type fileRow struct {
	widget.BaseWidget
	list    *fileList
	i       int
	row     FileRow
	at, key bool
	shown   bool
}

func newFileRow(l *fileList) *fileRow {
	r := &fileRow{list: l}
	r.ExtendBaseWidget(r)
	return r
}

// Tapped takes the row in hand.
func (r *fileRow) Tapped(*fyne.PointEvent) { r.list.press(r.i) }

func (r *fileRow) set(i int, row FileRow, at, key bool) {
	if r.shown && r.i == i && r.row == row && r.at == at && r.key == key {
		return
	}
	r.i, r.row, r.at, r.key, r.shown = i, row, at, key, true
	r.Refresh()
}

// CreateRenderer is Fyne's.
func (r *fileRow) CreateRenderer() fyne.WidgetRenderer {
	g, bar, m := newGround(), newGround(), newMark(theme.Folder, theme.BarIcon, inkSoft)
	name, when := newCut("", theme.Body, ink), newWords("", theme.Caption, inkSoft)
	when.align = fyne.TextAlignTrailing
	d := &drawn{objects: []fyne.CanvasObject{bar, g, m, name, when}}
	d.paint = func(p theme.Palette) {
		taken := r.at || r.row.Marked
		g.FillColor, bar.FillColor = theme.Faded(p.Ink, 0), theme.Faded(p.Accent, 0)
		g.StrokeWidth, g.StrokeColor = 0, p.Accent
		t := tone(ink)
		if taken {
			g.FillColor, t = p.AccentTint, accentInk
		}
		if r.at {
			bar.FillColor = p.Accent
			if r.key {
				g.StrokeWidth = 2
			}
		}
		icon := theme.Folder
		if r.row.Marked {
			icon = theme.Tick
		}
		m.set(icon, t)
		m.Hidden = !r.row.Folder && !r.row.Marked
		name.set(r.row.Name, t, taken)
		when.set(r.row.When, inkSoft, false)
	}
	d.min = func() fyne.Size { return fyne.NewSize(200, theme.Px(fileRowHigh)-4) }
	d.lay = func(size fyne.Size) {
		place(bar, 0, 0, 12, size.Height)
		place(g, 3, 0, size.Width-3, size.Height)
		icon := theme.Px(theme.BarIcon)
		place(m, 8, 0, icon, size.Height)
		wide := when.MinSize().Width
		middle(name, 14+icon, max(size.Width-14-icon-wide-16, 0), size.Height)
		middle(when, size.Width-wide-8, wide, size.Height)
	}
	return d.ready()
}
