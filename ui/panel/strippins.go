package panel

import (
	"cmp"
	"image/color"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// stripPin is a mark under the line with the names of the measures that lie
// there.
type stripPin struct {
	x     float32 // of the mark
	names string
	off   int     // -1 below the chart, 1 beyond it
	at    float32 // the middle of the names
	wide  float32
}

// pinGap is how near marks share their names, and pinRoom what lies between
// names, in pixels.
const (
	pinGap  = 4
	pinRoom = 7
)

// pins mark where each body measure lies. Names too near their neighbours move
// aside, the marks stay; measures beyond the chart stand at its end, in amber,
// with how far beyond they are.
func (s *stripPen) pins(v StripView) {
	pins := s.gathered(v)
	s.spread(pins)
	y := stripY() + 10 + theme.Px(16)
	for _, pin := range pins {
		t := tone(inkSoft)
		switch pin.off {
		case -1:
			s.icon(theme.Back, amberLine, pin.x-7, y-2, 13)
			t = amberInk
		case 1:
			s.icon(theme.Folded, amberLine, pin.x-7, y-2, 13)
			t = amberInk
		default:
			s.icon(theme.Up, inkSoft, pin.x-7, y-2, 14)
		}
		centred(s.text(pin.names, theme.Mark, t, pin.off != 0), pin.at, y+9)
	}
}

// gathered is the pins from left to right, those of one place together.
func (s *stripPen) gathered(v StripView) []stripPin {
	views := slices.Clone(v.Pins)
	slices.SortStableFunc(views, func(a, b PinView) int { return cmp.Compare(a.Place, b.Place) })
	last := float64(len(v.Sizes) - 1)
	var out []stripPin
	for _, view := range views {
		pin := stripPin{x: s.line.x(min(max(view.Place, 0), last)), names: view.Name}
		if view.Beyond != "" {
			pin.off = cmp.Compare(view.Place, last/2)
			pin.names = beyond(pin.off, view)
			pin.x += float32(pin.off) * 12
		}
		if n := len(out); n > 0 && pin.off == out[n-1].off && pin.x-out[n-1].x < pinGap {
			out[n-1].names += ", " + pin.names
			continue
		}
		out = append(out, pin)
	}
	return out
}

// spread lays the names out: each under its mark, but none over another or past
// the ends of the strip.
func (s *stripPen) spread(pins []stripPin) {
	free := float32(pinRoom)
	for i := range pins {
		pins[i].wide = theme.WordSize(pins[i].names, theme.Px(theme.Mark), pins[i].off != 0).Width
		pins[i].at = max(pins[i].x, free+pins[i].wide/2)
		free = pins[i].at + pins[i].wide/2 + pinRoom
	}
	free = s.line.Size().Width - pinRoom
	for i := len(pins) - 1; i >= 0; i-- {
		pins[i].at = min(pins[i].at, free-pins[i].wide/2)
		free = pins[i].at - pins[i].wide/2 - pinRoom
	}
}

func amberLine(p theme.Palette) color.NRGBA { return p.AmberLine }

// beyond names a pin off the strip and how far off it is; side is -1 below, 1
// beyond, 0 for neither.
func beyond(side int, v PinView) string {
	switch side {
	case -1:
		return words.F("%s %s below", v.Name, v.Beyond)
	case 1:
		return words.F("%s %s beyond", v.Name, v.Beyond)
	}
	return v.Name + " " + v.Beyond
}
