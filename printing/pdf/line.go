package pdf

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// line is a stroke laid out once for all sheets, in layout mm.
type line struct {
	printing.Stroke
	path   geom.Path
	boxes  []geom.Box // around each curve's handles, so around the curve
	start  []float64  // mm along the path at which each curve begins; dashed lines only
	period float64    // of the dashes, mm
	closed bool
	box    geom.Box
	layer  int // -1: none
}

// how well dashes meet across sheets, mm.
const dashTolerance = 0.01

// newLine lays a stroke out. Errors name the piece.
func newLine(p tile.Placed, s printing.Stroke, layer int) (line, error) {
	l := line{Stroke: s, layer: layer}
	if err := checkStroke(s); err != nil {
		return line{}, words.Errorf("drawing %s: %w", p.Piece.Name, err)
	}
	l.path = s.Path.Transform(p.At)
	l.closed = l.path.Closed(1e-6)
	l.boxes = make([]geom.Box, len(l.path))
	for i, c := range l.path {
		l.boxes[i] = geom.BoxOf(c.P0, c.P1, c.P2, c.P3).Grow(s.Width / 2)
		l.box = l.box.Union(l.boxes[i])
	}
	if len(s.Dash) > 0 {
		return l, l.measureDashes(p.Piece.Name)
	}
	return l, nil
}

func (l *line) measureDashes(piece string) error {
	for _, d := range l.Dash {
		l.period += d
	}
	if len(l.Dash)%2 == 1 {
		l.period *= 2
	}
	along := 0.0
	l.start = make([]float64, len(l.path))
	for i, c := range l.path {
		l.start[i] = along
		n, err := c.Length(dashTolerance / float64(len(l.path)))
		if err != nil {
			return words.Errorf("spacing the dashes of %s: %w", piece, err)
		}
		along += n
	}
	return nil
}

func checkStroke(s printing.Stroke) error {
	if err := s.Path.Validate(); err != nil {
		return err
	}
	if !(s.Width > 0) || math.IsInf(s.Width, 0) {
		return words.Errorf("a line is %g mm wide; it must have a width", s.Width)
	}
	sum := 0.0
	for _, d := range s.Dash {
		if !(d >= 0) || math.IsInf(d, 0) {
			return words.Errorf("a dash is %g mm long", d)
		}
		sum += d
	}
	if len(s.Dash) > 0 && sum == 0 {
		return words.Errorf("a broken line has dashes without length")
	}
	for _, x := range []float64{s.Ink.R, s.Ink.G, s.Ink.B} {
		if math.IsNaN(x) {
			return words.Errorf("a line's colour is no number")
		}
	}
	return nil
}

// draw strokes the part of the line in the window. Curves that stay out of it
// are left away; the rest is clipped by the group around it. A dashed line
// takes up its dashes where it would be had it been drawn from its start, so
// that they run on from sheet to sheet.
func (l *line) draw(p *page.Page, m geom.Affine, window geom.Box) {
	if !l.box.Intersects(window) {
		return
	}
	n := len(l.path)
	from := l.firstCurve(window)
	for k := 0; k < n; {
		i := (from + k) % n
		if !l.boxes[i].Intersects(window) {
			k++
			continue
		}
		phase := 0.0
		if l.period > 0 {
			phase = math.Mod(l.start[i], l.period)
		}
		p.SetPen(l.Width, l.Ink, l.Dash, phase)
		p.MoveTo(m.Apply(l.path[i].P0))
		run := 0
		for k < n && l.boxes[(from+k)%n].Intersects(window) {
			p.CubicTo(l.path[(from+k)%n].Transform(m))
			k++
			run++
		}
		if run == n && l.closed {
			p.Op("h")
		}
		p.Op("S")
	}
}

// firstCurve is where to begin: at a curve out of the window where a solid
// closed line has one, so that its start is not cut in two.
func (l *line) firstCurve(window geom.Box) int {
	if l.closed && l.period == 0 {
		for i, b := range l.boxes {
			if !b.Intersects(window) {
				return i
			}
		}
	}
	return 0
}
