package ui

// rulerKey shows the see-through ruler, for the arrow keys to move, or puts it
// away.
func (w *Window) rulerKey() {
	w.table.SetRuler(!w.table.Ruler())
	if w.table.Ruler() {
		w.table.TakeRuler()
	}
	w.refresh()
}
