package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// putInto is by how much each piece is longer, by piece ID, where it is.
func putInto(w *Window) map[string]float64 {
	out := map[string]float64{}
	for _, q := range w.doc.Result().Pieces {
		for _, x := range q.Put {
			out[q.ID] += x.By
		}
	}
	return out
}

var aboveWaist = scene.Ref{Piece: "front", Line: "lengthen-above-the-waist", Control: scene.LengthHandle}

// Dragging the double line previews on every linked piece, counts whole mm and
// is one step, which undo takes back.
func TestDragALengthenLine(t *testing.T) {
	w := open(t)
	w.enter(stepLength)
	if w.hand != aboveWaist {
		t.Errorf("on entering %+v is in hand", w.hand)
	}
	w.table.OnDragHandle(aboveWaist, geom.Vec{}, board.DragStart)
	w.table.OnDragHandle(aboveWaist, geom.Vec{X: 3, Y: 8}, board.DragMove)
	if put := putInto(w); len(put) != 2 || put["front"] != 8 || put["back"] != 8 {
		t.Errorf("the preview puts in %v", put)
	}
	w.table.OnDragHandle(aboveWaist, geom.Vec{Y: 20.3}, board.DragEnd)
	if put := putInto(w); put["front"] != 20 || put["back"] != 20 {
		t.Errorf("it puts in %v", put)
	}
	if h := w.doc.History(); len(h) != 1 || h[0] != "lengthen 20 mm above the waist" {
		t.Errorf("history %v", h)
	}
	w.table.OnDragHandle(aboveWaist, geom.Vec{}, board.DragStart)
	w.table.OnDragHandle(aboveWaist, geom.Vec{Y: -5}, board.DragEnd)
	if put := putInto(w); put["front"] != 15 {
		t.Errorf("dragged back by 5 it puts in %v", put)
	}
	w.doc.Undo()
	w.doc.Undo()
	if put := putInto(w); len(put) != 0 {
		t.Errorf("undone it puts in %v", put)
	}
	w.table.OnDragHandle(aboveWaist, geom.Vec{}, board.DragStart)
	w.table.OnDragHandle(aboveWaist, geom.Vec{X: 9}, board.DragEnd)
	if len(w.doc.History()) != 0 || w.doc.Previewing() {
		t.Error("a drag across the grain left a trace")
	}
}

func TestTypeALength(t *testing.T) {
	w := open(t)
	w.enter(stepLength)
	for i, text := range []string{"20", "-1,2 cm", "0", "1 in"} {
		if err := w.length.OnLength(i, text); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	put := putInto(w)
	if math.Abs(put["front"]-(20-12+25.4)) > 1e-9 || math.Abs(put["back"]-put["front"]) > 1e-9 || put["sleeve"] != 0 {
		t.Errorf("it puts in %v", put)
	}
	want := "lengthen 20 mm above the waist, shorten 12 mm below the waist, lengthen 25.4 mm at the hem"
	if got := strings.Join(w.doc.History(), ", "); got != want {
		t.Errorf("history %s", got)
	}
	err := w.length.OnLength(0, "-300")
	if err == nil || !strings.Contains(err.Error(), "cannot be made 300 mm shorter") || len(w.doc.History()) != 3 {
		t.Errorf("folding out more than there is gives %v", err)
	}
	if err := w.length.OnLength(0, "long"); err == nil {
		t.Error("words were taken for a length")
	}
	v := lengthView(w.doc.Pattern(), w.doc.Result(), w.hand)
	if v.Hand != 0 || v.Groups[0].Field != "20" || v.Groups[1].Pieces[1].Figure != "12 mm shorter" || v.Groups[2].Pieces[0].Figure != "as printed" {
		t.Errorf("the panel shows %+v", v.Groups)
	}
	if v.Paper[2].Name != "Centre back" || v.Paper[2].Figure != "66.6, now 69.9 cm" {
		t.Errorf("on paper %+v", v.Paper)
	}
	w.length.OnTakeBack()
	if put := putInto(w); len(put) != 0 {
		t.Errorf("taken back it puts in %v", put)
	}
}

// Arrow keys go along the grain only, and Delete takes the lines off.
func TestArrowsOnALengthenLine(t *testing.T) {
	w := open(t)
	w.enter(stepLength)
	w.table.OnNudge(geom.Vec{Y: 5}, board.Large)
	w.table.OnNudge(geom.Vec{Y: -1}, board.Normal)
	w.table.OnNudge(geom.Vec{X: 1}, board.Normal)
	if put := putInto(w); put["front"] != 4 || len(w.doc.History()) != 2 {
		t.Errorf("it puts in %v after %v", put, w.doc.History())
	}
	w.key(&fyne.KeyEvent{Name: fyne.KeyDelete})
	groups := edit.LengthGroups(w.doc.Pattern())
	if len(putInto(w)) != 0 || groups[0].Name != "Below the waist" || w.hand.Line != "" {
		t.Errorf("left over are %+v, in hand %+v", groups, w.hand)
	}
}

// A line is added where she clicks next, on the linked pieces too; Escape lets
// go.
func TestAddALengthenLine(t *testing.T) {
	w := open(t)
	w.enter(stepLength)
	w.length.OnAdd()
	if !strings.Contains(w.asking(), "Click on a piece") {
		t.Errorf("the status bar asks %q", w.asking())
	}
	w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.table.OnSelect(scene.Ref{Piece: "sleeve"})
	if w.adding || len(w.doc.History()) != 0 {
		t.Error("Escape did not let go")
	}
	w.length.OnAdd()
	q := w.doc.Pattern().Pieces[0]
	hem := w.doc.Result().Pieces[0].Edges[q.PointIndex("side-hem")].Start()
	w.table.OnPointer(hem.Add(geom.Vec{X: -50, Y: -20}).Add(q.At))
	w.table.OnSelect(scene.Ref{Piece: "front"})
	groups := edit.LengthGroups(w.doc.Pattern())
	if len(w.doc.History()) != 1 || groups[2].Name != "Below the hip" || len(groups[2].Lines) != 2 || groupInHand(groups, w.hand) != 2 {
		t.Errorf("groups %+v, in hand %+v", groups, w.hand)
	}
	front := w.doc.Result().Pieces[0]
	if y := front.Lines[len(front.Lines)-1].Path.Start().Y; math.Abs(y-hem.Y+20) > 0.5 {
		t.Errorf("it lies at %.2f, clicked at %.2f", y, hem.Y-20)
	}
}

// The Length step has its own panel and handles, other steps have not.
func TestTheLengthStepsOwnThings(t *testing.T) {
	w := open(t)
	if w.folds["Length"].Visible() || w.lengthens(w.doc.Pattern()) != nil {
		t.Error("before the step they are there")
	}
	w.rune('5')
	if w.step != stepLength || !w.folds["Length"].Visible() || !w.folds["Length"].Open() || len(w.lengthens(w.doc.Pattern()).Hand) != 2 {
		t.Errorf("step %d", w.step)
	}
	if v := w.railView(w.doc.Pattern(), w.doc.Result(), 0); !v.Steps[stepLength].Enabled || v.Steps[stepLength].State != "as printed" {
		t.Errorf("the rail says %+v", v.Steps[stepLength])
	}
	p := w.doc.Pattern()
	p.Unit = model.Inches
	p.Lengths = []model.Lengthening{{By: -12.7}}
	if got := lengthLine(p); got != "1/2 in shorter" {
		t.Errorf("it says %q", got)
	}
}
