package board

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// cursors are the pointers the toolkit does not have.
type cursors struct{ slide, slideHeld, addPoint, trace *drawn }

// drawn is a pointer drawn by the board; its hot spot is its middle.
type drawn struct{ img image.Image }

// Image implements desktop.Cursor.
func (d *drawn) Image() (image.Image, int, int) {
	b := d.img.Bounds()
	return d.img, b.Dx() / 2, b.Dy() / 2
}

func newCursors(p *paint.Painter) cursors {
	return cursors{
		slide:     drawCursor(p, crossArrows(9.5)),
		slideHeld: drawCursor(p, crossArrows(7)),
		addPoint:  drawCursor(p, plusCross()),
		trace:     drawCursor(p, ringCross()),
	}
}

// cursorSize is the width and height of a drawn pointer in px.
const cursorSize = 29

func drawCursor(p *paint.Painter, lines []scene.Line) *drawn {
	img := image.NewRGBA(image.Rect(0, 0, cursorSize, cursorSize))
	paint.Clear(img, color.NRGBA{})
	screen := paint.Screen{View: view.View{Scale: 1}, Corner: px(-cursorSize/2.0, -cursorSize/2.0), Factor: 1}
	under := make([]scene.Line, len(lines))
	for i, l := range lines {
		under[i] = l
		under[i].Width, under[i].Ink = 4, scene.InkTable
	}
	p.Paint(img, screen, scene.Layer{Lines: under}, scene.Layer{Lines: lines})
	return &drawn{img}
}

func cursorLine(pts ...geom.Point) scene.Line {
	return scene.Line{Path: geom.Polyline(pts...), Width: 1.6, Round: true, Ink: scene.InkWords, Alpha: 1}
}

// crossArrows is four arrows from the middle, r px long.
func crossArrows(r float64) []scene.Line {
	var out []scene.Line
	for _, d := range []geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
		tip := geom.Point(d.Scale(r))
		side := d.Perp().Scale(3)
		foot := tip.Add(d.Scale(-3))
		out = append(out, cursorLine(geom.Pt(0, 0), tip), cursorLine(foot.Add(side), tip, foot.Add(side.Scale(-1))))
	}
	return out
}

// plusCross is a crosshair with a small plus at its lower right.
func plusCross() []scene.Line {
	var out []scene.Line
	for _, d := range []geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
		out = append(out, cursorLine(geom.Point(d.Scale(3)), geom.Point(d.Scale(9))))
	}
	return append(out, cursorLine(geom.Pt(5, 9), geom.Pt(13, 9)), cursorLine(geom.Pt(9, 5), geom.Pt(9, 13)))
}

// ringCross is a ring with an arm on each side of it; its middle is left free for the
// line that is looked for.
func ringCross() []scene.Line {
	const r, arm, n = 6.5, 12, 24
	var ring geom.Path
	for i := range n {
		a, b := 2*math.Pi*float64(i)/n, 2*math.Pi*float64(i+1)/n
		ring = append(ring, geom.Polyline(geom.Pt(r*math.Cos(a), r*math.Sin(a)), geom.Pt(r*math.Cos(b), r*math.Sin(b)))...)
	}
	out := []scene.Line{{Path: ring, Width: 1.6, Round: true, Ink: scene.InkWords, Alpha: 1}}
	for _, d := range []geom.Vec{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
		out = append(out, cursorLine(geom.Point(d.Scale(r-2.5)), geom.Point(d.Scale(arm))))
	}
	return out
}

// Cursor implements desktop.Cursorable.
func (b *Board) Cursor() desktop.Cursor {
	switch g := b.gesture; {
	case g.kind == pointDrag || g.kind == handleDrag:
		return desktop.HiddenCursor // the handle is the pointer
	case g.kind == sliding && g.moved:
		return b.cursors.slideHeld
	case b.sliding():
		return b.cursors.slide
	case b.inside && b.parts.ruler.over(b.pointer) == rulerTurn:
		return desktop.PointerCursor
	case b.inside && b.parts.ruler.over(b.pointer) == rulerDrag:
		return b.cursors.slide
	case b.tool == Trace:
		return b.cursors.trace
	case b.tool == Measure:
		return desktop.CrosshairCursor
	case b.tool == AddPoint:
		return b.cursors.addPoint
	case b.tool == Arrange && b.inside && b.pieceAt(b.pointer) != "":
		return b.cursors.slide
	}
	if h, ok := b.handle(b.hover); ok && h.Ref.Line != "" {
		return desktop.VResizeCursor
	} else if ok && h.State != scene.Locked {
		return desktop.PointerCursor
	}
	if b.tool == Move && b.hover.Edge != "" && b.draggable(b.hover) {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
