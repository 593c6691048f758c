package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ScaleView is what was measured on a printer's test page and what it means.
type ScaleView struct {
	Square       string // what is drawn in the picture: "5 cm"
	Ask          string // "Measure the printed square, type what you read."
	Across, Down string // as typed
	Unit         string
	Say          string // what the figures mean; may be empty
	Look         bool   // Say asks to be looked at
	Insist       bool   // the figures may be gone by all the same
	Forget       bool   // a correction is in force and can be dropped
}

// scaleCheck is where the sewist types what she measured.
type scaleCheck struct {
	box            *fyne.Container
	ask            *saying
	square         *squareToMeasure
	across, down   *field
	say            *note
	test           *button
	insist, forget *link
}

const measuredField = 146 // px

func newScaleCheck(test func(), across, down func(string) error, insist, forget func()) *scaleCheck {
	s := &scaleCheck{
		ask:    newWrapped("", theme.Caption, inkSoft, sideContent),
		square: newSquareToMeasure(),
		across: newField("mm", across),
		down:   newField("mm", down),
		say:    newNote(sideContent),
		test:   newButton(words.T("Test page"), test),
		insist: newLink(words.T("Go by these figures all the same"), insist),
		forget: newLink(words.T("Forget the correction"), forget),
	}
	s.test.sign = theme.Printer
	hint := func(why string) {
		s.say.set(why, true)
		relay(s.box)
	}
	s.across.onHint, s.down.onHint = hint, hint
	row := func(word string, f *field) fyne.CanvasObject {
		return container.NewBorder(nil, nil, container.NewCenter(newWords(word, theme.Body, ink)), roomy(measuredField, 0, f))
	}
	s.box = below(
		6,
		container.NewBorder(nil, nil, container.NewCenter(newBold(words.T("Scale check"), theme.Body, ink)), s.test),
		s.ask,
		container.NewBorder(nil, nil, s.square, nil, inset(0, 0, 12, 0, below(8, row(words.C("on paper", "Across"), s.across), row(words.C("on paper", "Down"), s.down)))),
		s.say,
		beside(8, noneGrows, s.insist, s.forget),
	)
	return s
}

func (s *scaleCheck) set(v ScaleView) {
	s.ask.setText(v.Ask)
	s.square.setWord(v.Square)
	s.across.set(v.Across)
	s.down.set(v.Down)
	s.across.setUnit(v.Unit)
	s.down.setUnit(v.Unit)
	s.say.set(v.Say, v.Look)
	s.insist.Hidden, s.forget.Hidden = !v.Insist, !v.Forget
	relay(s.box)
}

// squareToMeasure is a picture of what to measure: a square with its two ways
// marked beside it.
type squareToMeasure struct {
	widget.BaseWidget
	word string
}

func newSquareToMeasure() *squareToMeasure {
	s := &squareToMeasure{}
	s.ExtendBaseWidget(s)
	return s
}

func (s *squareToMeasure) setWord(word string) {
	if s.word != word {
		s.word = word
		s.Refresh()
	}
}

const (
	squareSide = 58
	squareGap  = 9 // to the marks beside it
	markEnd    = 8
)

// CreateRenderer is Fyne's.
func (s *squareToMeasure) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(nil)
	word := newWords(s.word, theme.Caption, ink)
	var marks []*canvas.Line // one way and its two ends, then the other
	objects := []fyne.CanvasObject{box, word}
	for range 6 {
		l := canvas.NewLine(nil)
		marks = append(marks, l)
		objects = append(objects, l)
	}
	d := &drawn{objects: objects}
	d.paint = func(p theme.Palette) {
		box.FillColor, box.StrokeColor, box.StrokeWidth = p.Field, p.Ink, 2
		for _, l := range marks {
			l.StrokeColor, l.StrokeWidth = p.Accent, 2
		}
		word.setText(s.word)
	}
	wide := func() float32 { return max(theme.Px(squareSide), word.MinSize().Width+12) }
	d.min = func() fyne.Size {
		side := theme.Px(squareSide + squareGap + markEnd)
		return fyne.NewSize(side+wide()-theme.Px(squareSide), side)
	}
	d.lay = func(fyne.Size) {
		side, across, gap, end := theme.Px(squareSide), wide(), theme.Px(squareGap+markEnd/2), theme.Px(markEnd)/2
		place(box, 0, 0, across, side)
		m := word.MinSize()
		place(word, (across-m.Width)/2, (side-m.Height)/2, m.Width, m.Height)
		line := func(l *canvas.Line, x0, y0, x1, y1 float32) {
			l.Position1, l.Position2 = fyne.NewPos(x0, y0), fyne.NewPos(x1, y1)
		}
		foot, right := side+gap, across+gap
		line(marks[0], 0, foot, across, foot)
		line(marks[1], 0, foot-end, 0, foot+end)
		line(marks[2], across, foot-end, across, foot+end)
		line(marks[3], right, 0, right, side)
		line(marks[4], right-end, 0, right+end, 0)
		line(marks[5], right-end, side, right+end, side)
	}
	return d.ready()
}
