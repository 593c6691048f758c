package theme

import "quarterstep/ui/theme/palette"

// Palette is one colour for each use; see the package palette, which packages
// without a window import directly.
type Palette = palette.Palette

// Light and Dark are the two sets of colours.
var (
	Light = palette.Light
	Dark  = palette.Dark
)
