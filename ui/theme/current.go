package theme

import "fyne.io/fyne/v2"

// Sizes of text in pixels at text scale 1.
const (
	Mark      = 12 // ruler figures, small marks
	Caption   = 13
	Body      = 14
	SubHead   = 16
	KeyFigure = 20
)

// BarIcon is the side of the drawings in bars and on buttons, in pixels.
const BarIcon = 18

// Radii in pixels.
const (
	ControlRadius = 6
	PanelRadius   = 8
	ThumbRadius   = 4
)

// Now gives the colours in use. Before the window has a theme of ours they are
// the light ones.
func Now() Palette {
	if t := current(); t != nil && t.dark {
		return Dark
	}
	return Light
}

// Px scales a length that must hold text, in pixels, by the text scale in use.
func Px(length float32) float32 {
	if t := current(); t != nil {
		return length * t.scale
	}
	return length
}

func current() *Theme {
	app := fyne.CurrentApp()
	if app == nil {
		return nil
	}
	t, _ := app.Settings().Theme().(*Theme)
	return t
}
