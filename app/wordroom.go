package app

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// The room words take up, in letter heights (about: fonts differ), and what is
// left free round them, mm.
const (
	letterTall = 0.75 // above the baseline
	letterFoot = 0.2  // below it
	wordGap    = 0.5
)

// halfWidth is half the width of a label's words in mm.
func halfWidth(l printing.Label) float64 { return wordWidth(l) / 2 }

// wordMiddle is the middle of the room a label's words take up.
func wordMiddle(l printing.Label) geom.Point {
	return l.At.Add(geom.Rotate(l.Turn).ApplyVec(geom.Vec{Y: (letterFoot - letterTall) / 2 * l.Size}))
}

// wordRing is the closed line round a label's words.
func wordRing(l printing.Label) []geom.Point {
	turn := geom.Rotate(l.Turn)
	x, y := halfWidth(l), (letterTall+letterFoot)/2*l.Size
	var out []geom.Point
	for _, v := range []geom.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}} {
		out = append(out, wordMiddle(l).Add(turn.ApplyVec(v)))
	}
	return out
}

// obstacles is what words of a piece must keep clear of: its lines and the
// words it has.
func obstacles(p printing.Piece, tol float64) [][]geom.Point {
	var out [][]geom.Point
	for _, s := range p.Strokes {
		out = append(out, s.Path.Flatten(tol))
	}
	for _, l := range p.Labels {
		out = append(out, wordRing(l))
	}
	return out
}

// standsClear reports whether a label's words lie inside the ring and at least
// gap mm off every one of the lines.
func standsClear(l printing.Label, ring []geom.Point, lines [][]geom.Point, gap float64) bool {
	middle := wordMiddle(l)
	if !insideRing(ring, middle) {
		return false
	}
	half, high := halfWidth(l)+gap, (letterTall+letterFoot)/2*l.Size+gap
	back, reach := geom.Rotate(-l.Turn), geom.BoxOf(middle).Grow(math.Hypot(half, high))
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			if !geom.BoxOf(line[i-1], line[i]).Intersects(reach) {
				continue
			}
			leg := []geom.Point{geom.Point(back.ApplyVec(line[i-1].Sub(middle))), geom.Point(back.ApplyVec(line[i].Sub(middle)))}
			if sideRoom(leg, geom.Point{}, high) < half {
				return false
			}
		}
	}
	return true
}

// besideLine lists the places for words beside the straight line from a to b,
// gap mm from it, the most wanted first: at that share of the line and on that
// side, then farther and farther along, on either side. Words run along the
// line and read from the left or from below.
func besideLine(text string, size float64, a, b geom.Point, share, gap float64, below bool) []printing.Label {
	turn := readable(b.Sub(a))
	down := geom.Rotate(turn).ApplyVec(geom.Vec{Y: 1})
	sides := [2]float64{-gap, gap + letterTall*size}
	if below {
		sides[0], sides[1] = sides[1], sides[0]
	}
	var out []printing.Label
	const step = 0.05
	for off := 0.0; off < 1; off += step {
		for _, s := range []float64{share - off, share + off} {
			if s < step || s > 1-step {
				continue
			}
			for _, side := range sides {
				out = append(out, printing.Label{Text: text, Size: size, Turn: turn, At: a.Lerp(b, s).Add(down.Scale(side))})
			}
		}
	}
	return out
}

// readable is the turn of words along dir that read from the left or from
// below.
func readable(dir geom.Vec) float64 {
	turn := math.Atan2(dir.Y, dir.X)
	if turn > math.Pi/2 {
		turn -= math.Pi
	} else if turn <= -math.Pi/2 {
		turn += math.Pi
	}
	return turn
}

// roomiest is the place on a piece that leaves most room to both sides, up to
// half mm, for a block of words high mm tall that runs in direction turn: clear
// of the outline and, where it can be, of what is drawn inside. It says how
// much room there is, in mm.
func roomiest(p printing.Piece, turn, half, high float64) (at geom.Point, room float64) {
	const tol, grid = 0.5, 24
	back := geom.Rotate(-turn)
	outline := turned(p.Outline.Flatten(tol), back)
	b := geom.BoxOf(outline...)
	at = b.Centre()
	marks := [][]geom.Point{}
	for _, m := range obstacles(p, tol) {
		marks = append(marks, turned(m, back))
	}
	best := math.Inf(-1)
	for i := 1; i < grid; i++ {
		for j := 1; j < grid; j++ {
			c := geom.Pt(b.Min.X+b.Width()*float64(i)/grid, b.Min.Y+b.Height()*float64(j)/grid)
			if !insideRing(outline, c) {
				continue
			}
			free := math.Min(half, sideRoom(outline, c, high/2))
			for _, m := range marks {
				if free = math.Min(free, sideRoom(m, c, high/2)); free <= 0 {
					break
				}
			}
			// Of places with as much room, the one nearest the middle.
			if score := free - 0.02*c.Dist(b.Centre()); score > best {
				at, best, room = c, score, free
			}
		}
	}
	return geom.Rotate(turn).Apply(at), room
}

func turned(line []geom.Point, by geom.Affine) []geom.Point {
	out := make([]geom.Point, len(line))
	for i, p := range line {
		out[i] = by.Apply(p)
	}
	return out
}

// sideRoom is how far to the side of c the line comes nearest, within high mm
// above and below; infinite where it passes neither side.
func sideRoom(line []geom.Point, c geom.Point, high float64) float64 {
	room := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		a, b, ok := within(a, b, c.Y-high, c.Y+high)
		if !ok {
			continue
		}
		left, right := math.Min(a.X, b.X)-c.X, math.Max(a.X, b.X)-c.X
		switch {
		case left <= 0 && right >= 0:
			return 0
		case left > 0:
			room = math.Min(room, left)
		default:
			room = math.Min(room, -right)
		}
	}
	return room
}

// within is the part of the leg from a to b between two heights; false where
// there is none.
func within(a, b geom.Point, lo, hi float64) (from, to geom.Point, ok bool) {
	if a.Y > b.Y {
		a, b = b, a
	}
	if b.Y < lo || a.Y > hi {
		return a, b, false
	}
	from, to = a, b
	if a.Y < lo {
		from = a.Lerp(b, (lo-a.Y)/(b.Y-a.Y))
	}
	if b.Y > hi {
		to = a.Lerp(b, (hi-a.Y)/(b.Y-a.Y))
	}
	return from, to, true
}

func insideRing(pts []geom.Point, at geom.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
