package board

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// The rulers' breadths in px.
const (
	rulerTop  = 26
	rulerLeft = 34
)

// parts are the things a board is drawn with, from the bottom up: the Table and
// what holds still, the piece in hand, marks that follow the pointer, and the
// rulers round it.
type parts struct {
	board   *Board
	static  *sheet
	active  *sheet
	ring    *canvas.Circle // round the handle under the pointer
	mark    *canvas.Rectangle
	moved   *figure // how far a handle has been dragged
	measure *measuring
	ruler   *seeThrough
	cross   *crosshair
	lens    *lens
	edges   *rulers
	paper   *fyne.Container
	clip    *container.Clip
	focus   *canvas.Rectangle
}

func newParts(b *Board) *parts {
	p := &parts{board: b}
	p.static = newSheet(b, func() color.NRGBA { return b.palette.Table })
	p.active = newSheet(b, nothing)
	p.ring, p.mark = canvas.NewCircle(color.Transparent), canvas.NewRectangle(color.Transparent)
	p.ring.StrokeWidth, p.mark.StrokeWidth = 1.2, 2
	p.ring.Hide()
	p.mark.Hide()
	p.moved = newFigure(b)
	p.measure = newMeasuring(b)
	p.ruler = newSeeThrough(b)
	p.lens = newLens(b)
	p.cross = newCrosshair(b)
	p.edges = newRulers(b)
	p.focus = canvas.NewRectangle(color.Transparent)
	p.focus.StrokeWidth = 2
	p.focus.Hide()
	p.paper = container.NewWithoutLayout(p.static.raster, p.active.raster, p.ring, p.mark)
	for _, list := range [][]fyne.CanvasObject{
		p.ruler.objects(), p.measure.objects(), p.moved.objects(), p.cross.objects(), p.lens.objects(),
	} {
		p.paper.Objects = append(p.paper.Objects, list...)
	}
	p.clip = container.NewClip(p.paper)
	return p
}

// nothing is the ground of a sheet that lets what is below through.
func nothing() color.NRGBA { return color.NRGBA{} }

func (p *parts) recolour() {
	c := p.board.palette
	fill, line := c.Accent, c.Accent
	fill.A, line.A = 33, 115 // 13 % and 45 %
	p.ring.FillColor, p.ring.StrokeColor = fill, line
	p.mark.FillColor, p.mark.StrokeColor = c.Table, c.Accent
	p.focus.StrokeColor = c.Accent
	p.moved.recolour()
	p.measure.recolour()
	p.lens.recolour()
	p.ruler.figure.recolour()
	p.cross.recolour()
	p.edges.recolour()
	p.focus.Refresh()
}

// resize gives words that the toolkit draws their size.
func (p *parts) resize(scale float64) {
	for _, f := range []*figure{p.moved, p.measure.figure, p.ruler.figure} {
		f.resize(float32(scale))
	}
}

// slide moves the sheets along with the view; false where they must be drawn
// anew.
func (p *parts) slide() bool {
	w, h := p.board.paperSize()
	return p.static.slide(box{0, 0, w, h}) && p.active.slide(box{})
}

// follow brings everything that hangs on the view or the scene to its place.
func (p *parts) follow() {
	p.edges.draw()
	p.measure.place()
	p.ruler.place()
	p.cross.place()
	p.lens.update()
	p.hovering()
}

// hovering puts the ring round the handle under the pointer, or round the pointer
// that traces.
func (p *parts) hovering() {
	b := p.board
	if b.tool == Trace && b.gesture.kind == idle && (b.inside || p.cross.on) {
		p.mark.Hide()
		p.ring.Resize(size(2*view.HandleReach, 2*view.HandleReach))
		p.ring.Move(pos(b.pointer.X-view.HandleReach, b.pointer.Y-view.HandleReach))
		p.ring.Show()
		p.ring.Refresh()
		return
	}
	h, ok := b.handle(b.hover)
	if !ok || b.gesture.kind != idle {
		p.ring.Hide()
		p.mark.Hide()
		return
	}
	at := b.view.ToPx(h.At)
	place := func(o fyne.CanvasObject, d float64) {
		o.Resize(size(d, d))
		o.Move(pos(at.X-d/2, at.Y-d/2))
		o.Show()
		o.Refresh()
	}
	place(p.ring, 2*view.HandleReach)
	side := 13 * max(b.words, 1)
	p.mark.CornerRadius = 0
	if h.Shape != scene.Corner {
		p.mark.CornerRadius = float32(side / 2)
	}
	if h.State == scene.Idle {
		place(p.mark, side)
	} else {
		p.mark.Hide()
	}
}

// paperSize is the area of the paper beside the rulers, in px.
func (b *Board) paperSize() (w, h float64) {
	s := b.Size()
	return max(float64(s.Width)-rulerLeft, 1), max(float64(s.Height)-rulerTop, 1)
}

// CreateRenderer implements fyne.Widget.
func (b *Board) CreateRenderer() fyne.WidgetRenderer { return &renderer{b} }

type renderer struct{ b *Board }

func (r *renderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.b.parts.clip}, append(r.b.parts.edges.objects(), r.b.parts.focus)...)
}

func (r *renderer) Layout(s fyne.Size) {
	p := r.b.parts
	p.clip.Move(pos(rulerLeft, rulerTop))
	p.clip.Resize(fyne.NewSize(max(s.Width-rulerLeft, 1), max(s.Height-rulerTop, 1)))
	p.focus.Resize(s)
	if r.b.fitted {
		r.b.Fit()
		return
	}
	r.b.redraw()
}

func (r *renderer) MinSize() fyne.Size { return fyne.NewSize(320, 240) }

// Refresh leaves the layers alone: each is refreshed where it changes.
func (r *renderer) Refresh() {}

func (r *renderer) Destroy() {}
