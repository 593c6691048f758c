package board

import (
	"image"
	"math"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// roundLens is the breadth, in px, of the close-up while tracing: round, so that
// little of the photo lies under it.
const roundLens = 186

// round reports whether the close-up is the round one of tracing.
func (l *lens) round() bool { return l.board.tool == Trace }

// layRound lays the round close-up in the lower right corner, or the lower left
// one while the pointer is there.
func (l *lens) layRound() {
	const rim, ring = 16, 3
	w, h := l.board.openSize()
	x, y := w-roundLens-rim, l.board.head+h-roundLens-rim
	low := l.board.footWide > 0 && l.board.footWide < x
	if low {
		y += l.board.foot
	}
	if p := l.board.pointer; p.X > x-40 && p.Y > y-40 && l.board.inside {
		x = rim
		if low {
			y -= l.board.foot
		}
	}
	l.frame.CornerRadius = roundLens / 2
	l.frame.Resize(size(roundLens, roundLens))
	l.frame.Move(pos(x, y))
	l.raster.Resize(size(roundLens-2*ring, roundLens-2*ring))
	l.raster.Move(pos(x+ring, y+ring))
	l.title.Hide()
	l.note.Hide()
	l.frame.Refresh()
	l.raster.Refresh()
}

// cross is the middle of the round close-up, open where the place itself is, and
// how much larger it shows it. Places are px of the close-up.
func (l *lens) cross(mid view.Px) scene.Layer {
	const open, arm = 6, 26
	var out scene.Layer
	for _, d := range []geom.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		at := geom.Pt(mid.X, mid.Y)
		hair := scene.Line{Path: geom.Polyline(at.Add(d.Scale(open)), at.Add(d.Scale(arm))), Width: 1.6, Ink: scene.InkWords, Alpha: 1}
		rim := hair // so that it shows on light paper in dark colours
		rim.Width, rim.Ink = 4, scene.InkRaised
		out.Lines = append(out.Lines, rim, hair)
	}
	say := words.F("%s × larger", plain(l.zoom()))
	at := geom.Pt(mid.X, 2*mid.Y-21)
	// On a ground of their own: a halo alone does not hold light words on white paper.
	half := geom.Vec{X: 3.4*float64(utf8.RuneCountInString(say)) + 9, Y: 11}.Scale(max(l.board.in.Words, 1))
	out.Fills = append(out.Fills, scene.Fill{Outline: pill(at, half), Ink: scene.InkRaised, Alpha: 1})
	out.Texts = append(out.Texts, scene.Text{Words: say, At: at, Size: 12, Ink: scene.InkWords})
	return out
}

// pill is a box about a place with its ends round.
func pill(mid geom.Point, half geom.Vec) geom.Path {
	const parts = 12
	var pts []geom.Point
	for _, end := range []float64{1, -1} {
		for i := range parts + 1 {
			sin, cos := math.Sincos(math.Pi * (float64(i)/parts - 0.5))
			pts = append(pts, mid.Add(geom.Vec{X: end * (half.X - half.Y + half.Y*cos), Y: end * half.Y * sin}))
		}
	}
	return geom.Polyline(append(pts, pts[0])...)
}

// cutRound makes what lies outside the largest circle in a picture clear.
func cutRound(img *image.RGBA) {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	r := float64(min(w, h)) / 2
	for y := range h {
		for x := range w {
			in := r - math.Hypot(float64(x)+0.5-float64(w)/2, float64(y)+0.5-float64(h)/2)
			if in >= 1 {
				continue
			}
			share := max(in, 0)
			px := img.Pix[y*img.Stride+4*x:]
			for i := range 4 {
				px[i] = uint8(share * float64(px[i]))
			}
		}
	}
}
