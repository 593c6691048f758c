package app

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// The room words take up, in letter heights (about: fonts differ), and what is
// left free round them, mm.
const (
	letterWidth = 0.52
	letterTall  = 0.75 // above the baseline
	letterFoot  = 0.2  // below it
	wordGap     = 0.5
)

// halfWidth is about half the width of a label's words in mm.
func halfWidth(l printing.Label) float64 {
	return letterWidth * l.Size * float64(len([]rune(l.Text))) / 2
}

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

// standsClear reports whether a label's words lie inside the ring and off every one
// of the lines.
func standsClear(l printing.Label, ring []geom.Point, lines [][]geom.Point) bool {
	middle := wordMiddle(l)
	if !insideRing(ring, middle) {
		return false
	}
	back := geom.Rotate(-l.Turn)
	for _, line := range lines {
		turned := make([]geom.Point, len(line))
		for i, p := range line {
			turned[i] = geom.Point(back.ApplyVec(p.Sub(middle)))
		}
		if sideRoom(turned, geom.Point{}, (letterTall+letterFoot)/2*l.Size+wordGap) < halfWidth(l)+wordGap {
			return false
		}
	}
	return true
}

// besideLine lists the places for words beside the straight line from a to b,
// gap mm from it, the most wanted first: at that share of the line and on that
// side, then farther and farther along, on either side. Words run along the
// line and read from the left or from below.
func besideLine(text string, size float64, a, b geom.Point, share, gap float64, below bool) []printing.Label {
	dir := b.Sub(a)
	turn := math.Atan2(dir.Y, dir.X)
	if turn > math.Pi/2 {
		turn -= math.Pi
	} else if turn <= -math.Pi/2 {
		turn += math.Pi
	}
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
