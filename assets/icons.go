package assets

import "embed"

// Icons holds the drawings of buttons and states, icons/NAME.svg, 24 units
// square. Two colours stand for others: #010101 for the ink and #020202 for
// the stroke on top of it. icons/app.svg keeps its own colours.
//
//go:embed icons/*.svg
var Icons embed.FS
