package palette

import "image/color"

// Palette is one colour for each use. Two ratios hold in both sets: text on its
// ground at least 4.5, lines and outlines at least 3 (contrast of WCAG 2).
type Palette struct {
	Window      color.NRGBA // ground of the window
	Panel       color.NRGBA // ground of a folded panel
	Raised      color.NRGBA // ground of an open panel, menus, dialogs
	Field       color.NRGBA // ground of a field to type in
	Rail        color.NRGBA // guide rail and status bar
	Button      color.NRGBA // a button at rest
	ButtonHover color.NRGBA // a button under the pointer
	Separator   color.NRGBA // thin dividing lines
	Edge        color.NRGBA // outline of a field
	Ink         color.NRGBA // text
	InkSoft     color.NRGBA // second text
	InkFaint    color.NRGBA // hints, things switched off
	Table       color.NRGBA // the Table
	Grid        color.NRGBA // fine lines on the Table
	GridMajor   color.NRGBA // every whole unit on the Table
	Ruler       color.NRGBA // rulers of the Table
	Tile        color.NRGBA // ground of a thumbnail
	Accent      color.NRGBA // the computed line, what is in hand
	AccentHover color.NRGBA // accent under the pointer
	AccentPress color.NRGBA // accent pressed
	OnAccent    color.NRGBA // text on accent
	AccentTint  color.NRGBA // ground of a chosen row
	AccentInk   color.NRGBA // text in the accent colour
	Nest1       color.NRGBA // first printed size
	Nest2       color.NRGBA // second printed size
	Nest3       color.NRGBA // third printed size
	Nest4       color.NRGBA // fourth printed size
	AmberFill   color.NRGBA // look at this: marks
	OnAmber     color.NRGBA // strokes on a mark
	AmberLine   color.NRGBA // look at this: lines
	AmberTint   color.NRGBA // look at this: ground
	AmberInk    color.NRGBA // look at this: text
	Loss        color.NRGBA // work would be lost
	OnLoss      color.NRGBA // text on loss
	Good        color.NRGBA // a finished state
}

// Light is the set for a bright room.
var Light = Palette{
	Window:      color.NRGBA{0xF1, 0xEE, 0xE7, 0xff},
	Panel:       color.NRGBA{0xF1, 0xEE, 0xE7, 0xff},
	Raised:      color.NRGBA{0xFA, 0xF8, 0xF3, 0xff},
	Field:       color.NRGBA{0xFF, 0xFF, 0xFF, 0xff},
	Rail:        color.NRGBA{0xE7, 0xE2, 0xD8, 0xff},
	Button:      color.NRGBA{0xE0, 0xDA, 0xCD, 0xff},
	ButtonHover: color.NRGBA{0xD5, 0xCE, 0xBF, 0xff},
	Separator:   color.NRGBA{0xD8, 0xD1, 0xC3, 0xff},
	Edge:        color.NRGBA{0x85, 0x7D, 0x6E, 0xff},
	Ink:         color.NRGBA{0x25, 0x22, 0x1D, 0xff},
	InkSoft:     color.NRGBA{0x57, 0x51, 0x46, 0xff},
	InkFaint:    color.NRGBA{0x6C, 0x65, 0x57, 0xff},
	Table:       color.NRGBA{0xFC, 0xF6, 0xE6, 0xff},
	Grid:        color.NRGBA{0xF3, 0xEA, 0xD3, 0xff},
	GridMajor:   color.NRGBA{0xE8, 0xDC, 0xBF, 0xff},
	Ruler:       color.NRGBA{0xF1, 0xE7, 0xCF, 0xff},
	Tile:        color.NRGBA{0xFC, 0xF6, 0xE6, 0xff},
	Accent:      color.NRGBA{0x3B, 0x2F, 0xC0, 0xff},
	AccentHover: color.NRGBA{0x30, 0x27, 0xA0, 0xff},
	AccentPress: color.NRGBA{0x26, 0x1E, 0x84, 0xff},
	OnAccent:    color.NRGBA{0xFF, 0xFF, 0xFF, 0xff},
	AccentTint:  color.NRGBA{0xE4, 0xE1, 0xF7, 0xff},
	AccentInk:   color.NRGBA{0x31, 0x27, 0xA6, 0xff},
	Nest1:       color.NRGBA{0x64, 0x87, 0x6A, 0xff},
	Nest2:       color.NRGBA{0x48, 0x74, 0x50, 0xff},
	Nest3:       color.NRGBA{0x30, 0x60, 0x3E, 0xff},
	Nest4:       color.NRGBA{0x12, 0x41, 0x26, 0xff},
	AmberFill:   color.NRGBA{0xF2, 0xB3, 0x3D, 0xff},
	OnAmber:     color.NRGBA{0x25, 0x22, 0x1D, 0xff},
	AmberLine:   color.NRGBA{0xB0, 0x6A, 0x00, 0xff},
	AmberTint:   color.NRGBA{0xFC, 0xEB, 0xC4, 0xff},
	AmberInk:    color.NRGBA{0x74, 0x46, 0x00, 0xff},
	Loss:        color.NRGBA{0xA3, 0x24, 0x2B, 0xff},
	OnLoss:      color.NRGBA{0xFF, 0xFF, 0xFF, 0xff},
	Good:        color.NRGBA{0x25, 0x22, 0x1D, 0xff},
}

// Dark is the set for a dim room.
var Dark = Palette{
	Window:      color.NRGBA{0x22, 0x21, 0x1E, 0xff},
	Panel:       color.NRGBA{0x22, 0x21, 0x1E, 0xff},
	Raised:      color.NRGBA{0x2B, 0x2A, 0x26, 0xff},
	Field:       color.NRGBA{0x19, 0x18, 0x15, 0xff},
	Rail:        color.NRGBA{0x1B, 0x1A, 0x17, 0xff},
	Button:      color.NRGBA{0x3A, 0x38, 0x32, 0xff},
	ButtonHover: color.NRGBA{0x46, 0x43, 0x3C, 0xff},
	Separator:   color.NRGBA{0x3B, 0x39, 0x33, 0xff},
	Edge:        color.NRGBA{0x8E, 0x87, 0x78, 0xff},
	Ink:         color.NRGBA{0xEF, 0xEB, 0xE2, 0xff},
	InkSoft:     color.NRGBA{0xBD, 0xB6, 0xA8, 0xff},
	InkFaint:    color.NRGBA{0xA3, 0x9C, 0x8E, 0xff},
	Table:       color.NRGBA{0x2B, 0x27, 0x1E, 0xff},
	Grid:        color.NRGBA{0x33, 0x2F, 0x24, 0xff},
	GridMajor:   color.NRGBA{0x40, 0x3A, 0x2B, 0xff},
	Ruler:       color.NRGBA{0x24, 0x21, 0x1A, 0xff},
	Tile:        color.NRGBA{0x2B, 0x27, 0x1E, 0xff},
	Accent:      color.NRGBA{0xA8, 0xA0, 0xFF, 0xff},
	AccentHover: color.NRGBA{0xBB, 0xB5, 0xFF, 0xff},
	AccentPress: color.NRGBA{0x95, 0x8C, 0xF2, 0xff},
	OnAccent:    color.NRGBA{0x16, 0x12, 0x3C, 0xff},
	AccentTint:  color.NRGBA{0x37, 0x33, 0x5A, 0xff},
	AccentInk:   color.NRGBA{0xC3, 0xBD, 0xFF, 0xff},
	Nest1:       color.NRGBA{0x7A, 0x9D, 0x80, 0xff},
	Nest2:       color.NRGBA{0x90, 0xB4, 0x95, 0xff},
	Nest3:       color.NRGBA{0xAB, 0xCD, 0xAF, 0xff},
	Nest4:       color.NRGBA{0xC8, 0xE6, 0xCB, 0xff},
	AmberFill:   color.NRGBA{0xE5, 0xAA, 0x3A, 0xff},
	OnAmber:     color.NRGBA{0x20, 0x1C, 0x12, 0xff},
	AmberLine:   color.NRGBA{0xD9, 0xA0, 0x36, 0xff},
	AmberTint:   color.NRGBA{0x43, 0x37, 0x1B, 0xff},
	AmberInk:    color.NRGBA{0xF2, 0xCB, 0x7C, 0xff},
	Loss:        color.NRGBA{0xF0, 0x8C, 0x8C, 0xff},
	OnLoss:      color.NRGBA{0x2A, 0x0D, 0x0D, 0xff},
	Good:        color.NRGBA{0xEF, 0xEB, 0xE2, 0xff},
}

// Of gives the dark set or the light one.
func Of(dark bool) Palette {
	if dark {
		return Dark
	}
	return Light
}
