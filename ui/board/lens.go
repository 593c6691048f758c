package board

import (
	"image"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/view"
)

// The close-up: its size in px, the height of its heading and how much larger
// it shows the paper.
const (
	lensWidth  = 310
	lensHeight = 200
	lensHead   = 30
	lensZoom   = 3.4
	traceZoom  = 4 // while tracing
)

// lens is the close-up of the pointer's neighbourhood, in the lower right
// corner of the board, or the lower left one while the pointer is there.
type lens struct {
	board       *Board
	on          bool
	frame       *canvas.Rectangle
	raster      *canvas.Raster
	title, note *canvas.Text
	img         *image.RGBA
}

func newLens(b *Board) *lens {
	l := &lens{board: b, frame: canvas.NewRectangle(nil)}
	l.frame.CornerRadius, l.frame.StrokeWidth = 8, 1.2
	l.frame.Resize(size(lensWidth, lensHeight))
	l.raster = canvas.NewRaster(l.paint)
	l.raster.Resize(size(lensWidth-8, lensHeight-lensHead-6))
	l.title = &canvas.Text{Text: words.T("Close-up"), TextSize: 13, TextStyle: fyne.TextStyle{Bold: true}}
	l.note = &canvas.Text{TextSize: 13, Alignment: fyne.TextAlignTrailing}
	l.update()
	return l
}

func (l *lens) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.frame, l.raster, l.title, l.note}
}

func (l *lens) recolour() {
	p := l.board.palette
	l.frame.FillColor, l.frame.StrokeColor = p.Table, p.Edge
	l.title.Color, l.note.Color = p.Ink, p.InkSoft
}

// update shows the pointer's neighbourhood, or nothing where the lens is off or
// the pointer is away.
func (l *lens) update() {
	for _, o := range l.objects() {
		if l.on {
			o.Show()
		} else {
			o.Hide()
		}
	}
	switch {
	case !l.on:
		return
	case l.round():
		l.layRound()
		return
	}
	l.frame.CornerRadius = 8
	l.frame.Resize(size(lensWidth, lensHeight))
	l.raster.Resize(size(lensWidth-8, lensHeight-lensHead-6))
	w, h := l.board.openSize()
	x, y := w-lensWidth-16, l.board.head+h-lensHeight-16
	if p := l.board.pointer; p.X > x-40 && p.Y > y-40 && l.board.inside {
		x = 16
	}
	l.frame.Move(pos(x, y))
	l.title.Move(pos(x+14, y+7))
	unit := string(model.Centimetres)
	if l.board.unit == model.Inches {
		unit = words.T("inches")
	}
	parts := []string{words.F("%s × larger", plain(l.zoom())), unit}
	if name := l.board.placeName(l.board.hover); name != "" {
		parts = append([]string{name}, parts...)
	}
	l.note.Text = strings.Join(parts, ", ")
	l.note.Resize(l.note.MinSize())
	l.note.Move(pos(x+lensWidth-14-float64(l.note.MinSize().Width), y+7))
	l.raster.Move(pos(x+4, y+lensHead))
	for _, o := range l.objects() {
		o.Refresh()
	}
}

// plain is a number with as many places as it has.
func plain(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'g', -1, 64), ".", words.Decimal(), 1)
}

// lensLines is how much wider lines are in the close-up of a nest.
const lensLines = 1.5

// zoom is how much larger than the Table it shows its place.
func (l *lens) zoom() float64 {
	if l.board.tool == Trace {
		return traceZoom
	}
	return lensZoom
}

// placeName is the name of the grade point or edge a ref is of.
func (b *Board) placeName(r scene.Ref) string {
	i := b.in.Pattern.PieceIndex(r.Piece)
	if i < 0 {
		return ""
	}
	q := b.in.Pattern.Pieces[i]
	if k := q.PointIndex(r.Point); k >= 0 {
		return q.Points[k].Name
	}
	if k := q.EdgeIndex(r.Edge); k >= 0 {
		return q.Edges[k].Name
	}
	return ""
}

func (l *lens) paint(w, h int) image.Image {
	defer stopwatch.Lap("lens")()
	if l.img == nil || l.img.Rect.Dx() != w || l.img.Rect.Dy() != h {
		l.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	b := l.board
	paint.Clear(l.img, b.palette.Table)
	s := l.raster.Size()
	factor := float64(w) / max(float64(s.Width), 1)
	mid := view.Px{X: float64(s.Width) / 2, Y: float64(s.Height) / 2}
	v := view.View{Scale: b.view.Scale * l.zoom()}
	v.Origin = b.view.ToMM(b.pointer).Add(v.MM(mid).Scale(-1))
	if !l.round() {
		v = l.wholeNest(v, 2*mid.X, 2*mid.Y)
	}
	grid := b.grid(v.Scale, v.Box(2*mid.X, 2*mid.Y))
	var layers []scene.Layer
	layers = append(layers, b.parts.static.layers[min(1, len(b.parts.static.layers)):]...)
	layers = append(layers, b.parts.active.layers...)
	screen := paint.Screen{View: v, Factor: factor}
	b.painter.Paint(l.img, screen, grid)
	if !l.round() {
		screen.Lines = lensLines
	}
	b.painter.Paint(l.img, screen, layers...)
	flat := paint.Screen{View: view.View{Scale: 1}, Factor: factor}
	if l.round() {
		b.painter.Paint(l.img, flat, l.cross(mid))
		cutRound(l.img)
		return l.img
	}
	b.painter.Paint(l.img, flat, l.gaps(v, 2*mid.X, 2*mid.Y))
	return l.img
}

// sizePlace is the place of a printed size among those of the first piece that
// was printed in it.
func sizePlace(in scene.Input, size string) (i, n int) {
	for _, q := range in.Pattern.Pieces {
		for k, o := range q.Nest {
			if o.Size == size {
				return k, len(q.Nest)
			}
		}
	}
	return 0, 1
}
