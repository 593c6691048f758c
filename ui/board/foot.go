package board

// SetFoot says how many px at the bottom of the board are covered by something
// else; Fit shows everything above it.
func (b *Board) SetFoot(px float64) {
	if px == b.foot {
		return
	}
	b.foot = px
	b.parts.lens.update()
	if b.fitted {
		b.Fit()
	}
}

// openSize is the part of the paper's area that nothing covers, in px.
func (b *Board) openSize() (w, h float64) {
	w, h = b.paperSize()
	return w, max(h-b.foot, 1)
}
