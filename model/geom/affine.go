package geom

import (
	"math"

	"quarterstep/assets/words"
)

// Affine takes (x, y) to (A x + C y + E, B x + D y + F): the order of numbers
// of SVG's matrix(a b c d e f). The zero Affine squashes everything to (0, 0);
// use Identity to change nothing.
type Affine struct{ A, B, C, D, E, F float64 }

// Identity changes nothing.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translate moves by v mm.
func Translate(v Vec) Affine { return Affine{A: 1, D: 1, E: v.X, F: v.Y} }

// Rotate turns about (0, 0) by angle radians, clockwise as seen on the paper.
func Rotate(angle float64) Affine {
	s, c := math.Sincos(angle)
	return Affine{A: c, B: s, C: -s, D: c}
}

// ScaleXY stretches about (0, 0), across by x and down by y.
func ScaleXY(x, y float64) Affine { return Affine{A: x, D: y} }

// Mul is first n, then m: m.Mul(n).Apply(p) is m.Apply(n.Apply(p)).
func (m Affine) Mul(n Affine) Affine {
	return Affine{
		A: m.A*n.A + m.C*n.B, B: m.B*n.A + m.D*n.B,
		C: m.A*n.C + m.C*n.D, D: m.B*n.C + m.D*n.D,
		E: m.A*n.E + m.C*n.F + m.E, F: m.B*n.E + m.D*n.F + m.F,
	}
}

// Apply takes a point through m.
func (m Affine) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// ApplyVec takes a movement through m: shifts do not touch it.
func (m Affine) ApplyVec(v Vec) Vec { return Vec{m.A*v.X + m.C*v.Y, m.B*v.X + m.D*v.Y} }

// Inverse undoes m. It is an error where m squashes the plane to a line.
func (m Affine) Inverse() (Affine, error) {
	det := m.A*m.D - m.B*m.C
	inv := Affine{
		A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det,
		E: (m.C*m.F - m.D*m.E) / det, F: (m.B*m.E - m.A*m.F) / det,
	}
	if det == 0 || !inv.finite() {
		return Affine{}, words.Error("undoing a change of scale: it squashes the paper flat, so it cannot be undone")
	}
	return inv, nil
}

func (m Affine) finite() bool {
	return finite(m.A) && finite(m.B) && finite(m.C) && finite(m.D) && finite(m.E) && finite(m.F)
}

// RigidFit is the turn and shift that bring from nearest to to, in the sense of
// least squares, without stretching or mirroring; rms is the root mean square
// of the distances left, in mm. Points pair by index; extra ones are ignored,
// and no points give Identity. (Kabsch's solution, which in the plane is one
// arc tangent: W. Kabsch, Acta Cryst. A32 (1976) 922.)
func RigidFit(from, to []Point) (m Affine, rms float64) {
	n := min(len(from), len(to))
	a, b := centroid(from[:n]), centroid(to[:n])
	var dot, cross float64
	for i := range n {
		u, v := from[i].Sub(a), to[i].Sub(b)
		dot += u.Dot(v)
		cross += u.Cross(v)
	}
	m = Rotate(math.Atan2(cross, dot))
	shift := b.Sub(m.Apply(a))
	m.E, m.F = shift.X, shift.Y
	return m, rmsOf(m, from[:n], to[:n])
}

// TranslateFit is RigidFit without the turn.
func TranslateFit(from, to []Point) (m Affine, rms float64) {
	n := min(len(from), len(to))
	m = Translate(centroid(to[:n]).Sub(centroid(from[:n])))
	return m, rmsOf(m, from[:n], to[:n])
}

func centroid(pts []Point) Point {
	var sum Vec
	for _, p := range pts {
		sum = sum.Add(Vec(p))
	}
	return Point(sum.Scale(1 / float64(max(len(pts), 1))))
}

func rmsOf(m Affine, from, to []Point) float64 {
	var sum float64
	for i := range from {
		d := m.Apply(from[i]).Sub(to[i])
		sum += d.Dot(d)
	}
	return math.Sqrt(sum / float64(max(len(from), 1)))
}
