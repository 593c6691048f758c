package exchange

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// parseTransform reads a transform attribute: translate, scale, rotate, skewX,
// skewY and matrix, in any number (SVG 1.1, 7.6).
func parseTransform(s string) (geom.Affine, error) {
	m := geom.Identity()
	rest := strings.TrimSpace(s)
	for rest != "" && rest != "none" {
		name, after, ok := strings.Cut(rest, "(")
		args, next, ok2 := strings.Cut(after, ")")
		v, ok3 := numbers(args)
		step, ok4 := oneTransform(strings.TrimSpace(name), v)
		if !ok || !ok2 || !ok3 || !ok4 {
			return m, unusable(words.F("The transform “%s” in this drawing cannot be read. Save it as plain SVG and bring it in again.", shorten(s)))
		}
		m = m.Mul(step)
		rest = strings.TrimLeft(next, " \t\r\n\f,")
	}
	return m, nil
}

func oneTransform(name string, v []float64) (geom.Affine, bool) {
	angle := 0.0
	if len(v) > 0 {
		angle = v[0] * math.Pi / 180
	}
	switch {
	case name == "translate" && len(v) == 1:
		return geom.Translate(geom.Vec{X: v[0]}), true
	case name == "translate" && len(v) == 2:
		return geom.Translate(geom.Vec{X: v[0], Y: v[1]}), true
	case name == "scale" && len(v) == 1:
		return geom.ScaleXY(v[0], v[0]), true
	case name == "scale" && len(v) == 2:
		return geom.ScaleXY(v[0], v[1]), true
	case name == "rotate" && len(v) == 1:
		return geom.Rotate(angle), true
	case name == "rotate" && len(v) == 3:
		c := geom.Vec{X: v[1], Y: v[2]}
		return geom.Translate(c).Mul(geom.Rotate(angle)).Mul(geom.Translate(c.Scale(-1))), true
	case name == "skewX" && len(v) == 1:
		return geom.Affine{A: 1, C: math.Tan(angle), D: 1}, true
	case name == "skewY" && len(v) == 1:
		return geom.Affine{A: 1, B: math.Tan(angle), D: 1}, true
	case name == "matrix" && len(v) == 6:
		return geom.Affine{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}, true
	}
	return geom.Affine{}, false
}

// stretch is the most that m lengthens any movement (its operator norm).
func stretch(m geom.Affine) float64 {
	sum := m.A*m.A + m.B*m.B + m.C*m.C + m.D*m.D
	det := m.A*m.D - m.B*m.C
	return math.Sqrt((sum + math.Sqrt(max(sum*sum-4*det*det, 0))) / 2)
}
