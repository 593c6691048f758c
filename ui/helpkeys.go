package ui

import (
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// keyRow is a row of the help's keys: which keys it tells of, what they are called
// and what they do. A key is named as in the code (KeyUp), by its character (n), or
// as Ctrl+S; a test holds that every key that does something is in one of them, and
// that every key named here does something.
type keyRow struct {
	keys        []string
	term, means string
}

func keyTerms() []panel.TermView {
	var out []panel.TermView
	for _, r := range keyRows() {
		out = append(out, panel.TermView{Term: r.term, Means: r.means})
	}
	return out
}

// keyRows are the keys of the Table and the window, then those of a photo, then those
// of the ruler.
func keyRows() []keyRow {
	// words: none
	arrows := []string{"KeyUp", "KeyDown", "KeyLeft", "KeyRight"}
	rows := []keyRow{
		{arrows, words.T("Arrows"), words.T("Move what is in hand by 1/16 in or 1 mm; Shift 1/4 in or 5 mm; Ctrl 1/64 in or 0.2 mm. With Slide they slide the Table; on the Size strip, in lists and on the page map they go on by one")},
		{[]string{"KeyTab"}, words.T("Tab, Shift+Tab"), words.T("On the Table the next or previous handle, in a table the next figure, elsewhere the next button")},
		{[]string{"KeyF6"}, words.T("F6, Shift+F6"), words.T("Next or previous part of the window: Table, Size strip, panels, steps, Shelf, tools")},
		{[]string{"KeyF10"}, "F10", words.T("The menu with Open, Save and the rest; the arrows go through it, Enter chooses")},
		{[]string{"KeyMenu"}, words.T("Shift+F10, Menu"), words.T("What can be done to what is in hand, as a right click shows it")},
		{[]string{"KeyPageUp", "KeyPageDown"}, words.T("Page Up, Page Down"), words.T("The piece before, the next piece")},
		{[]string{"KeyHome", "KeyEnd"}, words.T("Home, End"), words.T("To the beginning or the end of a list of files, or of what a window says")},
		{[]string{"KeyReturn", "KeyEnter"}, words.C("key", "Enter"), words.T("With Measure, measure from the handle in hand to the one Tab goes to; with Point, add one in the middle of the edge in hand; with Checks open, show the next place to look at; else press the button or answer the question")},
		{[]string{"KeySpace"}, words.T("Space"), words.T("Held, slide the Table; on a button, press it")},
		{[]string{",", ".", "<", ">"}, words.T(", and ."), words.T("One size down or up; with Shift half a size")},
		{[]string{"m", "s", "r", "p"}, "M S R P", words.T("Move, slide, measure, add a point")},
		{[]string{"n", "i", "c", "u"}, "N I C U", words.T("Nest, seam line, close-up, ruler")},
		{[]string{"l"}, "L", words.T("Lock or free the point in hand")},
		{[]string{"k"}, "K", words.T("Link the edge in hand to the next edge clicked; with Shift, add one to a side")},
		{[]string{"j"}, "J", words.T("At True, lay the pieces of the seam together, or apart")},
		{[]string{"KeyDelete"}, words.C("key", "Delete"), words.T("Take out the grade point, cut line or lengthen line in hand")},
		{[]string{"+", "=", "-", "0", "9"}, "+ - 0 9", words.T("Zoom, fit, true size")},
		{[]string{"1", "6"}, words.T("1 to 6"), words.T("Bring in, Sizes, Grade, True, Length, Print")},
		{[]string{"e", "w", "h"}, "E W H", words.T("Increments, Wearer, Checks")},
		{[]string{"KeyF1"}, "F1", words.T("This help")},
		{[]string{"KeyF2"}, "F2", words.T("Rename the piece")},
		{[]string{"Ctrl+Z", "Ctrl+Shift+Z", "Ctrl+Y"}, words.T("Ctrl+Z, Ctrl+Shift+Z"), words.T("Undo, redo")},
		{[]string{"Ctrl+S", "Ctrl+O", "Ctrl+N"}, words.T("Ctrl+S, Ctrl+O, Ctrl+N"), words.T("Save, open, begin a new pattern")},
		{[]string{"Ctrl+Shift+S", "Ctrl+Q"}, words.T("Ctrl+Shift+S, Ctrl+Q"), words.T("Save under another name, close")},
		{[]string{"Ctrl+P", "Ctrl+Shift+P"}, words.T("Ctrl+P, Ctrl+Shift+P"), words.T("Save a PDF, print")},
		{[]string{"Ctrl+Shift+C"}, words.T("Ctrl+Shift+C"), words.T("Copy what the Table shows as text: pieces, size, figures, checks")},
		{[]string{"KeyEscape"}, words.C("key", "Esc"), words.T("Let go without changing anything; close a question")},
	}
	return append(append(rows, photoKeys(arrows)...), rulerKeys(arrows)...)
}

// photoKeys are what keys do on a photo or scan.
func photoKeys(arrows []string) []keyRow {
	// words: none
	return []keyRow{
		{[]string{"t"}, "T", words.T("On a photo, trace")},
		{arrows, words.T("Arrows, on a photo"), words.T("Move the cross-hair, with Shift ten times as far, or the traced point that was picked")},
		{[]string{"KeyReturn", "KeyEnter"}, words.T("Enter, on a photo"), words.T("Click where the cross-hair is. While a size is proposed, confirm the corner that is asked for, or take the whole size when none is left")},
		{nil, words.T("Shift or Ctrl, held"), words.T("While tracing, a click with Shift sets a point on the way, one with Ctrl makes the edge straight")},
		{[]string{"KeyTab"}, words.T("Tab, on a photo"), words.T("To the next or previous place that was clicked or traced")},
		{[]string{"KeyBackspace"}, words.T("Backspace"), words.T("On a photo, take the last click or point back; elsewhere as Delete")},
		{[]string{"KeyDelete"}, words.T("Delete, on a photo"), words.T("Take out the traced point that was picked")},
		{[]string{"KeyEscape"}, words.T("Esc, on a photo"), words.T("Let go of the edge that follows the pointer, and of what is proposed")},
	}
}

// rulerKeys are what keys do to the see-through ruler.
func rulerKeys(arrows []string) []keyRow {
	// words: none
	return []keyRow{
		{[]string{"u"}, words.T("U, the ruler"), words.T("Lay the see-through ruler on the Table, for the arrows to move, or put it away")},
		{arrows, words.T("Arrows, with the ruler"), words.T("Slide it by 1/16 in or 1 mm; Shift 1/4 in or 5 mm. Ctrl turns it by 1 degree, with Shift by 15; what it reads is in the status bar")},
		{[]string{"KeyEscape", "KeyTab"}, words.T("Esc, Tab, with the ruler"), words.T("Give the arrows back to what is in hand")},
	}
}
