package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// A bank card, ISO/IEC 7810 ID-1, in mm: width, height, radius of its corners
// (2.88 to 3.48).
const (
	cardWide  = 85.60
	cardHigh  = 53.98
	cardRound = 3.18
)

// How wide a card's picture may be made, in window pixels: screens have 2 to 6
// of them a millimetre.
const (
	cardLeast = 2 * cardWide
	cardMost  = 6 * cardWide
)

// askScreen has the sewist hold a bank card, or a ruler, to the screen, so that
// true size is true.
func (w *Window) askScreen() {
	if w.dialogOpen {
		return
	}
	px := 340.0
	if w.settings.Screen > 0 {
		px = min(max(w.settings.Screen*cardWide, cardLeast), cardMost)
	}
	card := canvas.NewRectangle(w.palette().AccentTint)
	card.StrokeColor, card.StrokeWidth = w.palette().Accent, 2
	room := container.NewWithoutLayout(card)
	space := canvas.NewRectangle(nil)
	space.SetMinSize(fyne.NewSize(520, 340))
	show := func() {
		wide := float32(px)
		card.CornerRadius = wide * cardRound / cardWide
		card.Resize(fyne.NewSize(wide, wide*cardHigh/cardWide))
	}
	show()
	size := widget.NewSlider(cardLeast, cardMost)
	size.Step = 0.5
	size.SetValue(px)
	size.OnChanged = func(v float64) { px = v; show() }
	length := panel.NewLine()
	length.SetPlaceHolder(words.T("8.6 cm, 3 3/8 in"))
	said := widget.NewLabel(words.T("Hold a bank card to the screen and make the picture as large as the card.\nWithout a card, measure the picture's width and type it."))
	w.form(words.T("True size on this screen"), words.T("That is it"), []*widget.FormItem{
		widget.NewFormItem("", said),
		widget.NewFormItem("", container.NewStack(space, room)),
		widget.NewFormItem(words.T("Size"), size),
		widget.NewFormItem(words.T("Width"), length),
	}, size, func() {
		if length.Text != "" {
			w.setScreen(px, length.Text)
			return
		}
		w.screenIs(px / cardWide)
	})
}

// trueSize shows the paper as large as it is. As long as nobody has said how large
// the screen is, that is asked first: it would be true by chance.
func (w *Window) trueSize() {
	if w.settings.Screen > 0 {
		w.table.TrueSize()
		return
	}
	w.askScreen()
}

// setScreen takes something of px window pixels to be as long as text says.
func (w *Window) setScreen(px float64, text string) {
	const least, most = 20.0, 1000.0 // mm, for any screen there is
	l, err := measure.Parse(text, measure.Centimetres)
	if err != nil || l.MM() < least || l.MM() > most {
		w.say(words.T("Measure the picture and type its width, like 8.6 cm or 3 3/8 in."))
		return
	}
	w.screenIs(px / l.MM())
}

// screenIs takes the screen to have so many window pixels to the millimetre.
func (w *Window) screenIs(perMM float64) {
	w.settings.Screen = perMM
	w.table.SetScreen(perMM)
	w.keepSettings()
	w.table.TrueSize()
}
