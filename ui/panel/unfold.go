package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// unfold is a line that says how a choice stands, with a link that shows the
// choice itself below it.
type unfold struct {
	box     *fyne.Container
	state   *saying
	link    *link
	content fyne.CanvasObject
	grown   func()
}

func newUnfold(title string, content fyne.CanvasObject, grown func()) *unfold {
	u := &unfold{state: newCut("", theme.Body, ink), content: content, grown: grown}
	u.link = newLink(words.T("Choose"), func() { u.open(u.content.Visible()) })
	head := container.NewBorder(nil, nil, container.NewCenter(newWords(title, theme.Caption, inkSoft)), u.link, inset(6, 0, 8, 0, u.state))
	u.box = below(6, head, content)
	content.Hide()
	return u
}

// open folds it where it is open, and the other way about.
func (u *unfold) open(was bool) {
	if was {
		u.content.Hide()
		u.link.setWord(words.T("Choose"))
	} else {
		u.content.Show()
		u.link.setWord(words.C("fold up", "Fold"))
	}
	relay(u.box)
	call(u.grown)
}

func (u *unfold) setState(text string) { u.state.setText(text) }
