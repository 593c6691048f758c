package theme

import (
	"bytes"
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"

	"quarterstep/assets"
)

// Name says which drawing an icon shows.
type Name string

// The icons, each a file of that name in assets/icons.
const (
	Undo     Name = "undo"
	Redo     Name = "redo"
	Moon     Name = "moon"
	Sun      Name = "sun"
	Help     Name = "help"
	Plus     Name = "plus"
	Minus    Name = "minus"
	Fit      Name = "fit"
	TrueSize Name = "truesize"
	Pointer  Name = "pointer"
	Slide    Name = "slide"
	Measure  Name = "measure"
	AddPoint Name = "addpoint"
	Printer  Name = "printer"
	Ring     Name = "ring"
	Half     Name = "half"
	Full     Name = "full"
	Look     Name = "look"
	Tick     Name = "tick"
	Link     Name = "link"
	Left     Name = "left"
	Right    Name = "right"
	Opened   Name = "opened"
	Folded   Name = "folded"
	Up       Name = "up"
	Back     Name = "back"
	BringIn  Name = "bring"
	App      Name = "app"
	Folder   Name = "folder"
	Drive    Name = "drive"
	Caret    Name = "caret"
	LeftOut  Name = "leftout" // a page, 60 by 70

	Trace       Name = "trace"
	Turn        Name = "turn"
	Camera      Name = "camera"
	Grain       Name = "grain"
	Lengthen    Name = "lengthen"
	Notch       Name = "notch"
	DoubleNotch Name = "doublenotch"
	Dart        Name = "dart"
	BustLine    Name = "bustline"
	WaistLine   Name = "waistline"
	HipLine     Name = "hipline"
)

// Names lists every icon.
func Names() []Name {
	return []Name{
		Undo, Redo, Moon, Sun, Help, Plus, Minus, Fit, TrueSize, Pointer, Slide, Measure, AddPoint,
		Printer, Ring, Half, Full, Look, Tick, Link, Left, Right, Opened, Folded, Up, Back, BringIn, App, Folder, Drive, Caret, LeftOut,
		Trace, Turn, Camera, Grain, Lengthen, Notch, DoubleNotch, Dart, BustLine, WaistLine, HipLine,
	}
}

// LookIcon gives the amber mark, which has three colours of its own.
func LookIcon(p Palette) fyne.Resource { return draw(Look, p.AmberFill, p.OnAmber, p.AmberLine) }

// Icon gives the drawing with its ink, and the stroke on top of the ink, in the
// colours asked for. A name that is not of the list gives an empty drawing.
func Icon(name Name, ink, onInk color.NRGBA) fyne.Resource { return draw(name, ink, onInk, ink) }

func draw(name Name, ink, onInk, outline color.NRGBA) fyne.Resource {
	svg, err := assets.Icons.ReadFile("icons/" + string(name) + ".svg")
	if err != nil {
		// words: none
		svg = []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24"></svg>`)
	}
	svg = bytes.ReplaceAll(svg, []byte("#010101"), []byte(hex(ink)))
	svg = bytes.ReplaceAll(svg, []byte("#020202"), []byte(hex(onInk)))
	svg = bytes.ReplaceAll(svg, []byte("#030303"), []byte(hex(outline)))
	// Fyne keeps drawn icons by name: one name for each set of colours.
	return fyne.NewStaticResource(fmt.Sprintf("%s%s%s%s.svg", name, hex(ink)[1:], hex(onInk)[1:], hex(outline)[1:]), svg)
}

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
