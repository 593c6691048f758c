package board

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/view"
)

// onPaper is a place of the widget in px of the paper's area, and whether it
// lies there rather than on a ruler.
func onPaper(p fyne.Position) (view.Px, bool) {
	at := px(float64(p.X)-rulerLeft, float64(p.Y)-rulerTop)
	return at, at.X >= 0 && at.Y >= 0
}

// MouseDown implements desktop.Mouseable.
func (b *Board) MouseDown(e *desktop.MouseEvent) {
	defer stopwatch.Lap("press")()
	b.catchUp()
	b.parts.cross.drop()
	b.parts.ruler.letGo()
	b.takeFocus()
	at, ok := onPaper(e.Position)
	if !ok || b.gesture.kind != idle {
		return
	}
	b.follow(at)
	b.gesture = gesture{button: e.Button, from: at, last: at}
	switch {
	case e.Button == desktop.MouseButtonTertiary || e.Button == desktop.MouseButtonPrimary && b.sliding():
		b.gesture.kind = sliding
	case e.Button != desktop.MouseButtonPrimary:
		b.gesture = gesture{}
	case b.parts.ruler.press(at):
	case b.tool == Measure:
		b.gesture.kind = measuringDrag
		b.parts.measure.press(at)
	case b.tool == AddPoint:
		b.gesture = gesture{}
		b.addPoint(at)
	case b.grabs(at):
		b.gesture.kind = tracedDrag
	case b.tool == Trace:
		b.gesture.kind = placing
	default:
		b.take(at)
	}
}

// sliding reports whether the hand slides the paper about.
func (b *Board) sliding() bool { return b.tool == Slide || b.space }

// take begins what a press with the plain hand means at a place: a drag of the
// handle there, a choice of the edge or piece there, else sliding.
func (b *Board) take(at view.Px) {
	ref, _, onEdge := b.edgeAt(at)
	if h, ok := b.handleAt(at); ok {
		g := &b.gesture
		g.ref, g.start = h.Ref, h.At
		switch {
		case h.State == scene.Locked:
			g.kind = sliding
		case h.Ref.Control > 0:
			g.kind = handleDrag
		default:
			g.kind = pointDrag
		}
		b.selected(h.Ref)
		return
	}
	if !onEdge {
		ref = b.dartAt(at)
	}
	b.gesture.kind, b.gesture.ref = sliding, ref
	switch {
	case ref.Piece != "":
		switch {
		case b.tool == Arrange:
			b.gesture.kind, ref.Edge = pieceDrag, ""
		case onEdge && b.draggable(ref):
			b.gesture.kind = edgeDrag
		}
		b.selected(ref)
	case b.pageAt(at) != "" && b.OnPage != nil:
		b.OnPage(b.pageAt(at))
	default:
		b.gesture.bare = true
	}
}

// TappedSecondary implements fyne.SecondaryTappable: a right click asks for the
// menu of the grade point, edge or piece under it.
func (b *Board) TappedSecondary(e *fyne.PointEvent) {
	at, ok := onPaper(e.Position)
	if ok && b.gesture.kind == idle && b.asksTraced(at, e.AbsolutePosition) {
		return
	}
	if !ok || b.OnMenu == nil || b.gesture.kind != idle || b.tool == Arrange {
		return
	}
	if h, ok := b.handleAt(at); ok && h.Ref.Point != "" {
		b.OnMenu(h.Ref, e.AbsolutePosition)
		return
	}
	ref, _, ok := b.edgeAt(at)
	if !ok {
		ref = b.dartAt(at)
	}
	if ref.Piece != "" {
		b.OnMenu(ref, e.AbsolutePosition)
	}
}

func (b *Board) addPoint(at view.Px) {
	ref, on, ok := b.edgeAt(at)
	if !ok || b.OnAddPoint == nil {
		return
	}
	if inv, err := b.in.PlaceOf(ref).Inverse(); err == nil {
		b.OnAddPoint(ref, inv.Apply(on))
	}
}

// Dragged implements fyne.Draggable.
func (b *Board) Dragged(e *fyne.DragEvent) {
	at, _ := onPaper(e.Position)
	b.gesture.spurned = false
	b.drags(at)
}

// draggedTo goes on with what is under way, the button held.
func (b *Board) draggedTo(at view.Px, inside bool) {
	defer stopwatch.Lap("drag")()
	b.point(at, inside)
	if b.gesture.kind != idle {
		b.movedTo(at)
	}
}

// MouseUp implements desktop.Mouseable.
func (b *Board) MouseUp(e *desktop.MouseEvent) {
	b.catchUp()
	if b.gesture.kind == idle {
		return
	}
	if e.Button != b.gesture.button {
		b.gesture.spurned = true
		return
	}
	b.finish()
}

// DragEnd implements fyne.Draggable. It comes after MouseUp, and alone where
// the button was let go outside the board. It also comes, too early, where
// another button was let go.
func (b *Board) DragEnd() {
	if b.gesture.spurned {
		b.gesture.spurned = false
		return
	}
	b.catchUp()
	b.finish()
}

// MouseIn implements desktop.Hoverable. Keys mean the Table from then on, not the
// button or list last used: Space held slides the paper, Enter confirms. Words that
// are being typed keep the keys.
func (b *Board) MouseIn(e *desktop.MouseEvent) {
	if b.holdsSomething() && !typing(b) {
		b.takeFocus()
	}
	b.MouseMoved(e)
}

// holdsSomething reports that there is something on the Table to work on.
func (b *Board) holdsSomething() bool {
	return len(b.in.Pattern.Pieces)+len(b.in.Photos)+len(b.in.Sheets) > 0
}

// typing reports that a field to type in has the keys.
func typing(b *Board) bool {
	c := fyne.CurrentApp().Driver().CanvasForObject(b)
	if c == nil {
		return false
	}
	_, yes := c.Focused().(interface{ SelectedText() string })
	return yes
}

// MouseMoved implements desktop.Hoverable.
func (b *Board) MouseMoved(e *desktop.MouseEvent) {
	b.parts.cross.drop()
	b.hovers(onPaper(e.Position))
}

// pointedAt follows the pointer.
func (b *Board) pointedAt(at view.Px, inside bool) {
	defer stopwatch.Lap("pointer")()
	b.point(at, inside)
	if b.gesture.kind == idle {
		b.parts.measure.follow(at)
		b.follow(at)
	}
}

// MouseOut implements desktop.Hoverable.
func (b *Board) MouseOut() {
	b.catchUp()
	b.point(b.pointer, false)
	if b.gesture.kind == idle {
		b.hovered(scene.Ref{})
	}
}

// point moves the marks on the rulers, and the close-up, to the pointer.
func (b *Board) point(at view.Px, inside bool) {
	b.pointer, b.inside = at, inside
	b.parts.edges.point()
	b.parts.lens.update()
	if inside && b.OnPointer != nil {
		b.OnPointer(geom.Point(b.view.ToMM(at).Sub(b.in.Zero)))
	}
}

// follow finds what lies under the pointer.
func (b *Board) follow(at view.Px) {
	var ref scene.Ref
	if b.tool == Move || b.tool == AddPoint || b.tool == Arrange {
		if h, ok := b.handleAt(at); ok && b.tool == Move {
			ref = h.Ref
		} else if r, _, ok := b.edgeAt(at); ok {
			ref = r
		} else if r := b.dartAt(at); r.Dart != "" {
			ref = r
		}
	}
	b.hovered(ref)
}

func (b *Board) hovered(ref scene.Ref) {
	if ref == b.hover {
		b.parts.hovering()
		return
	}
	b.hover = ref
	b.parts.hovering()
	b.parts.lens.update() // it names what is under the pointer
	if b.OnHover != nil {
		b.OnHover(ref)
	}
}

// handles are the handles shown.
func (b *Board) handles() []scene.Handle {
	if b.tool == Arrange {
		return nil
	}
	return scene.Handles(b.in)
}

// handle is the handle a ref names.
func (b *Board) handle(r scene.Ref) (scene.Handle, bool) {
	hs := b.handles()
	i := slices.IndexFunc(hs, func(h scene.Handle) bool { return h.Ref == r })
	if i < 0 {
		return scene.Handle{}, false
	}
	return hs[i], true
}

// draggable reports whether an edge can be dragged as a whole: it is in hand
// already, and is neither fold nor centre line.
func (b *Board) draggable(r scene.Ref) bool {
	in := b.in.Select
	return b.OnDragEdge != nil && r.Piece == in.Piece && r.Edge == in.Edge && scene.Bendable(b.in.Pattern, r)
}

// Where a handle's reach lies over its line: farther than handleCore px from
// the handle and nearer than onLine px to a line, the line is meant.
const (
	handleCore = 12
	onLine     = 4
)

// handleAt is the nearest handle within reach of at, unless a line is meant.
func (b *Board) handleAt(at view.Px) (scene.Handle, bool) {
	hs := b.handles()
	places := make([]geom.Point, len(hs))
	for i, h := range hs {
		places[i] = h.At
	}
	i, ok := b.view.Spot(at, places, view.HandleReach)
	if !ok {
		return scene.Handle{}, false
	}
	if b.view.ToPx(places[i]).Sub(at).Len() > handleCore {
		if _, on, ok := b.edgeAt(at); ok && b.view.ToPx(on).Sub(at).Len() <= onLine {
			return scene.Handle{}, false
		}
	}
	return hs[i], true
}

// edgeAt is the nearest edge within reach of at, and the place on it; the piece
// in hand, which is drawn on top, wins a tie.
func (b *Board) edgeAt(at view.Px) (scene.Ref, geom.Point, bool) {
	var refs []scene.Ref
	var paths []geom.Path
	add := func(i int) {
		q := b.in.Pattern.Pieces[i]
		for k, e := range b.in.Edges(i) {
			refs = append(refs, scene.Ref{Piece: q.ID, Edge: q.Edges[k].ID})
			paths = append(paths, e)
		}
	}
	hand := b.in.Pattern.PieceIndex(b.in.Select.Piece)
	for i := range b.in.Pattern.Pieces {
		if i != hand {
			add(i)
		}
	}
	if hand >= 0 {
		add(hand)
	}
	i, on, ok := b.view.Line(at, paths, view.LineReach)
	if !ok {
		return scene.Ref{}, on, false
	}
	return refs[i], on, true
}

// dartAt is the dart whose leg is within reach of at, else the piece that at lies
// inside.
func (b *Board) dartAt(at view.Px) scene.Ref {
	refs, legs := scene.Darts(b.in)
	if i, _, ok := b.view.Line(at, legs, view.LineReach); ok {
		return refs[i]
	}
	return scene.Ref{Piece: b.pieceAt(at)}
}

// pieceAt is the piece that at lies inside, the one in hand before others;
// empty for none.
func (b *Board) pieceAt(at view.Px) string {
	p, tol := b.view.ToMM(at), 0.5/b.view.Scale
	inside := func(i int) bool { return geom.Join(b.in.Edges(i)...).Contains(p, tol) }
	if i := b.in.Pattern.PieceIndex(b.in.Select.Piece); i >= 0 && inside(i) {
		return b.in.Select.Piece
	}
	for i := len(b.in.Pattern.Pieces) - 1; i >= 0; i-- {
		if inside(i) {
			return b.in.Pattern.Pieces[i].ID
		}
	}
	return ""
}

// pageAt is the page that at lies on; empty for none.
func (b *Board) pageAt(at view.Px) string {
	p := b.view.ToMM(at)
	for _, s := range b.in.Sheets {
		if s.Box.Contains(p) && !s.Blank {
			return s.Name
		}
	}
	return ""
}

// Scrolled implements fyne.Scrollable: the wheel zooms about the pointer, with
// Shift it slides the paper sideways.
func (b *Board) Scrolled(e *fyne.ScrollEvent) {
	defer stopwatch.Lap("wheel")()
	at, ok := onPaper(e.Position)
	if !ok || b.gesture.dragging() {
		return
	}
	b.catchUp()
	b.pointer = at
	// One notch is 25; a fast wheel is sent as thousands.
	dx, dy := notches(e.Scrolled.DX), notches(e.Scrolled.DY)
	v := b.view
	if dx != 0 {
		v = v.Slide(px(60*dx, 0))
	}
	if dy != 0 {
		v = v.Zoom(math.Pow(1.15, dy), at)
	}
	b.setView(v)
}

// notches is how far a wheel was turned, at most three notches at a time.
func notches(d float32) float64 { return min(max(float64(d)/25, -3), 3) }
