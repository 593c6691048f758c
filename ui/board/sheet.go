package board

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/view"
)

// slack is how far, in px, the static layer reaches beyond the board on every
// side, so that sliding need not draw it anew at once.
const slack = 160

// box is a rectangle on the paper's area, in px.
type box struct{ x, y, w, h float64 }

// within is the part of b inside o, with whole px outwards; without size where
// there is none.
func (b box) within(o box) box {
	x0, y0 := math.Floor(max(b.x, o.x)), math.Floor(max(b.y, o.y))
	x1, y1 := math.Ceil(min(b.x+b.w, o.x+o.w)), math.Ceil(min(b.y+b.h, o.y+o.h))
	return box{x0, y0, max(x1-x0, 0), max(y1-y0, 0)}
}

func px(x, y float64) view.Px { return view.Px{X: x, Y: y} }

func pos(x, y float64) fyne.Position { return fyne.NewPos(float32(x), float32(y)) }

func size(w, h float64) fyne.Size { return fyne.NewSize(float32(w), float32(h)) }

// sheet is one raster of the board: layers painted for one view, moved about as
// the view slides.
type sheet struct {
	board  *Board
	raster *canvas.Raster
	ground func() color.NRGBA // what is under the layers; alpha 0 lets the sheet below through
	img    *image.RGBA
	layers []scene.Layer
	view   view.View // the view painted for
	at     box       // where the sheet lay then
}

func newSheet(b *Board, ground func() color.NRGBA) *sheet {
	s := &sheet{board: b, ground: ground}
	s.raster = canvas.NewRaster(s.paint)
	return s
}

// draw paints layers over part of the paper's area, for the board's view.
func (s *sheet) draw(part box, layers ...scene.Layer) {
	s.layers, s.at, s.view = layers, part, s.board.view
	s.raster.Hidden = part.w < 1 || part.h < 1
	s.raster.Resize(size(part.w, part.h))
	s.raster.Move(pos(part.x, part.y))
	s.raster.Refresh()
}

// slide moves the sheet to where the board's view has it. It is false where the
// sheet was painted for another scale or no longer covers what it must.
func (s *sheet) slide(must box) bool {
	v := s.board.view
	if v.Scale != s.view.Scale {
		return false
	}
	d := v.ToPx(s.view.Origin)
	x, y := s.at.x+d.X, s.at.y+d.Y
	if must.w > 0 && (x > must.x || y > must.y || x+s.at.w < must.x+must.w || y+s.at.h < must.y+must.h) {
		return false
	}
	s.raster.Move(pos(x, y))
	return true
}

// paint fills a picture of w by h device px.
func (s *sheet) paint(w, h int) image.Image {
	defer stopwatch.Lap("paint")()
	if s.img == nil || s.img.Rect.Dx() != w || s.img.Rect.Dy() != h {
		s.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	paint.Clear(s.img, s.ground())
	factor := float64(w) / max(float64(s.raster.Size().Width), 1)
	screen := paint.Screen{View: s.view, Corner: px(s.at.x, s.at.y), Factor: factor, Words: s.board.in.Words}
	s.board.painter.Paint(s.img, screen, s.layers...)
	return s.img
}
