package dart

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Side is one of the two sides of a dart, in the order of the outline.
type Side uint8

// Before is the side whose seam ends at the first leg, After the side whose
// seam starts at the second.
const (
	Before Side = iota
	After
)

// Dart is a dart of a piece at one size.
type Dart struct {
	Name     string
	From, To int // grade points, and edges, at the first and second leg
	Apex     geom.Point
	// Folds is the side that the dart is folded onto.
	Folds Side
	// Turned says which edges are turned when the dart is closed, and Tear at
	// which grade point the outline opens; Turned is nil where neither side can
	// turn.
	Turned []bool
	Tear   int
	// Turns is the side that is turned.
	Turns Side
	// Allowances are those of the seam before and after it, mm.
	Allowances [2]float64
	// Held says that a fold or centre line ends at it.
	Held bool
}

// leastWidth is the least angle, in degrees, between two legs that make a dart,
// and leastLeg the shortest leg, in mm; by our own judgement.
const (
	leastWidth = 0.2
	leastLeg   = 3.0
)

// Read is dart d of piece q with its apex at one size. Which side turns and
// which way the dart folds is read from the largest printed size, so that it is
// the same in all of them. The error says what the dart lacks.
func Read(q model.Piece, d model.Dart, apex geom.Point) (Dart, error) {
	out := Dart{Name: d.Name, From: q.PointIndex(d.From), To: q.PointIndex(d.To), Apex: apex}
	if out.Name == "" {
		out.Name = words.T("dart")
	}
	if out.From < 0 || out.To < 0 || out.From == out.To || len(q.Nest) == 0 {
		return out, words.Errorf("the %s of %s does not end at two grade points", out.Name, q.Name)
	}
	o := q.Nest[len(q.Nest)-1]
	printed := out.Printed(d, o)
	out.Allowances = [2]float64{q.Edges[out.before(len(q.Edges))].Allowance, q.Edges[out.To].Allowance}
	out.Held = still(q.Edges[out.before(len(q.Edges))]) || still(q.Edges[out.To])
	out.Folds = printed.foldsOnto(q, o.Edges)
	out.Turned, out.Tear, out.Turns = printed.turns(q, o.Edges)
	return out, nil
}

// Printed is the dart as printed on outline o of its piece; md is where it was
// read from. A dart whose apex was not printed there keeps its own.
func (d Dart) Printed(md model.Dart, o model.Outline) Dart {
	for _, a := range md.Apex {
		if a.Size == "" || slices.Contains(o.Sizes(), a.Size) {
			d.Apex = a.At
			break
		}
	}
	return d
}

// before is the edge that ends at the first leg, of n edges.
func (d Dart) before(n int) int { return (d.From + n - 1) % n }

// legs is the two leg ends on the edges.
func (d Dart) legs(edges []geom.Path) (first, second geom.Point) {
	return edges[d.From].Start(), edges[d.To].Start()
}

// TakeUp is how wide the dart is between its leg ends, mm.
func (d Dart) TakeUp(edges []geom.Path) float64 {
	a, b := d.legs(edges)
	return a.Dist(b)
}

// angle is how far, in radians, the second leg must be turned about the apex to
// lie on the first, clockwise as seen on the paper.
func (d Dart) angle(edges []geom.Path) float64 {
	a, b := d.legs(edges)
	u, v := b.Sub(d.Apex), a.Sub(d.Apex)
	return math.Atan2(u.Cross(v), u.Dot(v))
}

// about is a turn about the apex by angle radians.
func (d Dart) about(angle float64) geom.Affine {
	c := geom.Vec(d.Apex)
	return geom.Translate(c).Mul(geom.Rotate(angle)).Mul(geom.Translate(c.Scale(-1)))
}

// mirror turns over about the line through the apex along dir.
func (d Dart) mirror(dir geom.Vec) geom.Affine {
	u := dir.Unit()
	flip := geom.Affine{A: 2*u.X*u.X - 1, B: 2 * u.X * u.Y, C: 2 * u.X * u.Y, D: 2*u.Y*u.Y - 1}
	c := geom.Vec(d.Apex)
	return geom.Translate(c).Mul(flip).Mul(geom.Translate(c.Scale(-1)))
}

// Kink is by how many degrees the seam turns at the closed dart, and Step by how
// many mm its two halves miss each other along the legs: the first leg less the
// second.
func (d Dart) Kink(edges []geom.Path) (kink, step float64) {
	a, b := d.legs(edges)
	u := edges[d.before(len(edges))].EndDir()
	v := d.about(d.angle(edges)).ApplyVec(edges[d.To].StartDir())
	return math.Abs(degrees(math.Atan2(u.Cross(v), u.Dot(v)))), a.Dist(d.Apex) - b.Dist(d.Apex)
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
