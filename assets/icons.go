package assets

import "embed"

// Icons holds the drawings of buttons and states, icons/NAME.svg, 24 units
// square. Three colours stand for others: #010101 for the ink, #020202 for the
// stroke on top of it, #030303 for an outline round it. icons/app.svg keeps its own colours.
//
//go:embed icons/*.svg
var Icons embed.FS
