package panel

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// Where things lie on the Size strip, in pixels from its top and ends
// at text scale 1.
const (
	lineY     = 47
	stripEnds = 24
	pillHigh  = 27
	pillTop   = 8
)

func stripY() float32     { return theme.Px(lineY) }
func pillY() float32      { return theme.Px(pillTop) }
func pillHeight() float32 { return theme.Px(pillHigh) }

// x is where a place of the chart lies on the line, and placeAt the reverse.
func (l *stripLine) x(place float64) float32 {
	n := len(l.strip.view.Sizes)
	if n < 2 {
		return stripEnds
	}
	return stripEnds + float32(place/float64(n-1))*(l.Size().Width-2*stripEnds)
}

func (l *stripLine) placeAt(x float32) float64 {
	room := l.Size().Width - 2*stripEnds
	if room <= 0 {
		return 0
	}
	return float64((x-stripEnds)/room) * float64(len(l.strip.view.Sizes)-1)
}

// printed is the first and the last printed place, false when none is.
func (v StripView) printed() (first, last int, ok bool) {
	first = -1
	for i, s := range v.Sizes {
		if s.Printed {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	return first, last, first >= 0
}

// stripPen collects the shapes of the Size strip in the order they lie.
type stripPen struct {
	line    *stripLine
	p       theme.Palette
	objects []fyne.CanvasObject
	taken   [][2]float32 // spans across that words above the line have taken
}

func (l *stripLine) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{}
	// The shapes are made anew, but only for a new view, colour or size: the
	// window lays out whatever holds new shapes, so that making them at every
	// layout would never end.
	stale, drawnAt := true, fyne.Size{}
	d.paint = func(theme.Palette) { stale = true }
	d.min = func() fyne.Size { return fyne.NewSize(300, theme.Px(stripLow)) }
	d.lay = func(size fyne.Size) {
		if !stale && size == drawnAt {
			return
		}
		stale, drawnAt = false, size
		pen := &stripPen{line: l, p: theme.Now()}
		pen.draw()
		d.objects = pen.objects
	}
	return d.ready()
}

func (s *stripPen) draw() {
	v := s.line.strip.view
	if l := s.line; l.focused {
		r := newGround()
		l.paintGround(r, s.p)
		r.FillColor = theme.Faded(s.p.Ink, 0)
		place(r, 2, 3, l.Size().Width-4, l.Size().Height-5)
		s.objects = append(s.objects, r)
	}
	if len(v.Sizes) == 0 {
		t := s.text(v.Empty, theme.Body, inkSoft, false)
		t.Move(fyne.NewPos(stripEnds, stripY()-9))
		return
	}
	s.stroke(0, float64(len(v.Sizes)-1), 1.6, s.p.Edge)
	first, last, printed := v.printed()
	if v.Shown && printed {
		near := min(max(v.Target, float64(first)), float64(last))
		s.stroke(near, v.Target, 3, s.p.Accent)
	}
	bracketEnd := float32(-1)
	if printed {
		bracketEnd = s.bracket(first, last)
	}
	s.sizes(v, first, last)
	s.pins(v)
	if v.Shown {
		s.handle(v, bracketEnd)
	}
}

func (s *stripPen) text(text string, size float32, t tone, bold bool) *canvas.Text {
	c := canvas.NewText(text, t(s.p))
	c.TextSize = theme.Px(size)
	c.TextStyle.Bold = bold
	c.Resize(c.MinSize())
	s.objects = append(s.objects, c)
	return c
}

// centred puts a text's middle at x, its top at y.
func centred(t *canvas.Text, x, y float32) { t.Move(fyne.NewPos(x-t.MinSize().Width/2, y)) }

func (s *stripPen) bar(x0, y0, x1, y1 float32, c tone) {
	r := canvas.NewRectangle(c(s.p))
	place(r, min(x0, x1), min(y0, y1), float32(math.Abs(float64(x1-x0))), float32(math.Abs(float64(y1-y0))))
	s.objects = append(s.objects, r)
}

func (s *stripPen) stroke(from, to float64, width float32, c color.NRGBA) {
	y := stripY()
	s.bar(s.line.x(from), y-width/2, s.line.x(to), y+width/2, func(theme.Palette) color.NRGBA { return c })
}

func (s *stripPen) disc(x, r float32, fill, stroke tone, width float32) {
	c := canvas.NewCircle(fill(s.p))
	if stroke != nil {
		c.StrokeColor, c.StrokeWidth = stroke(s.p), width
	}
	place(c, x-r, stripY()-r, 2*r, 2*r)
	s.objects = append(s.objects, c)
}

// bracket holds the printed sizes together and gives its right end.
func (s *stripPen) bracket(first, last int) float32 {
	x0, x1, y := s.line.x(float64(first))-8, s.line.x(float64(last))+8, stripY()-12
	s.bar(x0, y, x1, y+1, edge)
	s.bar(x0, y, x0+1, y+5, edge)
	s.bar(x1-1, y, x1, y+5, edge)
	printed := words.T("printed")
	word := theme.WordSize(printed, theme.Px(theme.Caption), false)
	mid := (x0 + x1) / 2
	if left, right, shown := s.pillSpan(); !shown || mid+word.Width/2 < left || mid-word.Width/2 > right {
		centred(s.text(printed, theme.Caption, inkSoft, false), mid, y-word.Height-1)
		s.taken = append(s.taken, [2]float32{mid - word.Width/2, mid + word.Width/2})
	}
	return max(x1, mid+word.Width/2)
}

// pillSpan is where the target's pill lies across, its arrows included.
func (s *stripPen) pillSpan() (left, right float32, shown bool) {
	v := s.line.strip.view
	half := theme.WordSize(v.Handle, theme.Px(theme.Body), true).Width/2 + 18
	w := s.line.Size().Width
	mid := min(max(s.line.x(v.Target), half+14), max(w-half-14, half+14))
	return mid - half - 15, mid + half + 15, v.Shown
}

// sizes draws a ring or a disc for every size, and its number where there is
// room for it: the target's first, then the first and last printed ones, then
// the other printed ones, then the rest.
func (s *stripPen) sizes(v StripView, first, last int) {
	gap := s.line.x(1) - s.line.x(0)
	named := s.named(v, first, last)
	n := 0
	for i := range v.Sizes {
		if v.Sizes[i].Printed {
			n++
		}
	}
	k := 0
	for i, size := range v.Sizes {
		x := s.line.x(float64(i))
		here := v.Shown && float64(i) == v.Target
		t := tone(inkSoft)
		if size.Printed {
			nth := k
			k++
			if size.Tracing {
				s.traced(x, min(8, gap/2), size.Traced, s.p.Nest(nth, n))
			} else {
				s.disc(x, min(8, gap/2), func(p theme.Palette) color.NRGBA { return p.Nest(nth, n) }, nil, 0)
			}
			t = ink
		} else {
			s.disc(x, min(6.5, gap/2), windowFill, edge, 1.6)
		}
		if here {
			t = accentInk
		}
		if named[i] {
			centred(s.text(size.Name, theme.Body, t, size.Printed || here), x, stripY()+12)
		}
	}
}

// traced is the mark of a size whose line is to be traced, by how far it is.
func (s *stripPen) traced(x, r float32, state State, c color.NRGBA) {
	s.disc(x, r, windowFill, nil, 0)
	img := canvas.NewImageFromResource(theme.Icon(state.icon(), c, s.p.Raised))
	img.FillMode = canvas.ImageFillContain
	place(img, x-r, stripY()-r, 2*r, 2*r)
	s.objects = append(s.objects, img)
}

// named is which sizes have room for their number.
func (s *stripPen) named(v StripView, first, last int) []bool {
	named := make([]bool, len(v.Sizes))
	var spans [][2]float32
	try := func(i int) {
		if i < 0 || i >= len(named) || named[i] {
			return
		}
		half := theme.WordSize(v.Sizes[i].Name, theme.Px(theme.Body), true).Width/2 + 2
		x := s.line.x(float64(i))
		for _, t := range spans {
			if x-half < t[1] && t[0] < x+half {
				return
			}
		}
		named[i] = true
		spans = append(spans, [2]float32{x - half, x + half})
	}
	if here := int(v.Target); v.Shown && float64(here) == v.Target {
		try(here)
	}
	try(first)
	try(last)
	for _, printed := range []bool{true, false} {
		for i, size := range v.Sizes {
			if size.Printed == printed {
				try(i)
			}
		}
	}
	return named
}

// handle draws the target on the line and its pill above, with the note in the
// room that is left beside it.
func (s *stripPen) handle(v StripView, bracketEnd float32) {
	x := s.line.x(v.Target)
	s.disc(x, 9.5, accent, nil, 0)
	s.disc(x, 7, windowFill, nil, 0)
	s.disc(x, 4.2, accent, nil, 0)
	left, right, _ := s.pillSpan()
	s.bar(x-1, pillY()+pillHeight()-1, x+1, stripY()-9, accent)
	pill := canvas.NewRectangle(s.p.Accent)
	pill.CornerRadius = pillHeight() / 2
	place(pill, left+15, pillY(), right-left-30, pillHeight())
	s.objects = append(s.objects, pill)
	label := s.text(v.Handle, theme.Body, onAccent, true)
	centred(label, (left+right)/2, pillY()+(pillHeight()-label.MinSize().Height)/2)
	s.icon(theme.Back, accent, left+1, pillY()+pillHeight()/2-6, 12)
	s.icon(theme.Folded, accent, right-13, pillY()+pillHeight()/2-6, 12)
	s.note(v.Note, left-3, right+3, bracketEnd)
}

func (s *stripPen) icon(name theme.Name, t tone, x, y, side float32) {
	img := canvas.NewImageFromResource(theme.Icon(name, t(s.p), t(s.p)))
	img.FillMode = canvas.ImageFillContain
	place(img, x, y, side, side)
	s.objects = append(s.objects, img)
}

// note stands before the pill, beyond the bracket or beyond the pill: in the
// first of these places that is free, or nowhere.
func (s *stripPen) note(text string, left, right, bracketEnd float32) {
	if text == "" {
		return
	}
	size := theme.WordSize(text, theme.Px(theme.Caption), false)
	s.taken = append(s.taken, [2]float32{left + 1, right - 1})
	places := []float32{max(bracketEnd+8, right), right}
	if before := left - 6 - size.Width; before > bracketEnd {
		places = append([]float32{before}, places...)
	}
	for _, x := range places {
		if s.free(x, x+size.Width) {
			s.text(text, theme.Caption, inkSoft, false).Move(fyne.NewPos(x, stripY()-11-size.Height))
			return
		}
	}
}

func (s *stripPen) free(from, to float32) bool {
	for _, t := range s.taken {
		if from < t[1] && t[0] < to {
			return false
		}
	}
	return from >= 0 && to <= s.line.Size().Width
}
