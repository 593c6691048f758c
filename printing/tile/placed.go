package tile

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// Placed is a piece on the floor. At takes the piece's own mm to layout mm and
// is a turn and a shift.
type Placed struct {
	Piece printing.Piece
	At    geom.Affine
}

// flat is how far the straight legs that stand for a line may be from it, mm.
// Only room is judged by them; what is drawn is the line itself.
const flat = 0.1

// shape is what a piece covers: rings are outlines to be filled, lines are
// strokes, both as points; half is half the widest stroke.
type shape struct {
	ring  []geom.Point
	lines [][]geom.Point
	words []geom.Box
	half  float64
	box   geom.Box // of all ink
}

// shapeOf flattens a piece as m places it. The error names the piece.
func shapeOf(p printing.Piece, m geom.Affine) (shape, error) {
	var s shape
	add := func(path geom.Path) ([]geom.Point, error) {
		if err := path.Validate(); err != nil {
			return nil, words.Errorf("placing %s: %w", p.Name, err)
		}
		pts := path.Transform(m).Flatten(flat)
		s.box = s.box.Union(geom.BoxOf(pts...))
		return pts, nil
	}
	var err error
	if s.ring, err = add(p.Outline); err != nil {
		return shape{}, err
	}
	for _, st := range p.Strokes {
		pts, err := add(st.Path)
		if err != nil {
			return shape{}, err
		}
		s.lines = append(s.lines, pts)
		s.half = math.Max(s.half, st.Width/2)
	}
	if s.box.Empty() {
		return shape{}, words.Errorf("placing %s: the piece has no line to print", p.Name)
	}
	if !s.box.Min.Finite() || !s.box.Max.Finite() {
		return shape{}, words.Errorf("placing %s: its place is no ordinary number", p.Name)
	}
	if s.box.Width() < flat && s.box.Height() < flat {
		return shape{}, words.Errorf("placing %s: the piece is only a point: check its lines", p.Name)
	}
	s.box = s.box.Grow(s.half)
	for _, l := range p.Labels {
		s.words = append(s.words, wordBox(l, m))
	}
	return s, nil
}

// wordBox is about where a line of words falls: letters are half as wide as
// they are high, on average.
func wordBox(l printing.Label, m geom.Affine) geom.Box {
	half := 0.28 * l.Size * float64(len([]rune(l.Text)))
	turn := geom.Rotate(l.Turn)
	var b geom.Box
	for _, c := range []geom.Vec{{X: -half, Y: -l.Size}, {X: half, Y: -l.Size}, {X: -half, Y: l.Size / 3}, {X: half, Y: l.Size / 3}} {
		b = b.Union(geom.BoxOf(m.Apply(l.At.Add(turn.ApplyVec(c)))))
	}
	return b
}

// legs calls f for every straight leg of the shape's lines and outline.
func (s shape) legs(f func(a, b geom.Point)) {
	ring(s.ring, f)
	for _, l := range s.lines {
		for i := 1; i < len(l); i++ {
			f(l[i-1], l[i])
		}
	}
}

// ring calls f for every side of the closed outline.
func ring(pts []geom.Point, f func(a, b geom.Point)) {
	for i := range pts {
		f(pts[i], pts[(i+1)%len(pts)])
	}
}

// holds reports whether p lies inside the outline (even-odd rule).
func (s shape) holds(p geom.Point) bool {
	in := false
	ring(s.ring, func(a, b geom.Point) {
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	})
	return in
}

// meets reports whether any line of the shape enters b.
func (s shape) meets(b geom.Box) bool {
	if !s.box.Intersects(b) {
		return false
	}
	hit := false
	s.legs(func(p, q geom.Point) { hit = hit || crosses(p, q, b) })
	return hit
}

// covers reports whether the shape has a line or its inside in b.
func (s shape) covers(b geom.Box) bool {
	return s.box.Intersects(b) && (s.meets(b) || s.holds(b.Centre()))
}

// crosses reports whether the leg from a to b meets the box: the leg is cut
// off at each of its four sides in turn (Liang and Barsky's rule).
func crosses(a, b geom.Point, box geom.Box) bool {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	clip := func(step, room float64) bool {
		if step == 0 {
			return room >= 0
		}
		t := room / step
		if step < 0 {
			t0 = math.Max(t0, t)
		} else {
			t1 = math.Min(t1, t)
		}
		return t0 <= t1
	}
	return clip(-d.X, a.X-box.Min.X) && clip(d.X, box.Max.X-a.X) &&
		clip(-d.Y, a.Y-box.Min.Y) && clip(d.Y, box.Max.Y-a.Y)
}

// move is the shape shifted by v.
func (s shape) move(v geom.Vec) shape {
	shift := func(pts []geom.Point) []geom.Point {
		out := make([]geom.Point, len(pts))
		for i, p := range pts {
			out[i] = p.Add(v)
		}
		return out
	}
	out := shape{ring: shift(s.ring), half: s.half}
	for _, l := range s.lines {
		out.lines = append(out.lines, shift(l))
	}
	for _, w := range s.words {
		out.words = append(out.words, geom.Box{Min: w.Min.Add(v), Max: w.Max.Add(v)})
	}
	out.box = geom.Box{Min: s.box.Min.Add(v), Max: s.box.Max.Add(v)}
	return out
}
