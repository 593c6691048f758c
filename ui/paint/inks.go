package paint

import (
	"image/color"

	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

// colourOf is the colour of a scene's ink in palette p.
func colourOf(p palette.Palette, k scene.Ink) color.NRGBA {
	if i, n, ok := k.Nest(); ok {
		return p.Nest(i, n)
	}
	named := [...]color.NRGBA{
		scene.InkWords:       p.Ink,
		scene.InkSoft:        p.InkSoft,
		scene.InkFaint:       p.InkFaint,
		scene.InkTable:       p.Table,
		scene.InkGrid:        p.Grid,
		scene.InkGridMajor:   p.GridMajor,
		scene.InkRuler:       p.Ruler,
		scene.InkSheet:       p.Field,
		scene.InkEdge:        p.Edge,
		scene.InkAccent:      p.Accent,
		scene.InkAccentWords: p.AccentInk,
		scene.InkAccentTint:  p.AccentTint,
		scene.InkOnAccent:    p.OnAccent,
		scene.InkRaised:      p.Raised,
		scene.InkLookFill:    p.AmberFill,
		scene.InkLookLine:    p.AmberLine,
		scene.InkOnLook:      p.OnAmber,
	}
	return named[k]
}
