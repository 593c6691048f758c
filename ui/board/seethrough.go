package board

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// The see-through ruler's breadth in px, and how near its far end the hand
// takes hold to turn it.
const (
	ruleBreadth = 38
	ruleGrip    = 22
)

// seeThrough is a ruler lying on the Table, its edge from its zero in some
// direction. It is true to the paper at every zoom.
type seeThrough struct {
	board  *Board
	on     bool
	keyed  bool   // the arrow keys have it
	gap    string // what it reads, in words; empty for nothing
	zero   geom.Point
	dir    geom.Vec
	raster *canvas.Raster
	img    *image.RGBA
	figure *figure
	at     box // where the raster lies
}

func newSeeThrough(b *Board) *seeThrough {
	s := &seeThrough{board: b, dir: geom.Vec{X: 1}, figure: newFigure(b)}
	s.raster = canvas.NewRaster(s.paint)
	s.place()
	return s
}

func (s *seeThrough) objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{s.raster}, s.figure.objects()...)
}

// show lays the ruler level across what is in hand, whose gap it reads there, or
// in the middle of what is seen.
func (s *seeThrough) show(on bool) {
	if on && !s.on {
		b := s.board
		w, h := b.paperSize()
		s.dir = geom.Vec{X: 1}
		s.zero = b.view.ToMM(view.Px{X: w/2 - 120, Y: h / 2})
		if at, ok := b.placeInHand(); ok && b.inSight(at) {
			s.zero = at.Add(s.dir.Scale(-s.length() / 2))
		}
	}
	s.on, s.keyed = on, on && s.keyed
	s.place()
}

// length is the ruler's in mm: the longest handy one that is 300 px or less on
// screen.
func (s *seeThrough) length() float64 {
	lengths := []float64{10, 20, 50, 100, 150, 200, 300, 500, 1000, 2000, 5000}
	if s.board.unit == model.Inches {
		lengths = []float64{12.7, 25.4, 50.8, 76.2, 101.6, 152.4, 304.8, 609.6, 914.4, 1828.8, 5486.4}
	}
	best := lengths[0]
	for _, l := range lengths {
		if l*s.board.view.Scale <= 300 {
			best = l
		}
	}
	return best
}

// inRuler is a place of the board along and above the ruler's edge, in px.
func (s *seeThrough) inRuler(at view.Px) (along, below float64) {
	d := at.Sub(s.board.view.ToPx(s.zero))
	return d.X*s.dir.X + d.Y*s.dir.Y, d.Y*s.dir.X - d.X*s.dir.Y
}

// over is what a drag from at would do with the ruler; idle beside it.
func (s *seeThrough) over(at view.Px) kind {
	if !s.shown() {
		return idle
	}
	along, below := s.inRuler(at)
	long := s.length() * s.board.view.Scale
	switch {
	case below < -2 || below > ruleBreadth || along < -12 || along > long+ruleGrip:
		return idle
	case along > long-ruleGrip:
		return rulerTurn
	}
	return rulerDrag
}

// press begins a drag of the ruler where at lies on it.
func (s *seeThrough) press(at view.Px) bool {
	k := s.over(at)
	if k != idle {
		s.board.gesture.kind = k
	}
	return k != idle
}

// shift slides the ruler along with the hand.
func (s *seeThrough) shift(by view.Px) {
	s.zero = s.zero.Add(s.board.view.MM(by))
	s.place()
}

// turn points the ruler at the hand; within three degrees of level or upright
// it is that.
func (s *seeThrough) turn(to view.Px) {
	d := view.Upright(s.board.view.ToMM(to).Sub(s.zero), upright).Unit()
	if !d.IsZero() {
		s.dir = d
	}
	s.place()
}

// shown reports whether it lies there: not over the pages of the Print step, where
// there is no gap to read.
func (s *seeThrough) shown() bool { return s.on && len(s.board.in.Sheets) == 0 }

// place draws the ruler where the view has it and reads the gap it crosses.
func (s *seeThrough) place() {
	if !s.shown() {
		s.raster.Hide()
		s.figure.hide()
		return
	}
	v := s.board.view
	zero, long := v.ToPx(s.zero), s.length()*v.Scale
	var b geom.Box
	for _, c := range s.outline(long, 16) {
		b = b.Union(geom.BoxOf(c.P0, c.P3))
	}
	s.at = box{math.Floor(zero.X + b.Min.X), math.Floor(zero.Y + b.Min.Y), math.Ceil(b.Width()) + 2, math.Ceil(b.Height()) + 2}
	s.raster.Move(pos(s.at.x, s.at.y))
	s.raster.Resize(size(s.at.w, s.at.h))
	s.raster.Show()
	s.raster.Refresh()
	s.read()
}

// read shows the gap between the outermost printed line and the new one that
// the ruler's edge crosses.
func (s *seeThrough) read() {
	b := s.board
	far := s.zero.Add(s.dir.Scale(s.length()))
	from, to, ok := scene.Reading(scene.Crossings(b.in, s.zero, far, 0.01))
	if s.gap = ""; !ok {
		s.figure.hide()
		return
	}
	way := words.F("from %s to %s, straight across", from.Size, to.Size)
	switch {
	case s.dir.X == 0:
		way = words.F("from %s to %s, straight down", from.Size, to.Size)
	case s.dir.Y != 0:
		way = words.F("from %s to %s, along the ruler", from.Size, to.Size)
	}
	at := b.view.ToPx(far)
	s.gap = words.F("%s %s", measure.FormatMM(math.Abs(to.S-from.S), b.unit), way)
	s.figure.show(math.Abs(to.S-from.S), way, at.X+24, at.Y-10)
}

// outline is the ruler's rim in px from its zero, grown by grow.
func (s *seeThrough) outline(long, grow float64) geom.Path {
	at := func(along, below float64) geom.Point {
		return geom.Point(s.dir.Scale(along).Add(s.dir.Perp().Scale(below)))
	}
	lo, hi := -12-grow, long+12+grow
	top, low := -grow, ruleBreadth+grow
	return geom.Polyline(at(lo, top), at(hi, top), at(hi, low), at(lo, low), at(lo, top))
}

func (s *seeThrough) paint(w, h int) image.Image {
	if s.img == nil || s.img.Rect.Dx() != w || s.img.Rect.Dy() != h {
		s.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	paint.Clear(s.img, nothing())
	b := s.board
	factor := float64(w) / max(s.at.w, 1)
	zero := b.view.ToPx(s.zero)
	screen := paint.Screen{View: view.View{Scale: 1}, Corner: px(s.at.x-zero.X, s.at.y-zero.Y), Factor: factor}
	b.painter.Paint(s.img, screen, s.layer())
	return s.img
}

// layer is the ruler in px from its zero: marks hang from its edge.
func (s *seeThrough) layer() scene.Layer {
	b := s.board
	scale := b.view.Scale
	length := s.length()
	at := func(along, below float64) geom.Point {
		return geom.Point(s.dir.Scale(along).Add(s.dir.Perp().Scale(below)))
	}
	rim := s.outline(length*scale, 0)
	var l scene.Layer
	l.Fills = []scene.Fill{{Outline: rim, Ink: scene.InkRaised, Alpha: 0.72}}
	l.Lines = []scene.Line{{Path: rim, Width: 1, Round: true, Ink: scene.InkEdge, Alpha: 1}}
	for _, t := range scene.Ticks(b.unit, scale, 0, length+1e-6) {
		x := t.At * scale
		reach := [3]float64{7, 10, 13}[t.Rank]
		l.Lines = append(l.Lines, scene.Line{Path: geom.Polyline(at(x, 0), at(x, reach)), Width: 1, Ink: scene.InkWords, Alpha: 1})
		if t.Label != "" && t.At > 0 && t.At < length {
			l.Texts = append(l.Texts, scene.Text{
				Words: t.Label, At: at(x, 24), Size: 12, Ink: scene.InkWords, Turn: math.Atan2(s.dir.Y, s.dir.X),
			})
		}
	}
	l.Dots = []scene.Dot{{At: at(length*scale+2, ruleBreadth-10), Radius: 3.5, Ink: scene.InkAccent}}
	return l
}
