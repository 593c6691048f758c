package ui

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// clickLine clicks the corners of a printed size one after another, and the
// first one again.
func clickLine(t *testing.T, w *Window, q model.Piece, size string, at geom.Vec) int {
	t.Helper()
	corners := cornersOf(t, q, size, at)
	for _, c := range append(corners, corners[0]) {
		w.table.OnPlace(c)
	}
	return len(corners) + 1
}

// lineInHand is the line of a size as it is traced now.
func lineInHand(w *Window, size string) model.TracedSize {
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, size)
	return line
}

func press(w *Window, key fyne.KeyName) { w.key(&fyne.KeyEvent{Name: key}) }

// choose picks an entry of the menu at a place of the photo.
func choose(t *testing.T, w *Window, at geom.Point, words string) {
	t.Helper()
	items := w.tracedItems(at, w.table.Reach())
	for len(items) > 0 {
		var under []*fyne.MenuItem
		for _, m := range items {
			if m.Label == words {
				m.Action()
				return
			}
			if m.ChildMenu != nil {
				under = append(under, m.ChildMenu.Items...)
			}
		}
		items = under
	}
	t.Fatalf("the menu at %v has no %q", at, words)
}

// Corners and points of a traced line are taken in hand by a click of Move, go
// by Delete, and come by the menu; every step has its name and can be undone.
func TestPointsLater(t *testing.T) {
	w, q, at := onBib(t)
	size := q.Nest[3].Size
	w.takeSize(size)
	clickLine(t, w, q, size, at)
	line := lineInHand(w, size)
	if !line.Closed || len(line.Corners) != 5 {
		t.Fatalf("traced are %d corners, closed: %v", len(line.Corners), line.Closed)
	}
	if off := farOff(t, line, q, at); off > 0.5 {
		t.Fatalf("the line lies %.2f mm off the print", off)
	}
	w.takeSize(size)
	choose(t, w, line.Edges[2][0].At(0.4), "Add a corner here")
	if n := len(lineInHand(w, size).Corners); n != 6 || w.doc.UndoLabel() != "add a corner to size "+size {
		t.Errorf("%d corners, undo says %q", n, w.doc.UndoLabel())
	}
	w.setTool(board.Move)
	corner := lineInHand(w, size).Corners[3]
	w.table.OnGrab(corner, w.table.Reach())
	w.table.OnPlace(corner)
	if on := w.traceOnTable().Corners; !hasSelected(on) {
		t.Error("the corner clicked does not show as picked")
	}
	press(w, fyne.KeyDelete)
	if n := len(lineInHand(w, size).Corners); n != 5 || w.doc.UndoLabel() != "take a corner out of size "+size {
		t.Errorf("%d corners, undo says %q", n, w.doc.UndoLabel())
	}
	if off := farOff(t, lineInHand(w, size), q, at); off > 0.5 {
		t.Errorf("without the corner the edge lies %.2f mm off the print", off)
	}
	before := len(joined(lineInHand(w, size)))
	choose(t, w, lineInHand(w, size).Edges[2][0].At(0.5), "Add a point on the curve here")
	if n := len(joined(lineInHand(w, size))); n != before+1 {
		t.Errorf("a point more makes %d parts of %d", n, before)
	}
	w.doc.Undo()
	if n := len(joined(lineInHand(w, size))); n != before {
		t.Errorf("undone, there are %d parts of %d", n, before)
	}
}

func hasSelected(cs []scene.TraceCorner) bool {
	for _, c := range cs {
		if c.Selected {
			return true
		}
	}
	return false
}

func joined(s model.TracedSize) geom.Path { return geom.Join(s.Edges...) }

// A corner dragged a little off comes back to the print, with its edges; one
// nudged by an arrow key stays within the nudge.
func TestADraggedCornerFollowsThePrint(t *testing.T) {
	w, q, at := onBib(t)
	size := q.Nest[3].Size
	w.takeSize(size)
	clickLine(t, w, q, size, at)
	w.takeSize(size)
	corner := lineInHand(w, size).Corners[3]
	if !w.table.OnGrab(corner, w.table.Reach()) {
		t.Fatal("the corner cannot be taken hold of")
	}
	for _, ph := range []board.Phase{board.DragStart, board.DragMove, board.DragEnd} {
		w.table.OnDragTraced(geom.Vec{X: 0.7, Y: -0.4}, ph)
	}
	if d := lineInHand(w, size).Corners[3].Dist(cornersOf(t, q, size, at)[3]); d > 0.3 {
		t.Errorf("let go near its crossing, the corner lies %.2f mm from it", d)
	}
	if w.doc.UndoLabel() != "move a corner of size "+size {
		t.Errorf("undo says %q", w.doc.UndoLabel())
	}
}

// The fold and the names are said by the menu, and arrive on the piece.
func TestEdgesAreSaid(t *testing.T) {
	w, q, at := onBib(t)
	for _, size := range []string{q.Nest[0].Size, q.Nest[3].Size} {
		w.takeSize(size)
		w.paper.trace.next = proposal{}
		clickLine(t, w, q, size, at)
	}
	size := q.Nest[3].Size
	w.takeSize(size)
	line := lineInHand(w, size)
	const fold, neck = 4, 0
	choose(t, w, line.Edges[fold][0].At(0.5), "On the fold")
	choose(t, w, line.Edges[neck][0].At(0.5), "neckline")
	w.shelve()
	p := w.doc.Pattern()
	if len(p.Pieces) != 1 {
		t.Fatalf("on the Shelf are %d pieces", len(p.Pieces))
	}
	if e := p.Pieces[0].Edges; e[fold].Kind != model.Fold || e[neck].Name != "neckline" {
		t.Errorf("the edges arrive as %+v", e)
	}
	if p.Chart.NameAt(p.Target.Place) != size {
		t.Errorf("wanted is size %s, the largest printed is %s", p.Chart.NameAt(p.Target.Place), size)
	}
}

// What the window says while tracing: the rail, the status bar, and what can be
// given up.
func TestTracingSaysHowFarItIs(t *testing.T) {
	w, q, at := onBib(t)
	p := w.doc.Pattern()
	if v := w.linesView(p, w.photo()); v.Begun || v.Done != "0 of 4 done" {
		t.Errorf("before anything: %q, to give up: %v", v.Done, v.Begun)
	}
	if s := w.tracedLine(p); s != "0 of 1 traced" {
		t.Errorf("the rail says %q", s)
	}
	size := q.Nest[3].Size
	w.takeSize(size)
	clickLine(t, w, q, size, at)
	p = w.doc.Pattern()
	if v := w.linesView(p, w.photo()); !v.Begun || v.Done != "1 of 4 done" || v.Rows[3].State != panel.Done {
		t.Errorf("after a size: %q, %+v", v.Done, v.Rows)
	}
	strip := w.withTraced(stripView(p, w.doc.Result(), w.charts()))
	for i, s := range strip.Sizes {
		printed := slices.ContainsFunc(q.Nest, func(o model.Outline) bool { return slices.Contains(o.Sizes(), s.Name) })
		if s.Printed != printed || s.Tracing != printed {
			t.Errorf("size %s on the strip is marked as printed: %v", s.Name, s.Printed)
		}
		if want := p.Chart.Sizes[i].Name == size; (s.Traced == panel.Done) != want {
			t.Errorf("size %s on the strip is marked as %v", s.Name, s.Traced)
		}
	}
	w.pointer = lineInHand(w, size).Edges[2][0].At(0.5)
	said := strings.Join(w.traceStatus(p), " | ")
	for _, part := range []string{"Pointer on photo 1, near *size " + size + "*", "Traced *0."} {
		if !strings.Contains(said, part) {
			t.Errorf("the status bar says %q, not %q", said, part)
		}
	}
}

// A piece half traced is saved with its photo and goes on when it is opened
// again.
func TestHalfTracedIsKept(t *testing.T) {
	w, q, at := onBib(t)
	size := q.Nest[3].Size
	w.doc.KeepPicture("photo-1.jpg", bibFile(t))
	w.takeSize(size)
	for _, c := range cornersOf(t, q, size, at)[:4] {
		w.table.OnPlace(c)
	}
	path := filepath.Join(t.TempDir(), "half.qstep")
	if !savedTo(w, path) {
		t.Fatal("it could not be saved")
	}
	w.open(path)
	if w.photo() == nil || w.step != stepBringIn || !w.showsFlat(w.photo()) {
		t.Fatal("the photo is not on the Table again")
	}
	if line := lineInHand(w, size); len(line.Corners) != 4 || w.paper.trace.size != size {
		t.Fatalf("in hand is size %q with %d corners", w.paper.trace.size, len(line.Corners))
	}
	cs := cornersOf(t, q, size, at)
	w.table.OnPlace(cs[4])
	w.table.OnPlace(cs[0])
	if line := lineInHand(w, size); !line.Closed || farOff(t, line, q, at) > 0.5 {
		t.Error("the line did not go on after opening")
	}
}

// Traced in the smallest and largest size only, the panel says what the sizes
// between are made from, and the piece has one in each: halfway between them.
func TestOnlyTheSmallestAndTheLargest(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnWay(traceEnds)
	v := w.linesView(w.doc.Pattern(), w.photo())
	if len(v.Rows) != 4 || v.Rows[1].Words != "made from 34 and 40" || v.Done != "0 of 2 done" {
		t.Fatalf("%q: %+v", v.Done, v.Rows)
	}
	for _, size := range []string{"34", "40"} {
		w.takeSize(size)
		w.paper.trace.next = proposal{}
		clickLine(t, w, q, size, at)
	}
	w.photos.Lines.OnRow(1)
	if w.paper.trace.size == "36" {
		t.Error("a size that is made from others was taken to be traced")
	}
	w.shelve()
	w.do("size 36", edit.Place(float64(placeOf(t, w, "36"))))
	corners := cornersOf(t, q, "36", at)
	for j, e := range w.doc.Result().Pieces[0].Edges {
		if d := e.Start().Dist(corners[j]); d > 1 { // the printed steps are even, the chart's are not quite
			t.Errorf("corner %d of size 36 lies %.2f mm from the printed one", j, d)
		}
	}
}

func placeOf(t *testing.T, w *Window, size string) int {
	t.Helper()
	place, ok := w.doc.Pattern().Chart.Place(size)
	if !ok {
		t.Fatalf("the chart has no %s", size)
	}
	return place
}

// Traced in one size only, a piece asks for the gaps, and goes by them.
func TestOneSizeAndTypedGaps(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnWay(traceOne)
	w.photos.Lines.OnRow(2)
	if v := w.linesView(w.doc.Pattern(), w.photo()); v.Row != 2 || v.Rows[0].Words != "made from the gaps you type" || v.Done != "0 of 1 done" {
		t.Fatalf("%q: %+v", v.Done, v.Rows)
	}
	clickLine(t, w, q, "38", at)
	w.shelve()
	p := w.doc.Pattern()
	if len(p.Pieces) != 1 || !w.folds["How it grows"].Open() {
		t.Fatalf("%d pieces, asked for gaps: %v", len(p.Pieces), w.folds["How it grows"].Open())
	}
	for _, along := range []bool{false, true} {
		w.do("type a gap", edit.SetGap(p.Pieces[0].ID, p.Pieces[0].Points[3].ID, along, 5))
	}
	w.do("size 40", edit.Place(float64(placeOf(t, w, "40"))))
	if d := w.doc.Result().Pieces[0].Edges[3].Start().Dist(cornersOf(t, q, "40", at)[3]); d > 0.4 {
		t.Errorf("the corner lies %.2f mm from the printed one of size 40", d)
	}
}

// A size traced along the line of another is said, and where.
func TestASizeTracedTwiceIsSaid(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnFollow(false)
	w.takeSize("34")
	clickLine(t, w, q, "34", at)
	w.takeSize("36")
	w.paper.trace.next = proposal{}
	clickLine(t, w, q, "34", at)
	v := w.linesView(w.doc.Pattern(), w.photo())
	if !strings.Contains(v.Note, "size 36 runs where size 34 does") {
		t.Errorf("the panel says %q", v.Note)
	}
}

// With one size traced, each next one is proposed by itself; doubtful corners are
// asked for first, the rest is taken at once, and every line lies on its print or
// is marked as doubtful. A piece of five corners in four sizes takes 24 clicks
// without.
func TestTheNextSizesComeByThemselves(t *testing.T) {
	w, q, at := onBib(t)
	w.table.ZoomBy(3) // as one does who looks closely
	hand := handOfNext{clicks: clickLine(t, w, q, "40", at)}
	for _, size := range []string{"38", "36", "34"} {
		hand.take(t, w, q, size, at)
	}
	if t.Logf("%+v", hand); hand.clicks+hand.keys > 12 || hand.wrong > 0 {
		t.Errorf("it took %d clicks and %d keys, %d corners were wrong without a doubt", hand.clicks, hand.keys, hand.wrong)
	}
	for _, o := range q.Nest {
		line := lineInHand(w, o.Size)
		off, doubts := farOff(t, line, q, at), len(w.paper.trace.doubts[o.Size])
		t.Logf("size %s lies %.2f mm off the print, with %d doubts", o.Size, off, doubts)
		if !line.Closed || off > 0.7 && doubts == 0 {
			t.Errorf("size %s is closed: %v, and lies %.2f mm off the print without a doubt", o.Size, line.Closed, off)
		}
	}
	w.shelve()
	if n := len(w.doc.Pattern().Pieces); n != 1 {
		t.Fatalf("%d pieces on the Shelf", n)
	}
}

// What is traced shows on the photo as taken too, where it is printed there.
func TestTracedLinesOnThePhotoAsTaken(t *testing.T) {
	w := bareWindow(t)
	q, chart := bib(t)
	g, at := printedPiece(q, bibPerMM)
	w.openPhotos([]string{pictureFile(t, "bib.png", scanFile(t, g, bibPerMM))})
	w.do("choose the chart", edit.Chart(chart))
	w.photos.Lines.OnFrom(placeOf(t, w, "34"))
	w.photos.Lines.OnTo(placeOf(t, w, "40"))
	ph := w.photo()
	clickLine(t, w, q, "40", at)
	if !lineInHand(w, "40").Closed {
		t.Fatal("size 40 is not traced")
	}
	w.showFlat(false)
	shown := w.sceneOf(w.doc.Pattern(), w.doc.Result()).Trace
	if w.showsFlat(ph) || shown == nil || len(shown.Lines) != 1 {
		t.Fatalf("on the photo as taken there is %+v", shown)
	}
	// The bib's corners in pixels of the scan, then on the Table.
	for i, c := range cornersOf(t, q, "40", at) {
		want := ph.onTable(geom.Pt(c.X*bibPerMM, c.Y*bibPerMM))
		if _, _, d := shown.Lines[0].Path.Nearest(want, 0.01); d > 2 { // a mm of the paper is 3 of the Table
			t.Errorf("corner %d lies %.2f mm of the Table off its line", i+1, d)
		}
	}
}

// An edge that was drawn along the wrong line is put right by laying its point
// on the right one: the edge follows it there, by way of all points laid so.
func TestAPointLaidOnAnotherLine(t *testing.T) {
	w, q, at := onBib(t)
	clickLine(t, w, q, "40", at)
	w.paper.trace.next = proposal{}
	w.takeRow(3)
	right := q.Nest[3].Edges[2].Move(at)
	wrong := geom.Polyline(right.Start(), q.Nest[1].Edges[2][0].At(0.5).Add(at), right.End())
	w.do("a wrong edge", edit.ReshapeEdge(w.paper.trace.id, "40", 2, wrong))
	point := lineInHand(w, "40").Edges[2][1].P0
	if !w.table.OnGrab(point, w.table.Reach()) {
		t.Fatal("the point cannot be taken hold of")
	}
	_, u, _ := right.Nearest(point, 0.01)
	by := right[0].At(u).Sub(point).Scale(0.95) // not quite there
	for _, ph := range []board.Phase{board.DragStart, board.DragMove, board.DragEnd} {
		w.table.OnDragTraced(by, ph)
	}
	if off := farOff(t, lineInHand(w, "40"), q, at); off > 0.5 {
		t.Errorf("the edge lies %.2f mm off its print", off)
	}
	if n := len(w.paper.trace.pins["40"]); n != 1 || w.doc.UndoLabel() != "move a point on size 40" {
		t.Errorf("%d points are kept, undo says %q", n, w.doc.UndoLabel())
	}
}

// With Move an edge is taken hold of anywhere: a straight one drawn across comes
// back to its print where it is dragged there, and Esc leaves it as it was.
func TestAnEdgeIsDragged(t *testing.T) {
	w, q, at := onBib(t)
	clickLine(t, w, q, "40", at)
	w.paper.trace.next = proposal{}
	w.takeRow(3)
	right := q.Nest[3].Edges[2].Move(at)
	w.do("a wrong edge", edit.ReshapeEdge(w.paper.trace.id, "40", 2, geom.Polyline(right.Start(), right.End())))
	w.setTool(board.Move)
	from := right.Start().Lerp(right.End(), 0.5)
	to := right[0].At(0.5)
	if !w.table.OnGrab(from, w.table.Reach()) {
		t.Fatal("the edge cannot be taken hold of")
	}
	w.table.OnDragTraced(geom.Vec{}, board.DragStart)
	w.table.OnDragTraced(to.Sub(from), board.DragMove)
	if _, _, d := joined(lineInHand(w, "40")).Nearest(to, 0.01); d > 0.3 { // its corners were clicked that well
		t.Errorf("while it is dragged, the edge stays %.1f mm behind the hand", d)
	}
	w.table.OnDragTraced(to.Sub(from), board.DragCancel)
	if !lineInHand(w, "40").Edges[2].IsStraight(0.01) {
		t.Error("let go by Esc, the edge is bent")
	}
	w.table.OnGrab(from, w.table.Reach())
	w.table.OnDragTraced(geom.Vec{}, board.DragStart)
	w.table.OnDragTraced(to.Sub(from), board.DragEnd)
	if off := farOff(t, lineInHand(w, "40"), q, at); off > 0.5 {
		t.Errorf("the edge lies %.2f mm off its print", off)
	}
}
