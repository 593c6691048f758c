package ui

import (
	"slices"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/theme"
)

// connectPhoto turns what the Photo panel and the tool Trace report into steps.
func (w *Window) connectPhoto() {
	w.connectTaken()
	w.connectLines(w.photos.Lines)
}

func (w *Window) connectLines(l *panel.Lines) {
	t := &w.paper.trace
	l.OnName = func(text string) error {
		k, ok := w.tracing()
		if !ok {
			t.name = strings.TrimSpace(text)
			w.refresh() // else the field shows again what it was before
			return nil
		}
		return w.doc.Do(words.T("name the piece"), edit.NameTracing(k.ID, strings.TrimSpace(text), k.Cut))
	}
	l.OnCut = w.chooseCut
	l.OnChart = func(i int) {
		c := w.charts()[i]
		t.from, t.to = 0, 0
		w.do(words.F("choose the chart %s", c.Name), edit.Chart(c))
	}
	l.OnFrom = func(i int) {
		t.from, t.to = i+1, max(t.to, i+1)
		w.sizesSaid()
	}
	l.OnTo = func(i int) {
		t.to = i + 1
		if t.from == 0 || t.from > t.to {
			t.from = t.to
		}
		w.sizesSaid()
	}
	l.OnWay = func(i int) { t.ways = i; w.sizesSaid() }
	l.OnRow = w.takeRow
	l.OnFollow = func(on bool) { t.straight = !on; w.refresh() }
	l.OnFinish, l.OnNext, l.OnUndo = w.finishSize, w.confirmNext, w.undoPoint
	l.OnMark = w.startMark
	l.OnShelf = w.shelve
	l.OnDrop = func() {
		if k, ok := w.tracing(); ok {
			w.do(words.F("give %s up", k.Name), edit.DropTracing(k.ID))
		}
	}
	l.OnHint, l.OnGrown = w.hint, w.relaySide
}

// showPhoto shows the Photo panel, the pill and how far the work beside the
// window is.
func (w *Window) showPhoto() {
	w.photos.SetView(w.photoView(w.doc.Pattern()))
	w.showPill()
	state := ""
	k, under := w.tracing()
	switch n := len(w.paper.photos); {
	case under && w.withPhoto() && k.Picture == w.photo().id:
		state = k.Name
	case n > 0:
		state = count(n, "photo")
	}
	w.folds["Photo"].SetState(state, w.photo() != nil && w.photo().note != "")
	w.relaySide()
}

// photoTools are the tools of the step Bring in while a photo is in hand.
var photoTools = []board.Tool{board.Trace, board.Move, board.Slide}

func (w *Window) photoToolViews() []panel.ToolView {
	return []panel.ToolView{
		{Name: theme.Trace, Word: words.T("Trace"), Hint: words.T("Click corner after corner along a printed line (T); with Shift a point on the way, with Ctrl straight and exactly there")},
		{Name: theme.Pointer, Word: words.T("Move"), Hint: words.T("Move a corner or a point of the traced line (M)")},
		{Name: theme.Slide, Word: words.T("Slide"), Hint: words.T("Slide the Table (S, or hold Space)")},
		{Name: theme.Turn, Word: words.T("Turn photo"), Hint: words.T("Turn the straightened photo by a quarter")},
	}
}

// withPhoto reports whether the step Bring in has a photo in hand.
func (w *Window) withPhoto() bool { return w.step == stepBringIn && w.photo() != nil }

// pickPhotoTool takes the i-th tool of the step Bring in.
func (w *Window) pickPhotoTool(i int) {
	if i < len(photoTools) {
		w.setTool(photoTools[i])
		return
	}
	w.turnPhoto()
}

// BringIn brings files in as if they were dropped on the window.
func (w *Window) BringIn(paths []string) { w.bringInFiles(paths) }

// bringInFiles brings in what was chosen or dropped: pictures together, else the
// first drawing.
func (w *Window) bringInFiles(paths []string) {
	var pictures []string
	for _, path := range paths {
		if paper.IsPicture(path) {
			pictures = append(pictures, path)
		}
	}
	if len(pictures) > 0 {
		w.apartFromDemo(func() { w.openPhotos(pictures) })
		return
	}
	w.ifSafe(func() { w.bringInFile(paths[0]) })
}

// shelfPhotos are the cards of photos without a piece, and of pieces under way.
func (w *Window) shelfPhotos(p model.Pattern) []shelfPhoto {
	var out []shelfPhoto
	for _, k := range p.Tracings {
		how := words.T("Tracing")
		for _, s := range k.Sizes {
			if !s.Closed {
				how = words.F("Tracing %s", s.Size)
			}
		}
		out = append(out, shelfPhoto{name: k.Name, how: how, tracing: k.ID, picture: k.Picture})
	}
	for i, ph := range w.paper.photos {
		if ph.id != "" && traced(p, ph.id) || ph.leads() != nil {
			continue
		}
		how, look := words.T("Photo taken"), false
		switch {
		case ph.shot == nil && ph.id == "" && ph.note != "":
			how, look = words.T("Cannot be read"), true
		case w.isFlat(ph):
			how = words.T("Straightened")
		}
		out = append(out, shelfPhoto{name: ph.name, how: how, photo: i, look: look})
	}
	return out
}

// shelfPhoto is a card that is no piece yet.
type shelfPhoto struct {
	name, how, tracing, picture string
	photo                       int
	look                        bool // it cannot be used
}

// pickShelfPhoto takes the photo or the piece under way of a card in hand.
func (w *Window) pickShelfPhoto(c shelfPhoto) {
	if w.step != stepBringIn {
		w.goTo(stepBringIn)
	}
	if c.tracing == "" {
		w.choosePhoto(c.photo)
		return
	}
	if i := slices.IndexFunc(w.paper.photos, func(ph *photo) bool { return ph.id == c.picture }); i >= 0 {
		w.choosePhoto(i)
	}
	w.takeTracing(c.tracing)
	w.refresh()
}

// toolFor puts the tool in the hand that a step begins with: Trace with a photo,
// and no Trace elsewhere.
func (w *Window) toolFor(step int) {
	if step != stepBringIn {
		w.putLensAway()
	}
	switch now := w.table.Tool(); {
	case step == stepBringIn && len(w.paper.photos) > 0:
		w.table.SetTool(board.Trace)
		w.paper.lens = w.paper.lens || !w.table.CloseUp()
		w.table.SetCloseUp(true)
	case step == stepPrint && now != board.Slide && now != board.Measure:
		w.table.SetTool(board.Arrange)
	case now == board.Trace, step != stepPrint && now == board.Arrange:
		w.table.SetTool(board.Move)
	}
}

// putLensAway takes the close-up away that came with the photo, for it would cover
// what the other steps show; one that she had asked for before stays.
func (w *Window) putLensAway() {
	if w.paper.lens {
		w.paper.lens = false
		w.table.SetCloseUp(false)
	}
}
