package assets

import "embed"

// Pictures holds what the window looks like at each step, pictures/NAME.png,
// made by make pictures.
//
//go:embed pictures/*.png
var Pictures embed.FS
