package target

import (
	"context"
	"testing"

	"quarterstep/model/geom"
)

// A ring whose rim is not plain to see all round has none, though the target is
// found: a line drawn right up to it, paper too dark to tell.
func TestRimIsPlainOrNone(t *testing.T) {
	c := camera{w: 240, h: 240, dist: 100, tilt: 10}
	one := laid{3, geom.Pt(0, 0), 12, 0}
	for name, dark := range map[string]func(geom.Point) bool{
		"plain":       func(geom.Point) bool { return false },
		"line beside": func(p geom.Point) bool { return geom.Vec(p).Len() > 13.56 && geom.Vec(p).Len() < 14.5 && p.X > 12.8 },
	} {
		s := onTable(one)
		g := c.photograph(t, func(p geom.Point) float64 {
			if dark(p) {
				return 25
			}
			return s(p)
		}, 2, 1)
		found, err := Find(context.Background(), g)
		if err != nil || len(found) != 1 {
			t.Fatalf("%s: %d targets, %v", name, len(found), err)
		}
		if plain := found[0].Rim != [RimPlaces]geom.Point{}; plain != (name == "plain") {
			t.Errorf("%s: a rim %v", name, plain)
		}
	}
}
