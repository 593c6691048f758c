package spread

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

var errDart = words.Fault("runs lengthwise through a dart; a cut may cross a dart but not run along it")

// refuse says why the paper cannot be cut at l, of which there are already
// others.
func (o *outline) refuse(l cutLine, others []cutLine) error {
	if o.alongDart(l) {
		return errDart
	}
	for i, other := range others {
		if l.up == other.up && crosses(l, other) {
			return words.Errorf("crosses cut line %d, which runs the same way; move one of them", i+1)
		}
	}
	return nil
}

// crosses reports that two cuts meet inside the piece.
func crosses(a, b cutLine) bool {
	return len(geom.Intersect(geom.Polyline(a.from, a.to), geom.Polyline(b.from, b.to), lineTol)) > 0
}

// alongDart reports that l leaves the piece through the mouth of a dart, or runs
// along one drawn inside the piece.
func (o *outline) alongDart(l cutLine) bool {
	for _, d := range o.piece.Darts {
		from, to := o.piece.PointIndex(d.From), o.piece.PointIndex(d.To)
		if from < 0 || to < 0 {
			continue
		}
		mouth := o.ahead(o.start[from], o.start[to])
		for _, s := range []float64{l.a, l.b} {
			if o.ahead(o.start[from], s) <= mouth {
				return true
			}
		}
	}
	for _, d := range o.piece.Lines {
		if d.Kind == model.DartLine && len(d.Drawn) > 0 && along(l, d.Drawn[0].Path) {
			return true
		}
	}
	return false
}

// along reports that l crosses a drawn dart and runs within 30 degrees of its
// length.
func along(l cutLine, dart geom.Path) bool {
	var long geom.Vec
	for _, c := range dart {
		if v := c.P3.Sub(dart.Start()); v.Len() > long.Len() {
			long = v
		}
	}
	cut := geom.Polyline(l.from, l.to)
	return math.Abs(long.Unit().Dot(cut.StartDir())) > square && len(geom.Intersect(cut, dart, lineTol)) > 0
}
