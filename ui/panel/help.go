package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"quarterstep/ui/theme"
)

// HelpView is the content of the help window.
type HelpView struct {
	Keys     []KeyView
	Cautions []string
}

// KeyView is what some keys do: ", and .", "one size down or up".
type KeyView struct{ Keys, Does string }

// NewHelp makes the content of the help window, scrolled when long.
func NewHelp(v HelpView) fyne.CanvasObject {
	const width, keys = 560, 170
	box := below(7, newBold("Keys", theme.SubHead, ink))
	for _, k := range v.Keys {
		box.Add(beside(12, noneGrows,
			sized(keys, 0, newBold(k.Keys, theme.Body, accentInk)),
			newWrapped(k.Does, theme.Body, ink, width-keys-12)))
	}
	if len(v.Cautions) > 0 {
		box.Add(rule())
		box.Add(newBold("Cautions", theme.SubHead, ink))
	}
	for _, c := range v.Cautions {
		n := newNote(width)
		n.set(c, true)
		box.Add(n)
	}
	return sized(width+24, 440, container.NewVScroll(inset(4, 4, 4, 20, box)))
}
