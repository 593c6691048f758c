package board

import "quarterstep/ui/view"

// SetCover says how many px at the head and at the foot of the board are
// covered by something else; Fit shows everything between.
func (b *Board) SetCover(head, foot float64) {
	if head == b.head && foot == b.foot {
		return
	}
	b.head, b.foot = head, foot
	b.parts.lens.update()
	if b.fitted {
		b.Fit()
	}
}

// SetFootWide says how far from the left what covers the foot reaches, in px; 0
// is over all of it. Beside it the close-up stands lower.
func (b *Board) SetFootWide(wide float64) {
	if wide != b.footWide {
		b.footWide = wide
		b.parts.lens.update()
	}
}

// openSize is the part of the paper's area that nothing covers, in px.
func (b *Board) openSize() (w, h float64) {
	w, h = b.paperSize()
	return w, max(h-b.head-b.foot, 1)
}

// belowHead is v, made for the open part of the paper's area, moved to where
// that lies.
func (b *Board) belowHead(v view.View) view.View { return v.Slide(view.Px{Y: b.head}) }
