package board

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// figure is a key figure on the Table: an amount in large type and, below, what
// it is measured from.
type figure struct {
	board        *Board
	ground       *canvas.Rectangle
	amount, unit *canvas.Text
	caption      *canvas.Text
}

func newFigure(b *Board) *figure {
	f := &figure{board: b, ground: canvas.NewRectangle(nil)}
	f.ground.CornerRadius = 6
	f.amount = &canvas.Text{TextSize: 24, TextStyle: fyne.TextStyle{Bold: true}}
	f.unit = &canvas.Text{TextSize: 14}
	f.caption = &canvas.Text{TextSize: 13}
	f.hide()
	return f
}

// resize makes its words so many times as large as drawn.
func (f *figure) resize(scale float32) {
	f.amount.TextSize, f.unit.TextSize, f.caption.TextSize = 24*scale, 14*scale, 13*scale
}

func (f *figure) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{f.ground, f.amount, f.unit, f.caption}
}

func (f *figure) recolour() {
	p := f.board.palette
	ground := p.Table
	ground.A = 0xE6
	f.ground.FillColor = ground
	f.amount.Color, f.unit.Color, f.caption.Color = p.AccentInk, p.AccentInk, p.InkSoft
}

// show writes mm and the caption beside a place of the paper's area, on its
// right where there is room.
func (f *figure) show(mm float64, caption string, x, y float64) {
	amount, unit := splitUnit(measure.FormatMM(mm, f.board.unit))
	f.amount.Text, f.unit.Text, f.caption.Text = large(amount), unit, caption
	a, u, c := f.amount.MinSize(), f.unit.MinSize(), f.caption.MinSize()
	w, h := max(a.Width+6+u.Width, c.Width), a.Height+c.Height
	paperW, paperH := f.board.paperSize()
	if x+float64(w)+12 > paperW {
		x -= float64(w) + 44
	}
	y = min(max(y, 4), paperH-float64(h)-4)
	f.ground.Move(pos(x-6, y-2))
	f.ground.Resize(fyne.NewSize(w+12, h+4))
	f.amount.Move(pos(x, y))
	f.unit.Move(pos(x+float64(a.Width)+6, y+float64(a.Height-u.Height)-3))
	f.caption.Move(pos(x, y+float64(a.Height)))
	for _, o := range f.objects() {
		o.Show()
		o.Refresh()
	}
}

func (f *figure) hide() {
	for _, o := range f.objects() {
		o.Hide()
	}
}

// splitUnit cuts "1 11/16 in" into the amount and its unit.
func splitUnit(s string) (amount, unit string) {
	i := strings.LastIndexByte(s, ' ')
	if i < 0 {
		return s, ""
	}
	return s[:i], s[i+1:]
}

// large writes a fraction as it is set in large type: thin space, digits,
// fraction slash, digits.
func large(amount string) string {
	whole, part, mixed := strings.Cut(amount, " ")
	if mixed {
		amount = whole + "\u2009" + part
	}
	return strings.Replace(amount, "/", "\u2044", 1)
}

// asGone says how a movement went: straight across, straight down, or both
// parts of it.
func (b *Board) asGone(d geom.Vec) string {
	const straight = 0.05 // mm, less than any line is wide
	switch across, down := abs(d.X), abs(d.Y); {
	case down < straight && across < straight:
		return words.T("not moved")
	case down < straight:
		return words.T("straight across")
	case across < straight:
		return words.T("straight down")
	default:
		return words.F("%s across, %s down", measure.FormatMM(across, b.unit), measure.FormatMM(down, b.unit))
	}
}

func abs(x float64) float64 { return max(x, -x) }
