package board

import (
	"math"

	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// How far Ctrl with an arrow key turns the ruler, in degrees, and with Shift too.
const (
	ruleTurn      = 1.0
	ruleTurnLarge = 15.0
)

// take gives the ruler to the arrow keys.
func (s *seeThrough) take() {
	s.keyed = s.shown()
	s.tell()
}

// letGo takes the ruler from the keys; false where they have not got it.
func (s *seeThrough) letGo() bool {
	had := s.keyed
	if s.keyed = false; had {
		s.tell()
	}
	return had
}

// slideBy slides the ruler by an arrow key.
func (s *seeThrough) slideBy(key fyne.KeyName, step Step) {
	unit := s.board.unit
	if unit != model.Inches {
		unit = model.Centimetres
	}
	s.zero = s.zero.Add(arrows[key].Scale(nudges[unit][step]))
	s.place()
	s.tell()
}

// turnBy turns the ruler about its zero by Ctrl and an arrow key: right and down
// as a clock goes. It is false where the keys have not got it.
func (s *seeThrough) turnBy(key fyne.KeyName, large bool) bool {
	d, arrow := arrows[key]
	if !s.keyed || !arrow {
		return false
	}
	by := ruleTurn
	if large {
		by = ruleTurnLarge
	}
	s.dir = turned(s.dir, by*(d.X+d.Y))
	s.place()
	s.tell()
	return true
}

// turned is a direction turned by degrees; where that is level or upright to a
// rounding, exactly so.
func turned(d geom.Vec, degrees float64) geom.Vec {
	now := math.Atan2(d.Y, d.X)*180/math.Pi + degrees
	now = math.Round(now*1e6) / 1e6
	sin, cos := math.Sincos(now * math.Pi / 180)
	const none = 1e-9
	if math.Abs(sin) < none {
		sin, cos = 0, math.Copysign(1, cos)
	}
	if math.Abs(cos) < none {
		cos, sin = 0, math.Copysign(1, sin)
	}
	return geom.Vec{X: cos, Y: sin}
}

func (s *seeThrough) tell() {
	if s.board.OnRuler != nil {
		s.board.OnRuler()
	}
}

// words says where the ruler lies and what it reads.
func (s *seeThrough) words() []string {
	if !s.keyed {
		return nil
	}
	at := s.zero.Sub(s.board.in.Zero)
	turn := math.Mod(math.Atan2(s.dir.Y, s.dir.X)*180/math.Pi+360, 360)
	out := []string{words.F("Ruler at %s, %s, turned %s°",
		measure.FormatMM(at.X, s.board.unit), measure.FormatMM(at.Y, s.board.unit), words.Figure(turn, 0))}
	if s.gap == "" {
		return append(out, words.T("Arrows slide it, with Ctrl they turn it, Esc lets go"))
	}
	return append(out, s.gap)
}
