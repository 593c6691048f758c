package palette

import "image/color"

// OneTone has all inks black and all grounds white: what is told apart by hue or by
// lightness alone is not told apart in it. With it the tests see that colour is never
// the only means (WCAG 2.2, success criterion 1.4.1 "Use of Color").
func OneTone() Palette {
	black, white := color.NRGBA{A: 0xff}, color.NRGBA{0xff, 0xff, 0xff, 0xff}
	p := Palette{
		Edge: black, Ink: black, InkSoft: black, InkFaint: black, Accent: black, AccentHover: black, AccentPress: black,
		AccentInk: black, Nest1: black, Nest2: black, Nest3: black, Nest4: black, AmberFill: black, AmberLine: black,
		AmberInk: black, Loss: black, Good: black,
	}
	for _, ground := range []*color.NRGBA{
		&p.Window, &p.Panel, &p.Raised, &p.Field, &p.Rail, &p.Button, &p.ButtonHover, &p.Separator, &p.Table, &p.Grid,
		&p.GridMajor, &p.Ruler, &p.Tile, &p.OnAccent, &p.AccentTint, &p.OnAmber, &p.AmberTint, &p.OnLoss,
	} {
		*ground = white
	}
	return p
}
