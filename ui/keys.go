package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// shortcut is a key that does something with Ctrl held, or with Ctrl and Shift.
type shortcut struct {
	key   fyne.KeyName
	shift bool
	do    func()
}

// shortcuts are all of them but undo and redo as the toolkit itself knows them. What
// is here is in the help too; see keyRows.
func (w *Window) shortcuts() []shortcut {
	return []shortcut{
		{fyne.KeyS, false, w.save},
		{fyne.KeyS, true, w.saveAs},
		{fyne.KeyO, false, w.askOpen},
		{fyne.KeyN, false, w.newPattern},
		{fyne.KeyP, false, w.savePDF},
		{fyne.KeyP, true, w.printPages},
		{fyne.KeyC, true, w.copyWords},
		{fyne.KeyQ, false, w.askAndClose},
		{fyne.KeyZ, true, func() { w.doc.Redo() }},
		{fyne.KeyY, false, func() { w.doc.Redo() }},
	}
}

func (s shortcut) modifier() fyne.KeyModifier {
	if s.shift {
		return fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift
	}
	return fyne.KeyModifierShortcutDefault
}

// connectKeys makes the keys of LOOK work wherever the focus is. Every action
// is guarded in one place: none of them runs under an open dialog.
func (w *Window) connectKeys() {
	c := w.win.Canvas()
	c.SetOnTypedKey(w.key)
	c.SetOnTypedRune(w.rune)
	for _, s := range w.shortcuts() {
		c.AddShortcut(&desktop.CustomShortcut{KeyName: s.key, Modifier: s.modifier()}, func(fyne.Shortcut) { w.guarded(s.do) })
	}
	c.AddShortcut(&fyne.ShortcutUndo{}, func(fyne.Shortcut) { w.guarded(func() { w.doc.Undo() }) })
	c.AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.guarded(func() { w.doc.Redo() }) })
}

// guarded does f unless a dialog is open.
func (w *Window) guarded(f func()) {
	if !w.dialogOpen {
		f()
	}
}

// shortcut is a shortcut that reached the Table.
func (w *Window) shortcut(s fyne.Shortcut) {
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		w.guarded(func() { w.doc.Undo() })
	case *fyne.ShortcutRedo:
		w.guarded(func() { w.doc.Redo() })
	case *desktop.CustomShortcut:
		w.custom(s)
	}
}

func (w *Window) custom(c *desktop.CustomShortcut) {
	for _, s := range w.shortcuts() {
		if c.KeyName == s.key && c.Modifier == s.modifier() {
			w.guarded(s.do)
		}
	}
}

// key is a key without a character.
func (w *Window) key(e *fyne.KeyEvent) {
	if w.dialogOpen {
		w.dialogKey(e)
		return
	}
	if w.showsChecks(e) || w.takenKey(e) || w.traceKey(e) {
		return
	}
	switch e.Name {
	case fyne.KeyDelete, fyne.KeyBackspace:
		switch {
		case w.step == stepPrint:
		case w.hand.Line != "":
			w.removeLine()
		case w.hand.Cut != "":
			w.do(words.T("take a cut line out"), edit.RemoveCut(w.hand.Piece, w.hand.Cut))
		case w.hand.Point != "":
			w.do(words.T("remove a grade point"), edit.RemovePoint(w.hand.Piece, w.hand.Point))
		}
	case fyne.KeyF1:
		w.help()
	case fyne.KeyF2:
		w.rename()
	case fyne.KeyF6:
		w.nextRegion(shiftHeld())
	case fyne.KeyF10:
		if shiftHeld() {
			w.menuInHand()
		} else {
			w.rail.OpenMenu()
		}
	case desktop.KeyMenu:
		w.menuInHand()
	case fyne.KeyPageUp:
		w.nextPiece(-1)
	case fyne.KeyPageDown:
		w.nextPiece(1)
	case fyne.KeyEscape:
		w.leftOut = ""
		w.straight, w.adding = scene.Ref{}, false
		w.dropDart()
		w.letLinkGo()
		if !w.strip.Cancel() {
			w.doc.Cancel()
		}
		w.refresh()
	}
}

// rune is a key with a character.
func (w *Window) rune(r rune) {
	if w.dialogOpen {
		return
	}
	if r >= '1' && r <= '6' {
		w.enter(int(r - '1'))
		return
	}
	if do := w.runes()[r]; do != nil {
		do()
	}
}

// runes are the keys with a character, and what they do.
func (w *Window) runes() map[rune]func() {
	return map[rune]func(){
		',': func() { w.strip.Step(-1) }, '.': func() { w.strip.Step(1) },
		'<': func() { w.strip.Step(-0.5) }, '>': func() { w.strip.Step(0.5) },
		'm': func() { w.setTool(board.Move) }, 's': func() { w.setTool(board.Slide) },
		'r': func() { w.setTool(board.Measure) }, 'p': func() { w.setTool(board.AddPoint) },
		't': func() {
			if w.withPhoto() {
				w.setTool(board.Trace)
			}
		},
		'n': w.nestKey,
		'c': func() { w.table.SetCloseUp(!w.table.CloseUp()); w.refresh() },
		'i': func() { w.seam = !w.seam; w.refresh() },
		'u': w.rulerKey,
		'l': w.lock, 'k': w.startLink, 'j': func() { w.joinPieces(!w.trues.join) },
		'e': func() { w.unfold("Increments") }, 'w': func() { w.unfold("Wearer") }, 'h': func() { w.unfold("Checks") },
		'+': func() { w.zoom(true) }, '=': func() { w.zoom(true) }, '-': func() { w.zoom(false) },
		'0': w.table.Fit, '9': w.table.TrueSize,
	}
}

// menuInHand shows the menu of what is in hand, as a right click on it does.
func (w *Window) menuInHand() {
	if len(w.doc.Pattern().Pieces) > 0 && !w.withPhoto() && w.step != stepPrint {
		w.tableMenu(w.hand, w.table.InHandAt())
	}
}

// nextPiece takes the next piece in hand, or the one before.
func (w *Window) nextPiece(by int) {
	p := w.doc.Pattern()
	n := len(p.Pieces)
	if n == 0 || w.withPhoto() {
		return
	}
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 && by < 0 {
		i = 0
	}
	w.shelf.OnPick((i + by + n) % n)
}

// unfold opens one of the side panels and closes the others.
func (w *Window) unfold(name string) {
	w.drawer.Open()
	for n, f := range w.folds {
		f.SetOpen(n == name)
	}
}

// lock locks the point in hand against the hand, or frees it.
func (w *Window) lock() {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 {
		return
	}
	if k := p.Pieces[i].PointIndex(w.hand.Point); k >= 0 {
		locked := !p.Pieces[i].Points[k].Locked
		label := words.T("free a point")
		if locked {
			label = words.T("lock a point")
		}
		w.do(label, edit.LockPoint(w.hand.Piece, w.hand.Point, locked))
	}
}
