package panel

import (
	"image/color"

	"quarterstep/ui/theme"
)

// tone picks a colour from the palette in use.
type tone func(theme.Palette) color.NRGBA

func ink(p theme.Palette) color.NRGBA          { return p.Ink }
func inkSoft(p theme.Palette) color.NRGBA      { return p.InkSoft }
func inkFaint(p theme.Palette) color.NRGBA     { return p.InkFaint }
func accent(p theme.Palette) color.NRGBA       { return p.Accent }
func accentTint(p theme.Palette) color.NRGBA   { return p.AccentTint }
func accentInk(p theme.Palette) color.NRGBA    { return p.AccentInk }
func onAccent(p theme.Palette) color.NRGBA     { return p.OnAccent }
func edge(p theme.Palette) color.NRGBA         { return p.Edge }
func amberInk(p theme.Palette) color.NRGBA     { return p.AmberInk }
func onLoss(p theme.Palette) color.NRGBA       { return p.OnLoss }
func windowFill(p theme.Palette) color.NRGBA   { return p.Window }
func fieldFill(p theme.Palette) color.NRGBA    { return p.Field }
func railFill(p theme.Palette) color.NRGBA     { return p.Rail }
func raisedFill(p theme.Palette) color.NRGBA   { return p.Raised }
func separatorInk(p theme.Palette) color.NRGBA { return p.Separator }
func amberFill(p theme.Palette) color.NRGBA    { return p.AmberTint }
func lossFill(p theme.Palette) color.NRGBA     { return p.Loss }
func clear(p theme.Palette) color.NRGBA        { return theme.Faded(p.Ink, 0) }
func tileFill(p theme.Palette) color.NRGBA     { return p.Tile }
func gridMajor(p theme.Palette) color.NRGBA    { return p.GridMajor }

// faded is for drawings and words that are switched off.
func faded(p theme.Palette) color.NRGBA { return theme.Faded(p.InkFaint, 0.55) }
