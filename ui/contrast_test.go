package ui

import (
	"fmt"
	"image/color"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

// light reads a window as it is painted, from the ground up, and holds every
// text, every outline and every drawing to what is painted below it. The Table
// paints itself: package palette holds its inks.
type light struct {
	t       *testing.T
	p       theme.Palette
	ground  []patch
	texts   int
	lines   int
	seen    map[string]float64 // ink on ground, and its contrast
	exempt  map[string]bool
	faults  map[string]bool
	opening string
}

// patch is a place painted in a colour; unknown is a picture.
type patch struct {
	from    fyne.Position
	size    fyne.Size
	colour  color.NRGBA
	unknown bool
}

func (p patch) holds(at fyne.Position) bool {
	return at.X >= p.from.X && at.Y >= p.from.Y && at.X < p.from.X+p.size.Width && at.Y < p.from.Y+p.size.Height
}

// cut is p as far as it is within another.
func (p patch) cut(by patch) patch {
	x, y := max(p.from.X, by.from.X), max(p.from.Y, by.from.Y)
	right := min(p.from.X+p.size.Width, by.from.X+by.size.Width)
	foot := min(p.from.Y+p.size.Height, by.from.Y+by.size.Height)
	p.from, p.size = fyne.NewPos(x, y), fyne.NewSize(max(right-x, 0), max(foot-y, 0))
	return p
}

// under is the colour painted at a place so far; false on a picture.
func (l *light) under(at fyne.Position) (color.NRGBA, bool) {
	c, known := l.p.Window, true
	for _, p := range l.ground {
		if !p.holds(at) {
			continue
		}
		if p.unknown {
			known = false
			continue
		}
		c = mixed(p.colour, c)
		known = known || p.colour.A == 0xff
	}
	return c, known
}

// mixed is a colour over another that is opaque.
func mixed(over, under color.NRGBA) color.NRGBA {
	a := float64(over.A) / 255
	mix := func(o, u uint8) uint8 { return uint8(float64(o)*a + float64(u)*(1-a) + 0.5) }
	return color.NRGBA{R: mix(over.R, under.R), G: mix(over.G, under.G), B: mix(over.B, under.B), A: 0xff}
}

// contrast is how far two opaque colours stand apart, 1 to 21, by the terms
// "contrast ratio" and "relative luminance" of WCAG 2.2.
func contrast(a, b color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		if x := float64(v) / 255; x > 0.04045 {
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return float64(v) / 255 / 12.92
	}
	luminance := func(c color.NRGBA) float64 {
		return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func nrgba(c color.Color) color.NRGBA {
	if c == nil {
		return color.NRGBA{}
	}
	n, _ := color.NRGBAModel.Convert(c).(color.NRGBA)
	return n
}

// inkOf reads the ink of one of our icons from the name of its drawing: the
// first of its three colours, and for the amber mark its outline.
var inkOf = regexp.MustCompile(`^([a-z]+)([0-9a-f]{6})[0-9a-f]{6}([0-9a-f]{6})\.svg$`)

func (l *light) read(o fyne.CanvasObject, at fyne.Position, clip patch) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	here := patch{from: at, size: o.Size()}
	middle := at.AddXY(o.Size().Width/2, o.Size().Height/2)
	switch o := o.(type) {
	case *canvas.Text:
		if o.Text != "" && clip.holds(middle) {
			l.texts++
			l.hold(o.Text, nrgba(o.Color), middle, 4.5)
		}
	case *canvas.Rectangle:
		l.outline(nrgba(o.StrokeColor), o.StrokeWidth, here, clip)
		here.colour = nrgba(o.FillColor)
		l.ground = append(l.ground, here.cut(clip))
	case *canvas.Circle:
		l.outline(nrgba(o.StrokeColor), o.StrokeWidth, here, clip)
		here.colour = nrgba(o.FillColor)
		l.ground = append(l.ground, here.cut(clip))
	case *canvas.Image:
		if o.Resource == nil || !clip.holds(middle) {
			return
		}
		if got := inkOf.FindStringSubmatch(o.Resource.Name()); got != nil {
			l.lines++
			ink := got[2]
			if got[1] == "look" {
				ink = got[3]
			}
			l.hold("the drawing "+got[1], hexed(ink), middle, 3)
		}
	case *canvas.Raster:
		here.unknown = true
		l.ground = append(l.ground, here.cut(clip))
	case *fyne.Container:
		for _, c := range o.Objects {
			l.read(c, at, clip)
		}
	case fyne.Widget:
		if _, ok := o.(*container.Scroll); ok {
			clip = here.cut(clip)
		}
		for _, c := range test.WidgetRenderer(o).Objects() {
			l.read(c, at, clip)
		}
	}
}

func hexed(s string) color.NRGBA {
	n, _ := strconv.ParseUint(s, 16, 32)
	return color.NRGBA{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n), A: 0xff}
}

// outline holds a stroke to what is beside it, above it or within it: one of them
// shows it. Those that only part one thing from the next are left out: nothing is
// known by them.
func (l *light) outline(c color.NRGBA, width float32, at patch, clip patch) {
	left, above := at.from.AddXY(-2, at.size.Height/2), at.from.AddXY(at.size.Width/2, -2)
	if width == 0 || c.A == 0 || c == l.p.Separator || c == l.p.GridMajor || !clip.holds(left) {
		return
	}
	l.lines++
	best, most := left, 0.0
	for _, place := range []fyne.Position{left, above, at.from.AddXY(3, at.size.Height/2)} {
		if ground, known := l.under(place); known && contrast(c, ground) > most {
			best, most = place, contrast(c, ground)
		}
	}
	l.hold("an outline", c, best, 3)
}

// hold looks whether an ink is at least so far from its ground. What is switched
// off may be fainter, as 1.4.3 and 1.4.11 say of inactive parts.
func (l *light) hold(what string, ink color.NRGBA, at fyne.Position, least float64) {
	ground, known := l.under(at)
	if !known || ink.A == 0 {
		return
	}
	off := theme.Faded(l.p.InkFaint, 0.55)
	pair := fmt.Sprintf("%02x%02x%02x on %02x%02x%02x", ink.R, ink.G, ink.B, ground.R, ground.G, ground.B)
	if ink == off {
		l.exempt[pair] = true
		return
	}
	r := contrast(mixed(ink, ground), ground)
	l.seen[pair] = r
	if r < least {
		l.faults[fmt.Sprintf("%s: %q at %v, %s: %.2f, at least %v", l.opening, what, at, pair, r, least)] = true
	}
}

func (l *light) look(w *Window, where string) {
	l.opening = where
	whole := patch{size: w.win.Canvas().Size()}
	l.ground = nil
	l.read(w.win.Canvas().Content(), fyne.Position{}, whole)
	for _, o := range w.win.Canvas().Overlays().List() {
		l.read(o, fyne.Position{}, whole)
	}
}

// Everything the window shows stands out from its ground: texts by 4.5 (WCAG 2.2,
// success criterion 1.4.3, level AA), outlines and drawings by 3 (1.4.11); the
// formula is that of its terms "contrast ratio" and "relative luminance".
func TestContrastAsDrawn(t *testing.T) {
	for _, dark := range []bool{false, true} {
		w := openTrue(t, 6)
		w.settings.Dark = dark
		w.setTheme()
		l := &light{t: t, p: theme.Light, seen: map[string]float64{}, faults: map[string]bool{}, exempt: map[string]bool{}}
		if dark {
			l.p = theme.Dark
		}
		w.red.Set("Not saved: the disk is full.")
		for step := range stepCount {
			w.goTo(step)
			for _, f := range w.folds {
				f.SetOpen(true)
			}
			w.refresh()
			l.look(w, fmt.Sprintf("step %d", step+1))
		}
		for what, do := range map[string]func(){"help": w.help, "save": w.saveAs, "rename": w.rename, "close": w.askAndClose, "about": w.about, "open": w.bringIn} {
			do()
			l.look(w, what)
			for _, o := range w.win.Canvas().Overlays().List() {
				w.win.Canvas().Overlays().Remove(o)
			}
			w.hasNoDialog()
		}
		been := map[fyne.Focusable]bool{}
		for len(been) < 12 { // the keyboard on much of it
			w.win.Canvas().FocusNext()
			if f := w.win.Canvas().Focused(); been[f] {
				break
			} else {
				been[f] = true
			}
			l.look(w, "the keyboard's outline")
		}
		if l.texts < 500 || l.lines < 300 {
			t.Errorf("dark %v: only %d texts and %d lines looked at", dark, l.texts, l.lines)
		}
		for _, f := range slices.Sorted(maps.Keys(l.faults)) {
			t.Errorf("dark %v: %s", dark, f)
		}
		t.Logf("dark %v: %d texts, %d outlines and drawings, %d pairs of colours, %d switched off", dark, l.texts, l.lines, len(l.seen), len(l.exempt))
	}
}
