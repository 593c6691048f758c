package panel

import (
	"image/color"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	base "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// field is one line to type in, with its unit at the right. What is typed goes
// out on Enter and on leaving; Enter also gives the keyboard back to the Table.
// Words that were refused stay, outlined in amber, until they are mended or
// Escape brings the document's words back.
type field struct {
	widget.BaseWidget
	entry    *typed
	unit     *saying
	whole    fyne.CanvasObject
	refused  bool
	focused  bool
	last     string // the document's words
	put      string // the words last put here, not typed
	large    bool   // a key figure, shown with a built fraction while nobody types
	onCommit func(text string) error
	onHint   func(sentence string) // why the words were refused; "" when all is well
	onLeave  func()
	onTab    func(back bool) // where Tab goes on to; nil for the next control
}

func newField(unit string, onCommit func(string) error) *field {
	f := &field{onCommit: onCommit}
	f.entry = newTyped(f)
	f.unit = newWords(unit, theme.Body, inkSoft)
	f.entry.ActionItem = inset(0, 0, 0, 10, container.NewCenter(f.unit))
	f.whole = f.entry
	f.ExtendBaseWidget(f)
	return f
}

// newKeyField is a field whose figure is large.
func newKeyField(unit string, onCommit func(string) error) *field {
	f := newField(unit, onCommit)
	f.entry.TextStyle.Bold = true
	f.large = true
	f.whole = container.NewThemeOverride(f.entry, keyTheme{})
	return f
}

// set shows words of the document. They wait while typed words are not taken
// yet, or wait to be mended.
func (f *field) set(text string) {
	f.last = text
	if !f.typedOn() {
		f.restore()
	}
}

// typedOn tells whether words were typed that are not taken.
func (f *field) typedOn() bool { return f.refused || f.entry.Text != f.put }

func (f *field) restore() {
	f.put = f.last
	if f.large && !f.focused {
		f.put = built(f.last)
	}
	if f.entry.Text != f.put {
		f.entry.SetText(f.put)
	}
}

// built is a figure with its fraction as large figures have it: the whole, a narrow
// space, and a slash round which the font builds the fraction.
func built(figure string) string {
	if !strings.Contains(figure, "/") {
		return figure
	}
	return strings.NewReplacer(" ", "\u2009", "/", "\u2044").Replace(figure)
}

func (f *field) setUnit(unit string) { f.unit.setText(unit) }

func (f *field) setOff(off bool) {
	if off {
		f.entry.Disable()
	} else {
		f.entry.Enable()
	}
}

func (f *field) commit() {
	if !f.typedOn() {
		return
	}
	var err error
	if f.onCommit != nil {
		err = f.onCommit(f.entry.Text)
	}
	f.refuse(err)
	if err == nil {
		f.restore()
	}
}

func (f *field) refuse(err error) {
	f.refused = err != nil
	if f.onHint != nil {
		hint := ""
		if err != nil {
			hint = sentence(err.Error())
		}
		f.onHint(hint)
	}
	f.Refresh()
}

// sentence gives words a capital and a full stop.
func sentence(words string) string {
	first, n := utf8.DecodeRuneInString(words)
	if n == 0 {
		return ""
	}
	if !strings.HasSuffix(words, ".") {
		words += "."
	}
	return string(unicode.ToUpper(first)) + words[n:]
}

func (f *field) giveUp() {
	f.refuse(nil)
	f.restore()
}

func (f *field) CreateRenderer() fyne.WidgetRenderer {
	outline := canvas.NewRectangle(nil)
	outline.CornerRadius = theme.ControlRadius
	sign := newMark(theme.Look, 15, ink) // that it was refused is not told by its outline's colour alone
	d := &drawn{objects: []fyne.CanvasObject{f.whole, outline, sign}}
	d.paint = func(p theme.Palette) {
		outline.FillColor = color.Transparent
		sign.Hidden = !f.refused
		switch {
		case f.refused:
			outline.StrokeColor, outline.StrokeWidth = p.AmberLine, 2
		case f.focused:
			outline.StrokeColor, outline.StrokeWidth = p.Accent, 2
		default:
			outline.StrokeColor, outline.StrokeWidth = color.Transparent, 0
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(60, max(controlHeight, f.whole.MinSize().Height)) }
	d.lay = func(size fyne.Size) {
		sharp(f.whole, size)
		place(outline, 0, 0, size.Width, size.Height)
		unit := float32(0)
		if f.unit.text != "" {
			unit = f.unit.MinSize().Width + 10
		}
		side := theme.Px(15)
		middle(sign, size.Width-unit-9-side, side, size.Height)
	}
	return d.ready()
}

// typed is the entry inside a field.
type typed struct {
	widget.Entry
	owner *field
}

func newTyped(owner *field) *typed {
	e := &typed{owner: owner}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) {
		owner.commit()
		if !owner.refused {
			e.letGo()
		}
	}
	return e
}

// letGo gives the keyboard back.
func (e *typed) letGo() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
		c.Unfocus()
	}
}

// FocusGained shows the outline. All words are marked, so that typing after Tab
// replaces them; a click puts the cursor among them instead.
func (e *typed) FocusGained() {
	e.owner.focused = true
	if !e.owner.typedOn() {
		e.owner.restore()
	}
	e.Entry.FocusGained()
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	e.owner.Refresh()
	reveal(e.owner)
}

// FocusLost takes what was typed.
func (e *typed) FocusLost() {
	e.Entry.FocusLost()
	e.owner.focused = false
	e.owner.commit()
	if !e.owner.typedOn() {
		e.owner.restore()
	}
	e.owner.Refresh()
	if e.owner.onLeave != nil {
		e.owner.onLeave()
	}
}

// AcceptsTab keeps Tab where the field has a next of its own.
func (e *typed) AcceptsTab() bool { return e.owner.onTab != nil }

// TypedKey gives the document's words back on Escape; Tab takes what was typed
// and goes on, unless it was refused.
func (e *typed) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape:
		e.owner.giveUp()
		e.letGo()
	case k.Name == fyne.KeyTab && e.owner.onTab != nil:
		e.owner.commit()
		if !e.owner.refused {
			e.owner.onTab(shiftHeld())
		}
	case ofWindow[k.Name]:
		passKey(e, k)
	default:
		e.Entry.TypedKey(k)
	}
}

// ofWindow are the keys that are the window's wherever the keyboard is.
var ofWindow = map[fyne.KeyName]bool{fyne.KeyF2: true, fyne.KeyF6: true, fyne.KeyF10: true, fyne.KeyPageUp: true, fyne.KeyPageDown: true}

// TypedShortcut hands the window's shortcuts on, with what was typed taken first.
func (e *typed) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && !ofTyping[c.KeyName] {
		e.owner.commit()
		passShortcut(e, s)
		return
	}
	e.Entry.TypedShortcut(s)
}

// ofTyping are the keys that with Ctrl go from word to word.
var ofTyping = map[fyne.KeyName]bool{fyne.KeyLeft: true, fyne.KeyRight: true, fyne.KeyBackspace: true, fyne.KeyDelete: true}

// shiftHeld tells whether Shift is held now.
func shiftHeld() bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0
}

// keyTheme is the theme in use with body text at the size of a key figure and
// no shadows where the text scrolls.
type keyTheme struct{}

func (keyTheme) now() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

// Color is the theme's, but for the shadow.
func (k keyTheme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	if n == base.ColorNameShadow {
		return color.Transparent
	}
	return k.now().Color(n, v)
}

// Font is the theme's.
func (k keyTheme) Font(s fyne.TextStyle) fyne.Resource { return k.now().Font(s) }

// Icon is the theme's.
func (k keyTheme) Icon(n fyne.ThemeIconName) fyne.Resource { return k.now().Icon(n) }

// Size is the theme's, with large text and the padding that keeps the field in
// its row.
func (k keyTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case base.SizeNameText:
		return theme.Px(theme.KeyFigure)
	case base.SizeNameInnerPadding:
		return theme.Px(8)
	}
	return k.now().Size(n)
}
