package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ShelfNarrow is the Shelf's width folded to thumbnails.
const ShelfNarrow = 76

// ShelfView is the pieces of the pattern, in their order.
type ShelfView struct {
	Cards   []CardView
	Chosen  int    // -1 for none
	BringIn string // what to do when there are no pieces
}

// Shelf lists the pieces of the pattern on the left of the window.
type Shelf struct {
	widget.BaseWidget
	OnPick    func(i int)
	OnMenu    func(i int, place fyne.Position) // a right click, at a place of the window's canvas
	OnBringIn func()
	OnHint    func(string)

	title, count *saying
	empty        *saying
	add          *iconButton
	cards        []*card
	list         *fyne.Container
	scroll       *container.Scroll
	narrow       bool
}

// NewShelf makes an empty Shelf.
func NewShelf() *Shelf {
	s := &Shelf{
		title: newBold(words.T("Shelf"), theme.Body, ink),
		count: newWords("", theme.Caption, inkSoft),
		empty: newWrapped("", theme.Caption, inkSoft, ShelfWidth-32),
		list:  below(4),
	}
	s.add = newIconButton(theme.Plus, words.T("Bring in pieces"), func() { call(s.OnBringIn) })
	s.add.onHint = func(h string) { call1(s.OnHint, h) }
	s.scroll = container.NewVScroll(inset(0, 0, 0, 8, s.list))
	s.ExtendBaseWidget(s)
	s.SetView(ShelfView{Chosen: -1})
	return s
}

// SetView shows a view.
func (s *Shelf) SetView(v ShelfView) {
	s.count.setText(pieces(len(v.Cards)))
	for len(s.cards) < len(v.Cards) {
		i := len(s.cards)
		c := newCard(func() { call1(s.OnPick, i) })
		c.menu = func(place fyne.Position) { call2(s.OnMenu, i, place) }
		s.cards = append(s.cards, c)
	}
	was, high := len(s.list.Objects), s.list.MinSize().Height
	s.list.Objects = s.list.Objects[:0]
	for i, cv := range v.Cards {
		s.cards[i].narrow = s.narrow
		s.cards[i].set(cv, i == v.Chosen)
		s.list.Objects = append(s.list.Objects, s.cards[i])
	}
	s.empty.setText(v.BringIn)
	empty := len(v.Cards) == 0 && !s.narrow
	if empty == s.empty.Hidden || was != len(v.Cards) || s.list.MinSize().Height != high {
		s.empty.Hidden = !empty
		s.Refresh()
	}
}

func pieces(n int) string {
	return words.N(n, "%d piece", "%d pieces", n)
}

// SetNarrow folds the Shelf to thumbnails, or unfolds it.
func (s *Shelf) SetNarrow(narrow bool) {
	if s.narrow == narrow {
		return
	}
	s.narrow = narrow
	for _, c := range s.cards {
		c.narrow = narrow
		c.Refresh()
	}
	s.empty.Hidden = narrow || len(s.list.Objects) > 0
	s.Refresh()
}

func (s *Shelf) scrolled() *container.Scroll { return s.scroll }

// Width is the width the Shelf wants now.
func (s *Shelf) Width() float32 {
	if s.narrow {
		return ShelfNarrow
	}
	return theme.Px(ShelfWidth)
}

// CreateRenderer is Fyne's.
func (s *Shelf) CreateRenderer() fyne.WidgetRenderer {
	back := newFill(windowFill)
	d := &drawn{objects: []fyne.CanvasObject{back, s.title, s.count, s.add, s.empty, s.scroll}}
	d.paint = func(theme.Palette) { s.title.Hidden, s.count.Hidden = s.narrow, s.narrow }
	d.min = func() fyne.Size { return fyne.NewSize(s.Width(), 200) }
	d.lay = func(size fyne.Size) {
		place(back, 0, 0, size.Width, size.Height)
		const head = 48
		w := s.title.MinSize().Width
		middle(s.title, 14, w, head)
		middle(s.count, 14+w+8, s.count.MinSize().Width, head)
		x := size.Width - 8 - s.add.MinSize().Width
		if s.narrow {
			x = (size.Width - s.add.MinSize().Width) / 2
		}
		middle(s.add, x, s.add.MinSize().Width, head)
		place(s.empty, 16, head+8, size.Width-32, 80)
		place(s.scroll, 8, head, size.Width-8, max(size.Height-head, 0))
		relay(s.list)
	}
	return d.ready()
}
