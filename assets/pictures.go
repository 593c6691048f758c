package assets

import "embed"

// Pictures holds what the window looks like at each step, pictures/NAME.png and
// in German pictures/de/NAME.png, made by make pictures.
//
//go:embed pictures/*.png pictures/de/*.png
var Pictures embed.FS
