package panel

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// HelpView is the content of the help window.
type HelpView struct {
	Steps    []TermView // of the work, in order
	Words    []TermView // what sewing words mean here
	Keys     []TermView // ", and .": "one size down or up"
	Cautions []string
	// Unpack has a PNG unpacked to a size beside the window, and then shown. Nil for none.
	Unpack func(png []byte, size fyne.Size, show func(image.Image))
}

// TermView is a word, a key or a step with what is said of it.
type TermView struct {
	Term, Means string
	Picture     []byte // a PNG shown under it; may be none
}

// helpTerms is how wide the terms' column is, px at text scale 1.
const helpTerms = 170

// NewHelp makes the content of the help window, and what scrolls in it.
func NewHelp(v HelpView) (fyne.CanvasObject, *container.Scroll) {
	const width, terms = 730, helpTerms
	box := below(7)
	section := func(title string, list []TermView) {
		if len(box.Objects) > 0 {
			box.Add(rule())
		}
		box.Add(newBold(title, theme.SubHead, ink))
		for _, t := range list {
			box.Add(container.NewBorder(
				nil, nil, sized(theme.Px(terms), 0, newWrapped(t.Term, theme.Body, accentInk, terms-12)), nil,
				newWrapped(t.Means, theme.Body, ink, width-terms-12),
			))
			if len(t.Picture) > 0 && v.Unpack != nil {
				box.Add(v.stepPicture(t.Picture))
			}
		}
	}
	section(words.T("The work, step by step"), v.Steps)
	section(words.T("Before you cut"), nil)
	for _, c := range v.Cautions {
		n := newNote(width)
		n.set(c, true)
		box.Add(n)
	}
	section(words.T("Words"), v.Words)
	section(words.T("Keys"), v.Keys)
	scroll := container.NewVScroll(inset(4, 4, 4, 20, box))
	return sized(width+24, 440, scroll), scroll
}

// stepPicture is a picture of the window, the words' width. It shows once it is
// unpacked; until then its place is kept.
func (v HelpView) stepPicture(png []byte) fyne.CanvasObject {
	size := fyne.NewSize(544, 340)
	p := canvas.NewImageFromImage(nil)
	p.FillMode, p.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	p.SetMinSize(size)
	v.Unpack(png, size, func(unpacked image.Image) {
		p.Image = unpacked
		p.Refresh()
	})
	return container.NewHBox(sized(theme.Px(helpTerms), 0, newWords("", theme.Body, ink)), p)
}
