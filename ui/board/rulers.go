package board

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/view"
)

// rulers are the rulers along the top and the left, with the pointer's place
// marked on both and the extent of the edge in hand tinted.
type rulers struct {
	board     *Board
	top, left *canvas.Raster
	imgs      [2]*image.RGBA
	corner    *canvas.Rectangle
	unit      *canvas.Text
	markTop   *canvas.Raster
	markLeft  *canvas.Raster
}

func newRulers(b *Board) *rulers {
	r := &rulers{board: b, corner: canvas.NewRectangle(nil)}
	r.top = canvas.NewRaster(func(w, h int) image.Image { return r.paint(0, w, h) })
	r.left = canvas.NewRaster(func(w, h int) image.Image { return r.paint(1, w, h) })
	r.unit = &canvas.Text{TextSize: 12, TextStyle: fyne.TextStyle{Bold: true}}
	r.markTop = canvas.NewRaster(func(w, h int) image.Image { return r.triangle(w, h, geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(5, 8)) })
	r.markLeft = canvas.NewRaster(func(w, h int) image.Image { return r.triangle(w, h, geom.Pt(0, 0), geom.Pt(8, 5), geom.Pt(0, 10)) })
	r.markTop.Resize(size(10, 8))
	r.markLeft.Resize(size(8, 10))
	r.markTop.Hide()
	r.markLeft.Hide()
	return r
}

func (r *rulers) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.top, r.left, r.corner, r.unit, r.markTop, r.markLeft}
}

func (r *rulers) recolour() {
	r.corner.FillColor, r.unit.Color = r.board.palette.Ruler, r.board.palette.InkSoft
	for _, o := range r.objects() {
		o.Refresh()
	}
}

// draw draws the rulers for the board's view.
func (r *rulers) draw() {
	w, h := r.board.paperSize()
	r.top.Move(pos(rulerLeft, 0))
	r.top.Resize(size(w, rulerTop))
	r.left.Move(pos(0, rulerTop))
	r.left.Resize(size(rulerLeft, h))
	r.corner.Resize(size(rulerLeft, rulerTop))
	r.unit.Text = string(model.Centimetres)
	if r.board.unit == model.Inches {
		r.unit.Text = words.C("inches", "in")
	}
	r.unit.Move(pos(9, 6))
	r.top.Refresh()
	r.left.Refresh()
	r.unit.Refresh()
	r.point()
}

// point moves the marks to where the pointer is.
func (r *rulers) point() {
	at := r.board.pointer
	r.markTop.Move(pos(rulerLeft+at.X-5, rulerTop-9))
	r.markLeft.Move(pos(rulerLeft-9, rulerTop+at.Y-5))
	hide := !r.board.inside || r.board.in.Unscaled != ""
	r.markTop.Hidden, r.markLeft.Hidden = hide, hide
	r.markTop.Refresh()
	r.markLeft.Refresh()
}

// triangle is a pointer mark, 10 px on its longer side.
func (r *rulers) triangle(w, h int, corners ...geom.Point) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	outline := geom.Polyline(append(corners, corners[0])...)
	factor := float64(max(w, h)) / 10
	layer := scene.Layer{Fills: []scene.Fill{{Outline: outline, Ink: scene.InkAccent, Alpha: 1}}}
	r.board.painter.Paint(img, paint.Screen{View: view.View{Scale: 1}, Factor: factor}, layer)
	return img
}

// paint draws ruler i, 0 the top one, w by h device px.
func (r *rulers) paint(i, w, h int) image.Image {
	defer stopwatch.Lap("rulers")()
	if r.imgs[i] == nil || r.imgs[i].Rect.Dx() != w || r.imgs[i].Rect.Dy() != h {
		r.imgs[i] = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	img := r.imgs[i]
	paint.Clear(img, r.board.palette.Ruler)
	breadth, length, factor := float64(rulerTop), float64(w), float64(h)/rulerTop
	if i == 1 {
		breadth, length, factor = rulerLeft, float64(h), float64(w)/rulerLeft
	}
	l := r.layer(i, breadth, length/factor)
	r.board.painter.Paint(img, paint.Screen{View: view.View{Scale: 1}, Factor: factor}, l)
	return img
}

// layer is ruler i in px: marks from its inner side, figures beyond them.
func (r *rulers) layer(i int, breadth, length float64) scene.Layer {
	b := r.board
	if b.in.Unscaled != "" {
		return r.unscaled(i)
	}
	origin, zero := b.view.Origin.X, b.in.Zero.X
	if i == 1 {
		origin, zero = b.view.Origin.Y, b.in.Zero.Y
	}
	// turn takes a place along the ruler and a height above its inner side.
	turn := func(along, up float64) geom.Point {
		if i == 1 {
			return geom.Pt(breadth-up, along)
		}
		return geom.Pt(along, breadth-up)
	}
	var l scene.Layer
	if lo, hi, ok := b.edgeExtent(i); ok {
		l.Fills = append(l.Fills, scene.Fill{
			Outline: geom.Polyline(turn(lo, 0), turn(hi, 0), turn(hi, breadth), turn(lo, breadth), turn(lo, 0)),
			Ink:     scene.InkAccentTint, Alpha: 1,
		})
	}
	for _, t := range scene.Ticks(b.unit, b.view.Scale/max(b.in.Words, 1), origin-zero, origin-zero+length/b.view.Scale) {
		at := (t.At + zero - origin) * b.view.Scale
		reach := [3]float64{4, 6, 9}[t.Rank]
		l.Lines = append(l.Lines, scene.Line{Path: geom.Polyline(turn(at, 0), turn(at, reach)), Width: 1, Ink: scene.InkEdge, Alpha: 1})
		if t.Label == "" {
			continue
		}
		text := scene.Text{Words: t.Label, At: turn(at, 17), Size: 12, Ink: scene.InkSoft}
		if i == 1 {
			text.At, text.Anchor = turn(at, 12), scene.Right
		}
		l.Texts = append(l.Texts, text)
	}
	return l
}

// unscaled is a ruler where there is no scale: the top one says so.
func (r *rulers) unscaled(i int) scene.Layer {
	if i > 0 {
		return scene.Layer{}
	}
	const left, middle = 10, 13
	text := scene.Text{Words: r.board.in.Unscaled, At: geom.Pt(left, middle), Size: 13, Anchor: scene.Left, Ink: scene.InkSoft}
	return scene.Layer{Texts: []scene.Text{text}}
}

// edgeExtent is how far the edge in hand reaches along ruler i, in px.
func (b *Board) edgeExtent(i int) (lo, hi float64, ok bool) {
	k := b.in.Pattern.PieceIndex(b.in.Select.Piece)
	if k < 0 || b.in.Select.Edge == "" {
		return 0, 0, false
	}
	e := b.in.Pattern.Pieces[k].EdgeIndex(b.in.Select.Edge)
	edges := b.in.Edges(k)
	if e < 0 || e >= len(edges) {
		return 0, 0, false
	}
	bounds := edges[e].Bounds()
	from, to := b.view.ToPx(bounds.Min), b.view.ToPx(bounds.Max)
	if i == 1 {
		return from.Y, to.Y, true
	}
	return from.X, to.X, true
}
