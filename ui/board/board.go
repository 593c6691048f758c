package board

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// Tool is what the hand holds.
type Tool uint8

// The tools of the Table. Arrange moves whole pieces between pages; Trace clicks
// along lines of a photo.
const (
	Move Tool = iota
	Slide
	Measure
	AddPoint
	Arrange
	Trace
)

// Phase says how far a drag is: DragStart once, then DragMove for every
// movement, then DragEnd or DragCancel. Movements are always counted from the
// start.
type Phase uint8

// The phases of a drag. After DragCancel all is to be as before DragStart.
const (
	DragStart Phase = iota
	DragMove
	DragEnd
	DragCancel
)

// Step is how large a step an arrow key asks for.
type Step uint8

// The steps of the arrow keys: 1/16, 1/4 and 1/64 in, or 1, 5 and 0.2 mm.
const (
	Normal Step = iota
	Large
	Fine
)

// Board is the Table. Make one with New.
type Board struct {
	widget.BaseWidget

	// OnSelect says what was clicked; the zero Ref for the bare Table.
	OnSelect func(scene.Ref)
	// OnDragPoint moves the grade point of a ref.
	OnDragPoint func(at scene.Ref, by geom.Vec, phase Phase)
	// OnDragHandle moves control point at.Control of edge at.Edge, counted in
	// geom.Path.Controls. An inner joint does not bring its neighbours along.
	OnDragHandle func(at scene.Ref, by geom.Vec, phase Phase)
	// OnDragEdge moves the edge in hand as a whole, taken anywhere on its line.
	// Without it such a drag slides the paper.
	OnDragEdge func(at scene.Ref, by geom.Vec, phase Phase)
	// OnDragPiece moves a piece about the Table, in the Table's millimetres.
	OnDragPiece func(piece string, by geom.Vec, phase Phase)
	// OnNudge moves what is selected by an arrow key, in the Table's mm.
	OnNudge func(by geom.Vec, step Step)
	// OnAddPoint asks for a point on an edge, at a place of the piece.
	OnAddPoint func(at scene.Ref, place geom.Point)
	// OnMenu asks for the menu of what lies under a right click, at a place of
	// the window's canvas.
	OnMenu func(at scene.Ref, place fyne.Position)
	// OnPlace is a click of Trace, at a place of the Table.
	OnPlace func(at geom.Point)
	// OnGrab asks whether something that is traced lies within reach mm of a
	// place, to be dragged from there. Without it nothing does.
	OnGrab func(at geom.Point, reach float64) bool
	// OnDragTraced moves what OnGrab found.
	OnDragTraced func(by geom.Vec, phase Phase)
	// OnMenuTraced asks for the menu of what is traced within reach mm of a place
	// of the Table; false where nothing is being traced.
	OnMenuTraced func(at geom.Point, reach float64, place fyne.Position) bool
	// OnPage says which page was clicked.
	OnPage func(name string)
	// OnPointer follows the pointer, in mm from the scene's Zero.
	OnPointer func(at geom.Point)
	// OnHover says what the pointer would take hold of.
	OnHover func(scene.Ref)
	// OnRuler says that the keys moved the see-through ruler; see RulerWords.
	OnRuler func()
	// OnView says that the view changed; see Percent.
	OnView func()
	// OnTool says that a key chose another tool.
	OnTool func(Tool)
	// OnKey, OnRune and OnShortcut get the keys that are not the Table's own.
	OnKey      func(*fyne.KeyEvent)
	OnRune     func(rune)
	OnShortcut func(fyne.Shortcut)

	in      scene.Input
	view    view.View
	tool    Tool
	unit    model.Unit
	palette palette.Palette
	painter *paint.Painter
	perMM   float64 // px a mm of a true-size screen
	words   float64 // how large words are, 1 as drawn

	fitted   bool // the view still is what Fit made it
	head     float64
	foot     float64
	footWide float64 // px from the left that what covers the foot reaches; 0 over all
	space    bool    // the space bar is held
	pointer  view.Px
	inside   bool // the pointer is over the paper
	hover    scene.Ref
	gesture  gesture
	motion   motion

	hand     []string    // pieces drawn in the active layer
	drawn    scene.Input // what the static layer shows
	parts    *parts
	cursors  cursors
	modifier func() fyne.KeyModifier
}

// New is an empty Table in light colours, in centimetres.
func New() *Board {
	b := &Board{perMM: 96 / 25.4, words: 1, unit: model.Centimetres, fitted: true, modifier: liveModifiers}
	b.view = view.Fit(geom.Box{}, 800, 600, fitMargin)
	b.ExtendBaseWidget(b)
	b.parts = newParts(b)
	b.SetPalette(palette.Light)
	return b
}

// liveModifiers are the modifier keys held down now.
func liveModifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// fitMargin is how many px stay free round what Fit shows.
const fitMargin = 36

// photoMargin is that round a photo as it was taken.
const photoMargin = 10

// SetPalette chooses the colours.
func (b *Board) SetPalette(p palette.Palette) {
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		panic("the fonts built into Quarterstep cannot be read: " + err.Error())
	}
	b.palette = p
	b.painter = paint.New(fonts, p)
	b.cursors = newCursors(b.painter)
	b.parts.recolour()
	b.redraw()
}

// SetWords chooses how large words are, 1 as drawn.
func (b *Board) SetWords(scale float64) {
	b.words, b.in.Words = scale, scale
	b.parts.resize(scale)
	b.redraw()
}

// SetUnit chooses what the rulers count and figures are shown in.
func (b *Board) SetUnit(u model.Unit) {
	if u == b.unit {
		return
	}
	b.unit = u
	b.redraw()
}

// SetTool puts a tool in the hand. A drag under way is cancelled and a measure
// taken is put away.
func (b *Board) SetTool(t Tool) {
	b.cancel()
	b.parts.cross.drop()
	b.tool = t
	b.parts.measure.clear()
	b.follow(b.pointer)
}

// Tool is the tool in the hand.
func (b *Board) Tool() Tool { return b.tool }

// SetCloseUp shows or hides the close-up of the pointer's neighbourhood.
func (b *Board) SetCloseUp(on bool) {
	b.parts.lens.on = on
	b.parts.lens.update()
}

// CloseUp reports whether the close-up is shown.
func (b *Board) CloseUp() bool { return b.parts.lens.on }

// SetRuler lays the see-through ruler on the Table or takes it away.
func (b *Board) SetRuler(on bool) {
	b.parts.ruler.show(on)
}

// TakeRuler gives the see-through ruler to the arrow keys: they slide it, with
// Ctrl they turn it. Escape, Tab and a press of the mouse give it back.
func (b *Board) TakeRuler() { b.parts.ruler.take() }

// RulerWords says in words where the see-through ruler lies and what its edge
// reads, while the keys have it; else nothing.
func (b *Board) RulerWords() []string { return b.parts.ruler.words() }

// Ruler reports whether the see-through ruler is shown.
func (b *Board) Ruler() bool { return b.parts.ruler.on }

// SetScene shows in. While a drag is under way only the pieces in hand, and
// those that change with them, are drawn anew.
func (b *Board) SetScene(in scene.Input) {
	in.Scale, in.Words = b.view.Scale, b.words
	refit := b.fitted && !b.gesture.dragging() && !sameTable(b.in, in)
	b.in = in
	switch {
	case refit:
		b.Fit()
	case b.gesture.dragging():
		b.redrawHand()
	default:
		b.redraw()
	}
}

// sameTable reports whether the same pieces, and pages or none, lie on both.
func sameTable(a, b scene.Input) bool {
	return slices.EqualFunc(a.Pattern.Pieces, b.Pattern.Pieces, func(p, q model.Piece) bool { return p.ID == q.ID }) &&
		scene.SameRuns(a, b) && scene.SamePhotos(a, b) && (a.Placement == nil) == (b.Placement == nil) &&
		(len(a.Sheets) > 0) == (len(b.Sheets) > 0)
}

// Fit shows everything on the Table, now and when the board changes its size,
// until the view is changed by hand.
func (b *Board) Fit() {
	w, h := b.openSize()
	b.view.Scale = 0 // whatever the scale, draw anew
	box := b.in.FitBox()
	margin := min(fitMargin, h/10)
	if b.in.Unscaled != "" { // a photo, all of it table round the paper
		margin = min(margin, photoMargin)
	}
	v := view.Fit(box, w, h, margin)
	b.in.Scale = v.Scale
	v = withWords(v, box.Union(b.in.WordsBox()), w, h)
	b.setView(b.belowHead(v))
	b.fitted = true
}

// withWords is v with the words beside the pieces in sight too, where that costs
// little of the scale; box is the pieces with their words.
func withWords(v view.View, box geom.Box, w, h float64) view.View {
	const rim, least = 6, 0.8
	all := view.Fit(box, w, h, rim)
	if all.Scale >= v.Scale || all.Scale < least*v.Scale {
		return v
	}
	return all
}

// SetScreen says how many px a mm of the screen has, for TrueSize.
func (b *Board) SetScreen(perMM float64) { b.perMM = perMM }

// TrueSize shows the paper as large as it is, about the same place as ZoomBy.
func (b *Board) TrueSize() { b.setView(b.view.Actual(b.perMM, b.zoomPlace())) }

// ZoomBy makes everything factor times as large, about the pointer where it is
// over the Table, else about what is in hand where that is in sight, else about the
// middle.
func (b *Board) ZoomBy(factor float64) { b.setView(b.view.Zoom(factor, b.zoomPlace())) }

func (b *Board) zoomPlace() view.Px {
	if b.inside {
		return b.pointer
	}
	if at, ok := b.placeInHand(); ok && b.inSight(at) {
		return b.view.ToPx(at)
	}
	w, h := b.paperSize()
	return view.Px{X: w / 2, Y: h / 2}
}

// inSight reports whether a place of the Table is seen.
func (b *Board) inSight(at geom.Point) bool {
	w, h := b.paperSize()
	px := b.view.ToPx(at)
	return px.X > 0 && px.Y > 0 && px.X < w && px.Y < h
}

// Percent is how large the paper is shown, 100 for true size.
func (b *Board) Percent() float64 { return 100 * b.view.Scale / b.perMM }

// Centre brings a place of the Table into sight, in the middle, without changing
// the scale.
func (b *Board) Centre(at geom.Point) {
	w, h := b.openSize()
	v := b.view
	v.Origin = at.Add(v.MM(view.Px{X: -w / 2, Y: -h / 2}))
	b.setView(b.belowHead(v))
}

// Reveal slides a place of the Table into the middle where it is out of sight.
func (b *Board) Reveal(at geom.Point) {
	const rim = 30 // px
	w, h := b.openSize()
	if p := b.view.ToPx(at); p.X < rim || p.Y < b.head+rim || p.X > w-rim || p.Y > b.head+h-rim {
		b.Centre(at)
	}
}

// View is what part of the paper is shown, in px of the paper's area.
func (b *Board) View() view.View { return b.view }

// keepInSight is how many px of the pieces always stay in sight.
const keepInSight = 64

// setView shows another part of the paper. Sliding moves what is drawn;
// another scale draws it anew.
func (b *Board) setView(v view.View) {
	w, h := b.paperSize()
	v = v.Keep(b.in.Bounds(), w, h, keepInSight)
	b.fitted = false
	same := v.Scale == b.view.Scale
	b.view = v
	b.in.Scale = v.Scale
	if same && b.parts.slide() {
		b.parts.follow()
	} else {
		b.redraw()
	}
	if b.OnView != nil {
		b.OnView()
	}
}
