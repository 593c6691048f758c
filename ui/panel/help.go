package panel

import (
	"image"
	"slices"

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
	// Later does work in a frame to come. Nil does it at once.
	Later func(work func())
}

// TermView is a word, a key or a step with what is said of it.
type TermView struct {
	Term, Means string
	Picture     []byte // a PNG shown under it; may be none
}

// How wide the help and its terms' column are, px at text scale 1.
const (
	helpWidth = 730
	helpTerms = 170
)

// helpAtOnce is how many terms are laid out in a frame.
const helpAtOnce = 8

// NewHelp makes the content of the help window, and what scrolls in it: above it are
// links to its sections. What does not show at first comes in the frames that follow.
func NewHelp(v HelpView) (fyne.CanvasObject, *container.Scroll) {
	box := below(7)
	scroll := container.NewVScroll(inset(4, 4, 4, 20, box))
	var parts []func()
	var jumps []fyne.CanvasObject
	section := func(title string, list []TermView) {
		head := newBold(title, theme.SubHead, ink)
		jumps = append(jumps, newLink(title, func() {
			scroll.ScrollToOffset(fyne.NewPos(0, box.Position().Y+head.Position().Y))
		}))
		parts = append(parts, func() {
			if len(box.Objects) > 0 {
				box.Add(rule())
			}
			box.Add(head)
		})
		for some := range slices.Chunk(list, helpAtOnce) {
			parts = append(parts, func() { v.addTerms(box, some) })
		}
	}
	section(words.T("The work, step by step"), v.Steps)
	section(words.T("Before you cut"), nil)
	parts = append(parts, func() {
		for _, c := range v.Cautions {
			n := newNote(helpWidth)
			n.set(c, true)
			box.Add(n)
		}
	})
	section(words.T("Words"), v.Words)
	section(words.T("Keys"), v.Keys)
	v.addParts(scroll, parts)
	contents := inset(0, 6, 0, 0, beside(4, noneGrows, jumps...))
	return container.NewBorder(contents, nil, nil, nil, sized(helpWidth+24, 440, scroll)), scroll
}

// addParts adds the first two parts, which are all that is in sight, and then one a
// frame.
func (v HelpView) addParts(scroll *container.Scroll, parts []func()) {
	if v.Later == nil {
		for _, add := range parts {
			add()
		}
		return
	}
	parts[0]()
	parts[1]()
	parts = parts[2:]
	var next func()
	next = func() {
		if len(parts) == 0 {
			return
		}
		parts[0]()
		parts = parts[1:]
		scroll.Refresh()
		v.Later(next)
	}
	v.Later(next)
}

func (v HelpView) addTerms(box *fyne.Container, list []TermView) {
	for _, t := range list {
		box.Add(container.NewBorder(
			nil, nil, sized(theme.Px(helpTerms), 0, newWrapped(t.Term, theme.Body, accentInk, helpTerms-12)), nil,
			newWrapped(t.Means, theme.Body, ink, helpWidth-helpTerms-12),
		))
		if len(t.Picture) > 0 && v.Unpack != nil {
			box.Add(v.stepPicture(t.Picture))
		}
	}
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
