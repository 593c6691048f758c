package dart_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

func TestClosingIsATurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, edges := drawn(t)
		d := read(t, q)
		c, err := d.Close(edges)
		if err != nil {
			t.Fatal(err)
		}
		for j, e := range edges {
			if j >= d.From && j < d.To {
				continue
			}
			m := c.Moves[j]
			if det := m.A*m.D - m.B*m.C; math.Abs(det-1) > 1e-12 || math.Abs(m.A*m.A+m.B*m.B-1) > 1e-12 {
				t.Errorf("edge %d is not turned: %v", j+1, m)
			}
			near(t, "apex", m.Apply(d.Apex).Dist(d.Apex), 0, 1e-9)
			back, err := m.Inverse()
			if err != nil {
				t.Fatal(err)
			}
			if off := apart([]geom.Path{c.Edges[j].Transform(back)}, []geom.Path{e}); off > 1e-9 {
				t.Errorf("opened again, edge %d is %g mm off", j+1, off)
			}
			if q.Edges[j].Kind == model.Fold && m != geom.Identity() {
				t.Error("the fold was turned")
			}
		}
		for j, e := range edges { // just inside each edge the paper goes with it
			in := e[0].At(0.5).Lerp(d.Apex, 0.02)
			if isCap := j >= d.From && j < d.To; !isCap && c.MoveAt(in) != c.Moves[j] {
				t.Errorf("beside edge %d the paper does not go with it", j+1)
			}
		}
		a, b := c.Before.End(), c.After.Start()
		near(t, "legs out of line", a.Sub(d.Apex).Cross(b.Sub(d.Apex)), 0, 1e-6)
		near(t, "step", a.Dist(d.Apex)-b.Dist(d.Apex), c.Step, 1e-9)
	})
}

// What closing takes out is the dart: the two parts that are left lie beside
// each other, and their areas are the piece's without the dart's.
func TestClosingTakesOutTheDart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, edges := drawn(t)
		d := read(t, q)
		c, err := d.Close(edges)
		if err != nil {
			t.Fatal(err)
		}
		at := geom.Path{geom.Line(d.Apex, d.Apex)}
		parts := map[bool][]geom.Path{}
		n := len(edges)
		for i := range n {
			j := (d.To + i) % n
			if j >= d.From && j < d.To {
				continue
			}
			parts[d.Turned[j]] = append(parts[d.Turned[j]], c.Edges[j])
		}
		left := area(append([]geom.Path{at}, parts[true]...)...) + area(append([]geom.Path{at}, parts[false]...)...)
		whole := area(edges...)
		taken := area(append([]geom.Path{at}, edges[d.From:d.To]...)...)
		near(t, "area of the closed piece", left, whole-taken, 1e-6*whole)
	})
}

// A side dart folds towards the hem, a waist dart towards the centre, on either
// side of the piece. Common practice.
func TestWhichWayDartsFold(t *testing.T) {
	q, _ := sided(16, upright(), upright(), 2)
	if d := read(t, q); d.Folds != dart.After {
		t.Error("the side dart folds up")
	}
	turnedOver, quarter := geom.Affine{A: 1, D: -1}, geom.Rotate(math.Pi/2)
	const top, hem, fold = 0, 5, 6 // edges of the piece
	for _, c := range []struct {
		name string
		by   geom.Affine
		fold int
		want dart.Side
	}{
		{"side dart walked the other way", turnedOver, fold, dart.Before},
		{"waist dart, the centre beside its first leg", quarter, top, dart.Before},
		{"waist dart, the centre beside its second leg", quarter, hem, dart.After},
		{"waist dart walked the other way", turnedOver.Mul(quarter), top, dart.Before},
	} {
		q, edges := sided(16, upright(), upright(), 2)
		for j := range edges {
			edges[j] = edges[j].Transform(c.by)
		}
		q.Nest = []model.Outline{{Size: "40", Edges: edges}}
		q.Edges[fold].Kind, q.Edges[c.fold].Kind = model.Plain, model.Fold
		if d := read(t, q); d.Folds != c.want {
			t.Errorf("%s: folds to side %d", c.name, d.Folds)
		}
	}
}

func TestBetweenFoldsNothingTurns(t *testing.T) {
	q, edges := sided(16, upright(), upright(), 2)
	q.Edges[1].Kind, q.Edges[4].Kind = model.Fold, model.Centre
	if _, err := read(t, q).Close(edges); err == nil {
		t.Error("closed all the same")
	}
}
