package board

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// lensMargin is how near the close-up's sides, px, it lets a line come that it moves
// aside for.
const lensMargin = 22

// measured is the piece whose lines the close-up measures: that of the edge or grade
// point under the pointer, else the one whose line lies nearest beside the pointer.
func (l *lens) measured(cs []scene.Crossing, at float64) string {
	if p := l.board.hover.Piece; p != "" {
		return p
	}
	piece, near := "", math.Inf(1)
	for _, c := range cs {
		if d := math.Abs(c.S - at); d < near {
			piece, near = c.Piece, d
		}
	}
	return piece
}

// crossings are where a level line, y px down the close-up, crosses the lines of the
// piece that is measured, from its left side as far as w px to the right.
func (l *lens) crossings(v view.View, w, y float64) []scene.Crossing {
	cs := scene.Crossings(l.board.in, v.ToMM(px(0, y)), v.ToMM(px(w, y)), 0.01)
	piece := l.measured(cs, w/2/v.Scale)
	return slices.DeleteFunc(cs, func(c scene.Crossing) bool { return c.Piece != piece })
}

// wholeNest is v, which has the pointer in its middle, moved sideways over an edge or
// grade point, where that brings all its sizes into sight with the pointer.
func (l *lens) wholeNest(v view.View, w, h float64) view.View {
	if l.board.hover.Edge == "" && l.board.hover.Point == "" || l.board.tool == Trace {
		return v
	}
	wide := view.View{Scale: v.Scale, Origin: v.Origin.Add(v.MM(view.Px{X: -w}))}
	low, high := nestSpan(l.crossings(wide, 3*w, h/2), 1.5*w/v.Scale, (w-2*lensMargin)/v.Scale)
	from, to := low*v.Scale-w, high*v.Scale-w // in px of v
	shift := 0.0
	switch {
	case from < lensMargin:
		shift = from - lensMargin
	case to > w-lensMargin:
		shift = to - w + lensMargin
	}
	return view.View{Scale: v.Scale, Origin: v.Origin.Add(v.MM(view.Px{X: shift}))}
}

// nestSpan is the stretch from the first to the last of the crossings, one a size,
// that lie together round at: as many of them, the nearest first, as fit within
// room. All are mm along the same line.
func nestSpan(cs []scene.Crossing, at, room float64) (low, high float64) {
	cs = slices.Clone(cs)
	slices.SortStableFunc(cs, func(a, b scene.Crossing) int {
		return int(math.Copysign(1, math.Abs(a.S-at)-math.Abs(b.S-at)))
	})
	low, high = at, at
	seen := map[string]bool{}
	for _, c := range cs {
		if seen[c.Size] || max(high, c.S)-min(low, c.S) > room {
			break
		}
		seen[c.Size] = true
		low, high = min(low, c.S), max(high, c.S)
	}
	return low, high
}

// gapRows are how far above the close-up's foot its two rows of measures stand, px.
var gapRows = [2]float64{46, 20}

// gaps names the sizes along the top of the close-up and measures, level with
// the pointer, the gaps between their lines: in a first row those between the printed
// sizes and, dashed on the Table, what the other way of growing would give; in a
// second what is added now. Places are px of the close-up.
func (l *lens) gaps(v view.View, w, h float64) scene.Layer {
	var out scene.Layer
	l.sizeNames(&out, v, w)
	cs := l.crossings(v, w, h/2)
	rows := gapRows
	other, way := l.otherWay(v, w, h/2, cs)
	if !other.Between() {
		rows[1] = 24
		rows[0] = rows[1]
	}
	for i := 1; i < len(cs); i++ {
		a, b := cs[i-1], cs[i]
		bar := gapBar{a.S * v.Scale, b.S * v.Scale, h - rows[0], scene.InkAccent, 1.5, l.words(b.S - a.S)}
		switch {
		case a.Printed && b.Printed:
			bar.ink = scene.NestInk(sizePlace(l.board.in, b.Size))
		case !a.Printed && !b.Printed:
			continue
		default:
			bar.y, bar.width = h-rows[1], 2
			if other.Between() {
				bar.words = way.now(bar.words)
			}
		}
		l.bar(&out, bar)
	}
	if other.Between() {
		bar := gapBar{other.from * v.Scale, other.to * v.Scale, h - rows[0], scene.InkAccent, 1.5, way.other(l.words(math.Abs(other.to - other.from)))}
		bar.x0, bar.x1 = min(bar.x0, bar.x1), max(bar.x0, bar.x1)
		l.bar(&out, bar)
	}
	if len(out.Lines) > 0 {
		l.ground(&out, w, h, h-rows[0]-barRoom)
	}
	return out
}

// barRoom is how much room a measure has above it, px.
const barRoom = 12

// ground leaves the measures a plain ground of their own, from top down, with a rule
// above.
func (l *lens) ground(out *scene.Layer, w, h, top float64) {
	strip := func(from, to float64, k scene.Ink) {
		out.Fills = append(out.Fills, scene.Fill{
			Outline: geom.Polyline(geom.Pt(0, from), geom.Pt(w, from), geom.Pt(w, to), geom.Pt(0, to), geom.Pt(0, from)),
			Ink:     k, Alpha: 1,
		})
	}
	strip(top, h, scene.InkTable)
	strip(top, top+1, scene.InkGridMajor)
}

func (l *lens) sizeNames(out *scene.Layer, v view.View, w float64) {
	last := math.Inf(-1)
	for _, c := range l.crossings(v, w, 12) {
		x := c.S * v.Scale
		if x-last < 20 {
			continue
		}
		last = x
		text := scene.Text{Words: c.Size, At: geom.Pt(x, 12), Size: 12, Ink: scene.InkAccentWords, Halo: scene.InkTable, Bold: true}
		if c.Printed {
			text.Ink = scene.NestInk(sizePlace(l.board.in, c.Size))
		}
		out.Texts = append(out.Texts, text)
	}
}

// words is a gap in the unit in use, without the unit.
func (l *lens) words(mm float64) string {
	gap, _ := splitUnit(measure.FormatMM(mm, l.board.unit))
	return gap
}

// stretch is a part of the line the close-up measures along, mm.
type stretch struct{ from, to float64 }

// Between reports whether there is anything between its ends.
func (s stretch) Between() bool { return math.Abs(s.to-s.from) > 0.05 }

// growth is by which of the two ways a pattern grows.
type growth model.Method

// now says what is added by the way in force.
func (g growth) now(gap string) string {
	if model.Method(g) == model.BySteps {
		return words.F("%s by steps", gap)
	}
	return words.F("%s by chart", gap)
}

// other says what the other way would add.
func (g growth) other(gap string) string {
	if model.Method(g) == model.BySteps {
		return growth(model.ByChart).now(gap)
	}
	return growth(model.BySteps).now(gap)
}

// otherWay is what the way of growing not in force would add, from the printed size
// next to the line, and which way is in force. It is empty where nothing says so, and
// where the sewist's hand had its part.
func (l *lens) otherWay(v view.View, w, y float64, cs []scene.Crossing) (stretch, growth) {
	in := l.board.in
	way := growth(in.Pattern.Target.Method)
	for i := 1; i < len(cs); i++ {
		a, b := cs[i-1], cs[i]
		if a.Printed == b.Printed {
			continue
		}
		if b.Printed {
			a, b = b, a
		}
		q := in.Pattern.Pieces[in.Pattern.PieceIndex(b.Piece)]
		if len(q.Hand.Moves)+len(q.Hand.Shapes) > 0 {
			return stretch{}, way
		}
		from, to := v.ToMM(px(0, y)), v.ToMM(px(w, y))
		near, best := math.Inf(1), 0.0
		for _, s := range scene.GhostCrossings(in, q, from, to, 0.01) {
			if d := math.Abs(s - b.S); d < near {
				near, best = d, s
			}
		}
		if near > math.Abs(b.S-a.S) {
			return stretch{}, way
		}
		return stretch{a.S, best}, way
	}
	return stretch{}, way
}

// gapBar is a measure drawn in the close-up: from x0 to x1 at y, px.
type gapBar struct {
	x0, x1, y float64
	ink       scene.Ink
	width     float64
	words     string
}

// bar draws a measure with its words below, where these have room.
func (l *lens) bar(out *scene.Layer, b gapBar) {
	if b.x1-b.x0 < l.board.painter.Width(b.words, 12)+4 {
		return
	}
	for _, p := range []geom.Path{
		geom.Polyline(geom.Pt(b.x0, b.y), geom.Pt(b.x1, b.y)),
		geom.Polyline(geom.Pt(b.x0, b.y-4), geom.Pt(b.x0, b.y+4)),
		geom.Polyline(geom.Pt(b.x1, b.y-4), geom.Pt(b.x1, b.y+4)),
	} {
		out.Lines = append(out.Lines, scene.Line{Path: p, Width: b.width, Ink: b.ink, Alpha: 1})
	}
	text := scene.Text{Words: b.words, At: geom.Pt((b.x0+b.x1)/2, b.y+13), Size: 12, Ink: scene.InkWords, Halo: scene.InkTable}
	if b.ink == scene.InkAccent {
		text.Ink, text.Bold = scene.InkAccentWords, b.width > 1.5
	}
	out.Texts = append(out.Texts, text)
}
