package board

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

func TestTheViewFitsUntilItIsChanged(t *testing.T) {
	b := newTable(t)
	b.Resize(fyne.NewSize(700, 500))
	w, h := b.paperSize()
	if want := view.Fit(b.in.Bounds(), w, h, fitMargin); b.view.Scale != want.Scale {
		t.Errorf("a smaller board shows %v, want %v", b.view, want)
	}
	b.ZoomBy(2)
	before := b.view
	b.Resize(fyne.NewSize(900, 700))
	b.SetScene(b.in)
	if b.view != before {
		t.Error("the view changed by itself")
	}
}

func TestWheelZoomsAboutThePointer(t *testing.T) {
	b := newTable(t)
	p := b.pointAt("underarm")
	scroll := func(dx, dy float32) {
		b.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.NewDelta(dx, dy)})
	}
	scale := b.view.Scale
	scroll(0, 25)
	if r := b.view.Scale / scale; math.Abs(r-1.15) > 1e-6 {
		t.Errorf("a notch zooms by %g", r)
	}
	if q := b.pointAt("underarm"); math.Abs(float64(q.X-p.X)) > 0.01 || math.Abs(float64(q.Y-p.Y)) > 0.01 {
		t.Errorf("the place under the pointer went from %v to %v", p, q)
	}
	scale = b.view.Scale
	scroll(0, -6000) // an accelerated wheel
	if r := b.view.Scale / scale; math.Abs(r-math.Pow(1.15, -3)) > 1e-6 {
		t.Errorf("a fast wheel zooms by %g", r)
	}
	scroll(25, 0)
	if q := b.pointAt("underarm"); math.Abs(float64(q.X-p.X)-60) > 0.01 {
		t.Errorf("with Shift the paper slid %g px", q.X-p.X)
	}
}

// Sliding moves what is drawn and draws it anew only when its slack is used up.
func TestSlidingMovesWhatIsDrawn(t *testing.T) {
	for name, c := range map[string]struct {
		button desktop.MouseButton
		tool   Tool
		space  bool
	}{
		"middle button": {desktop.MouseButtonTertiary, Move, false},
		"slide tool":    {desktop.MouseButtonPrimary, Slide, false},
		"space":         {desktop.MouseButtonPrimary, Measure, true},
	} {
		b := newTable(t)
		b.SetTool(c.tool)
		if c.space {
			b.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
		}
		p := b.pointAt("underarm")
		before := b.pointAt("tip")
		layers := b.parts.static.layers
		b.MouseDown(mouse(p, c.button))
		b.drag(move(p, 40, 25))
		if d := b.pointAt("tip").Subtract(before); math.Abs(float64(d.X)-40) > 0.01 || math.Abs(float64(d.Y)-25) > 0.01 {
			t.Errorf("%s: the paper slid by %v", name, d)
		}
		if &layers[0] != &b.parts.static.layers[0] {
			t.Errorf("%s: sliding 40 px drew all anew", name)
		}
		if r := b.parts.static.raster.Position(); math.Abs(float64(r.X)-40+slack) > 0.01 || math.Abs(float64(r.Y)-25+slack) > 0.01 {
			t.Errorf("%s: the sheet lies at %v", name, r)
		}
		b.drag(move(p, 40+slack, 25))
		if &layers[0] == &b.parts.static.layers[0] {
			t.Errorf("%s: sliding past the slack drew nothing", name)
		}
		b.MouseUp(mouse(p, c.button))
		b.DragEnd()
		b.expect()
		b.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
		if b.sliding() != (c.tool == Slide) {
			t.Errorf("%s: still sliding", name)
		}
	}
}

func TestHoverRingsTheHandle(t *testing.T) {
	b := newTable(t)
	var over []scene.Ref
	b.OnHover = func(r scene.Ref) { over = append(over, r) }
	b.click(b.midEdge("side seam"))
	b.MouseMoved(mouse(move(b.pointAt("tip"), 8, 8), 0))
	if !b.parts.ring.Visible() || b.Cursor() != desktop.PointerCursor {
		t.Error("no ring round the handle under the pointer")
	}
	if c := b.parts.ring.Position().AddXY(22+rulerLeft, 22+rulerTop); c.Subtract(b.pointAt("tip")).X > 0.01 {
		t.Errorf("the ring is round %v", c)
	}
	b.SetCloseUp(true)
	b.MouseMoved(mouse(b.at(geom.Pt(120, 200)), 0))
	b.MouseMoved(mouse(move(b.pointAt("tip"), 8, 8), 0))
	if note := b.parts.lens.note.Text; !strings.HasPrefix(note, b.placeName(scene.Ref{Piece: "front", Point: "tip"})+", ") {
		t.Errorf("the close-up says %q of the handle under the pointer", note)
	}
	b.SetCloseUp(false)
	b.MouseMoved(mouse(b.at(geom.Pt(120, 200)), 0))
	if b.parts.ring.Visible() || b.Cursor() != desktop.DefaultCursor {
		t.Error("the ring stays")
	}
	if n := len(over); n < 2 || over[n-2].Point != "tip" || over[n-1] != (scene.Ref{}) {
		t.Errorf("hovered over %v", over)
	}
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 4, 4))
	if b.Cursor() != desktop.HiddenCursor {
		t.Error("the pointer hides the handle while it is dragged")
	}
	b.release(start)
	b.SetTool(Slide)
	if c, ok := b.Cursor().(*drawn); !ok {
		t.Error("the slide tool has no pointer of its own")
	} else if img, x, y := c.Image(); img.Bounds().Dx() != cursorSize || x != y {
		t.Error("the slide pointer is off its middle")
	}
}

func TestPointerIsToldFromZero(t *testing.T) {
	b := newTable(t)
	var last geom.Point
	b.OnPointer = func(p geom.Point) { last = p }
	b.MouseMoved(mouse(b.at(geom.Pt(140, 80)), 0))
	if last.Dist(geom.Pt(100, 50)) > 0.01 {
		t.Errorf("told %v, want (100, 50)", last)
	}
	if !b.parts.edges.markTop.Visible() {
		t.Error("the rulers do not mark the pointer")
	}
	b.MouseOut()
	if b.parts.edges.markTop.Visible() {
		t.Error("the marks stay")
	}
}

// The painted window shows the Table, the rulers and the line, in both sets of
// colours.
func TestPaintedInBothColours(t *testing.T) {
	for _, p := range []palette.Palette{palette.Light, palette.Dark} {
		b := newTable(t)
		b.SetPalette(p)
		b.SetCloseUp(true)
		b.SetRuler(true)
		b.click(b.midEdge("side seam"))
		b.MouseIn(mouse(b.at(geom.Pt(600, 400)), 0))
		img := test.NewTempWindow(t, b.Board).Canvas()
		img.(test.WindowlessCanvas).SetPadded(false)
		img.(test.WindowlessCanvas).Resize(fyne.NewSize(1000, 760))
		shot := img.Capture()
		seen := map[color.NRGBA]int{}
		for y := range shot.Bounds().Dy() {
			for x := range shot.Bounds().Dx() {
				seen[color.NRGBAModel.Convert(shot.At(x, y)).(color.NRGBA)]++
			}
		}
		for name, c := range map[string]color.NRGBA{"table": p.Table, "ruler": p.Ruler, "accent": p.Accent, "nest": p.Nest4, "grid": p.Grid} {
			if seen[c] < 50 {
				t.Errorf("%s is seen on %d pixels", name, seen[c])
			}
		}
		mark := b.parts.edges.markTop.Position().AddXY(5, 3)
		if at := nearest(shot, mark, p.Accent); at > 2 {
			t.Errorf("the top ruler's mark is %.1f px from the pointer", at)
		}
		// The see-through ruler's mark at zero.
		zero := b.view.ToPx(b.parts.ruler.zero)
		if at := nearest(shot, pos(zero.X+rulerLeft, zero.Y+rulerTop+6), p.Ink); at > 2 {
			t.Errorf("the see-through ruler's zero is %.1f px from its place", at)
		}
		if at := nearest(shot, b.pointAt("underarm"), p.Accent); at > 6 {
			t.Errorf("the new line is %.1f px from its underarm", at)
		}
	}
}

// nearest is how far from p the nearest pixel of colour c lies, within 40 px.
func nearest(img image.Image, p fyne.Position, c color.NRGBA) float64 {
	best := math.Inf(1)
	for dy := -40; dy <= 40; dy++ {
		for dx := -40; dx <= 40; dx++ {
			if color.NRGBAModel.Convert(img.At(int(p.X)+dx, int(p.Y)+dy)) == c {
				best = min(best, math.Hypot(float64(dx), float64(dy)))
			}
		}
	}
	return best
}

func TestCentreBringsAPlaceIntoSight(t *testing.T) {
	b := newTable(t)
	b.ZoomBy(8)
	scale := b.View().Scale
	at := b.in.Edges(0)[4].Start()
	b.Centre(at)
	w, h := b.paperSize()
	if d := b.View().ToPx(at).Sub(px(w/2, h/2)).Len(); d > 0.01 || b.View().Scale != scale {
		t.Errorf("the place lies %.1f px from the middle, at scale %g of %g", d, b.View().Scale, scale)
	}
}

// The board shows that the keys go to it, and lets go of the space bar when
// they no longer do.
func TestFocusIsShown(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	if !b.parts.focus.Visible() {
		t.Error("a click does not bring the keys to the Table")
	}
	if !b.AcceptsTab() {
		t.Error("Tab leaves the Table")
	}
	b.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.FocusLost()
	if b.parts.focus.Visible() || b.sliding() {
		t.Error("the Table keeps its focus or the space bar")
	}
}

// While tracing the pointer is a ring in a tinted disc; the disc goes with the tool and
// with the pointer.
func TestTracingHasAPointerOfItsOwn(t *testing.T) {
	b := newTable(t)
	at := b.at(geom.Pt(120, 200))
	b.MouseMoved(mouse(at, 0))
	b.SetTool(Trace)
	b.MouseMoved(mouse(move(at, 30, 0), 0))
	if b.Cursor() != desktop.Cursor(b.cursors.trace) || !b.parts.ring.Visible() {
		t.Error("the pointer does not show that it traces")
	}
	mid := b.parts.ring.Position().AddXY(22+rulerLeft, 22+rulerTop).Subtract(move(at, 30, 0))
	if mid.X*mid.X+mid.Y*mid.Y > 0.1 {
		t.Errorf("the disc lies %v off the pointer", mid)
	}
	b.MouseOut()
	if b.parts.ring.Visible() {
		t.Error("the disc stays when the pointer has left")
	}
	b.MouseMoved(mouse(at, 0))
	b.SetTool(Move)
	if b.parts.ring.Visible() || b.Cursor() == desktop.Cursor(b.cursors.trace) {
		t.Error("it still traces with another tool")
	}
}
