package scene

import (
	"math"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// grainRoom is how long, in px, a grain line must be to carry its name.
const grainRoom = 48

// lengthenGap is how far apart the two lines of a lengthen-or-shorten line are
// drawn, in mm.
const lengthenGap = 4

// marks draws the lines and darts on the piece.
func (l *Layer) marks(in Input, q model.Piece, r grading.Piece, m geom.Affine) {
	for _, k := range r.Lines {
		switch {
		case len(k.Path) == 0:
		case k.Kind == model.Lengthen && in.lengthens():
			l.lengthenLine(in, q, r, k)
		default:
			l.mark(in, k, k.Path.Transform(m))
		}
	}
	for _, d := range r.Darts {
		legs := geom.Polyline(d.Leg1, d.Apex, d.Leg2).Transform(m)
		l.Lines = append(l.Lines, Line{Path: legs, Width: 1.3, Round: true, Ink: InkAccent, Alpha: 1})
	}
}

func (l *Layer) mark(in Input, k grading.Line, path geom.Path) {
	line := Line{Path: path, Width: 1.1, Ink: InkSoft, Alpha: 1}
	mid, dir := along(path, 0.5)
	switch k.Kind {
	case model.Grain:
		line.Width, line.Arrow = 1.3, true
		if reach(path) >= in.px(grainRoom) {
			l.Texts = append(l.Texts, beside(words.C("along the arrow", "grain"), mid, dir))
		}
	case model.Lengthen:
		line.Width = 1
		apart := dir.Perp().Scale(lengthenGap / 2)
		l.Lines = append(l.Lines, Line{Path: path.Move(apart), Width: 1, Ink: InkSoft, Alpha: 1})
		line.Path = path.Move(apart.Scale(-1))
		said := words.T("Lengthen or shorten here")
		if k.Name != "" {
			said = sentence(k.Name)
		}
		if reach(path) >= in.px(letterWidth*float64(utf8.RuneCountInString(said))) { // they keep within the piece
			l.Texts = append(l.Texts, Text{Words: said, At: mid, DY: 13, Size: 13, Ink: InkSoft, Halo: in.ground()})
		}
	case model.FoldLine:
		line.Dash = foldDash
	case model.DartLine:
		line.Width, line.Ink = 1.3, InkAccent
	default:
		line.Dash = []float64{6, 4}
	}
	l.Lines = append(l.Lines, line)
}

// beside puts words along a line, 10 px to its left as they are read.
func beside(text string, at geom.Point, dir geom.Vec) Text {
	turn := readable(dir)
	return Text{
		Words: text, At: at, DX: 10 * math.Sin(turn), DY: -10 * math.Cos(turn),
		Size: 12, Ink: InkSoft, Turn: turn,
	}
}

// readable is the turn of words along dir, upwards rather than downwards and
// never upside down.
func readable(dir geom.Vec) float64 {
	turn := math.Atan2(dir.Y, dir.X)
	if turn >= math.Pi/2-0.01 {
		turn -= math.Pi
	}
	if turn < -math.Pi/2-0.01 {
		turn += math.Pi
	}
	return turn
}

// notches draws the match marks: a tick into the piece, two for a double one.
func (l *Layer) notches(r grading.Piece, m geom.Affine) {
	for _, n := range r.Notches {
		at := m.Apply(n.At)
		in := m.ApplyVec(n.In).Unit()
		shifts := []float64{0}
		if n.Double {
			shifts = []float64{-3, 3}
		}
		for _, s := range shifts {
			l.Lines = append(l.Lines, Line{
				Path: geom.Polyline(at, at.Add(in)), Width: 2.6, Ink: InkAccent, Alpha: 1, Shift: s, Reach: 9,
			})
		}
	}
}

// along is the place a share 0 to 1 of the way along path and the direction
// there. It walks chords within a millimetre of the line: good for placing
// words, not for measuring.
func along(path geom.Path, share float64) (geom.Point, geom.Vec) {
	pts := path.Flatten(1)
	if len(pts) < 2 {
		return path.Start(), geom.Vec{X: 1}
	}
	var whole float64
	for i := 1; i < len(pts); i++ {
		whole += pts[i].Dist(pts[i-1])
	}
	left := share * whole
	for i := 1; i < len(pts); i++ {
		step := pts[i].Dist(pts[i-1])
		if left <= step && step > 0 || i == len(pts)-1 {
			t := 1.0
			if step > 0 {
				t = min(left/step, 1)
			}
			return pts[i-1].Lerp(pts[i], t), pts[i].Sub(pts[i-1]).Unit()
		}
		left -= step
	}
	return path.End(), path.EndDir()
}
