package app

import (
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// The names of sizes on their lines, mm.
const (
	sizeNameSize = 2.8
	sizeNameGap  = 0.7   // from their own line
	rivalGap     = 1.6   // from the line of any other size, at least
	sizeNameStep = 8.0   // between the places tried
	sizeNameFar  = 220.0 // between two names of one line, at least
	mostNames    = 3     // on one line
	mostSpots    = 2000  // tried along and across a line, about

	leastPointer = 3.0 // of the line from a name to its size, where there is no room beside it
	mostPointer  = 31.0
	pointerRing  = 0.5 // radius
	tellApart    = 0.8 // of two lines, so that one can be pointed at
	pointerWidth = 0.18
)

// sizeLine is the line of one size of several.
type sizeLine struct {
	name  string
	layer string
	ink   printing.Ink
	path  geom.Path
}

// sizeNames writes on the line of every size which it is, where more than one
// line is drawn.
func (d *drawer) sizeNames() {
	var lines []sizeLine
	if d.c.Nest {
		for _, o := range d.q.Nest {
			if d.drawn(o) {
				continue
			}
			lines = append(lines, sizeLine{o.Label(), nestLayer(o), nestInk, geom.Join(o.Edges...)})
		}
	}
	for k, r := range d.in {
		lines = append(lines, sizeLine{d.names[k], d.layer(k), printing.Ink{}, r.Outline()})
	}
	if len(lines) < 2 {
		return
	}
	for k := range lines {
		d.nameLine(lines, k)
	}
}

// nameLine writes the name of line k in letters as large as there is room for:
// nearer to its own line than to any other.
func (d *drawer) nameLine(lines []sizeLine, k int) {
	const tol = 0.1
	ring := d.out.Outline.Flatten(tol)
	all := obstacles(d.out, tol)
	var rivals [][]geom.Point
	for j, l := range lines {
		if j != k {
			rivals = append(rivals, l.path.Flatten(tol))
		}
	}
	for _, size := range []float64{sizeNameSize, 0.85 * sizeNameSize, 0.7 * sizeNameSize} {
		var laid []printing.Label
		for _, l := range alongLine(lines[k], size) {
			if len(laid) == mostNames || !farFrom(laid, l.At) {
				continue
			}
			if standsClear(l, ring, all, 0.6*sizeNameGap) && standsClear(l, ring, rivals, rivalGap) {
				laid = append(laid, l)
			}
		}
		if len(laid) > 0 {
			d.out.Labels = append(d.out.Labels, laid...)
			return
		}
	}
	d.pointAt(lines[k], apartFrom(rivals, spots(lines[k].path)), ring, all)
}

// pointAt writes the name of a line where there is room near it, with a short
// straight line that ends in a ring at one of the places on the line it names.
// Where there is room nowhere near, the dashes alone tell which it is.
func (d *drawer) pointAt(line sizeLine, places []spot, ring []geom.Point, all [][]geom.Point) {
	for long := leastPointer; long <= mostPointer; long += 2 {
		for _, size := range []float64{sizeNameSize, 0.7 * sizeNameSize} {
			for _, s := range places {
				for _, way := range s.sides() {
					end := s.at.Add(way.Scale(long))
					name := printing.Label{Text: line.name, Size: size, Turn: readable(way), Ink: line.ink, Layer: line.layer}
					name.At = name.At.Add(end.Add(way.Scale(halfWidth(name) + sizeNameGap)).Sub(wordMiddle(name)))
					if standsClear(name, ring, all, sizeNameGap) && !d.crossesWords(s.at, end) {
						d.out.Labels = append(d.out.Labels, name)
						d.pointer(line, s.at, way, end)
						return
					}
				}
			}
		}
	}
}

// pointer draws a line from a ring about at to end.
func (d *drawer) pointer(line sizeLine, at geom.Point, way geom.Vec, end geom.Point) {
	for _, p := range []geom.Path{geom.Polyline(at.Add(way.Scale(pointerRing)), end), circle(at, pointerRing)} {
		d.out.Strokes = append(d.out.Strokes, printing.Stroke{Path: p, Width: pointerWidth, Ink: line.ink, Layer: line.layer})
	}
}

// crossesWords reports whether a straight line runs over words that are there.
func (d *drawer) crossesWords(a, b geom.Point) bool {
	leg := []geom.Point{a, b}
	for _, l := range d.out.Labels {
		middle, back := wordMiddle(l), geom.Rotate(-l.Turn)
		moved := turned([]geom.Point{geom.Point(leg[0].Sub(middle)), geom.Point(leg[1].Sub(middle))}, back)
		if sideRoom(moved, geom.Point{}, (letterTall+letterFoot)/2*l.Size+wordGap) < halfWidth(l)+wordGap {
			return true
		}
	}
	return false
}

// circle is a ring about a place, within 0.03 % of its radius (four cubics of
// the usual constant 4/3 (sqrt 2 - 1)).
func circle(c geom.Point, r float64) geom.Path {
	const k = 4.0 / 3 * (math.Sqrt2 - 1)
	var out geom.Path
	for _, v := range []geom.Vec{{X: r}, {Y: r}, {X: -r}, {Y: -r}} {
		a, b := c.Add(v), c.Add(v.Perp())
		out = append(out, geom.Cubic{P0: a, P1: a.Add(v.Perp().Scale(k)), P2: b.Add(v.Scale(k)), P3: b})
	}
	return out
}

func farFrom(laid []printing.Label, at geom.Point) bool {
	for _, l := range laid {
		if l.At.Dist(at) < sizeNameFar {
			return false
		}
	}
	return true
}

// spot is a place on a line and the turn of words beside it.
type spot struct {
	at   geom.Point
	turn float64
}

// spots are places evenly along a line.
func spots(line geom.Path) []spot {
	var out []spot
	pts := line.Flatten(0.2)
	box := line.Bounds()
	step := math.Max(sizeNameStep, (box.Width()+box.Height())/mostSpots)
	next, along := step/2, 0.0
	for i := 1; i < len(pts); i++ {
		leg := pts[i].Sub(pts[i-1])
		n := leg.Len()
		for ; n > 0 && next <= along+n; next += step {
			out = append(out, spot{pts[i-1].Lerp(pts[i], (next-along)/n), readable(leg)})
		}
		along += n
	}
	return out
}

// apartFrom is the spots at least tellApart mm off every rival's line.
func apartFrom(rivals [][]geom.Point, places []spot) []spot {
	return slices.DeleteFunc(places, func(s spot) bool {
		return slices.ContainsFunc(rivals, func(line []geom.Point) bool { return awayFrom(line, s.at) < tellApart })
	})
}

// awayFrom is how far a place lies from a line of straight legs, in mm.
func awayFrom(line []geom.Point, at geom.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(line); i++ {
		leg, v := line[i].Sub(line[i-1]), at.Sub(line[i-1])
		t := 0.0
		if n := leg.Dot(leg); n > 0 {
			t = math.Max(0, math.Min(1, v.Dot(leg)/n))
		}
		best = math.Min(best, at.Dist(line[i-1].Lerp(line[i], t)))
	}
	return best
}

// sides are the two ways off the line at a spot: up from the words, and down.
func (s spot) sides() [2]geom.Vec {
	down := geom.Rotate(s.turn).ApplyVec(geom.Vec{Y: 1})
	return [2]geom.Vec{down.Scale(-1), down}
}

// alongLine lists the places for a line's name on both its sides, evenly along
// it.
func alongLine(line sizeLine, size float64) []printing.Label {
	var out []printing.Label
	drops := [2]float64{sizeNameGap + letterFoot*size, sizeNameGap + letterTall*size}
	for _, s := range spots(line.path) {
		for k, way := range s.sides() {
			out = append(out, printing.Label{
				Text: line.name, Size: size, Turn: s.turn, Ink: line.ink, Layer: line.layer, At: s.at.Add(way.Scale(drops[k])),
			})
		}
	}
	return out
}
