package paper

import (
	"context"
	"image"
	"math"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/target"
)

// Four targets cut out one by one, of whichever codes, are the corners of a
// rectangle in the order of their codes once its sides are typed.
func TestFourSingleTargets(t *testing.T) {
	p := &Photo{Name: "four.jpg", Picture: picture.Picture{Gray: image.NewGray(image.Rect(0, 0, 1500, 2000))}}
	const per, across, down = 2.5, 389.0, 564.0
	r := Request{Reference: Targets, Unit: "cm"}
	var found []target.Found
	for i, mm := range []geom.Point{{}, {X: across}, {X: across, Y: down}, {Y: down}} {
		at := geom.Pt(200+per*mm.X, 250+per*mm.Y)
		found = append([]target.Found{{Code: []int{0, 7, 11, 19}[i], Centre: at}}, found...)
	}
	r.Seen = p.sight(found)
	if _, err := p.Straighten(context.Background(), r); err == nil || !strings.Contains(err.Error(), "not found") {
		t.Errorf("without their distances: %v", err)
	}
	r.Apart = [2]float64{across, down}
	s, err := p.Straighten(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	a, b := s.Map.MM(geom.Pt(200, 250)), s.Map.MM(geom.Pt(200+per*across, 250+per*down))
	if d := a.Dist(b); math.Abs(d-math.Hypot(across, down)) > 0.5 || !strings.Contains(s.Say, "agree to within") {
		t.Errorf("the far corners lie %.1f mm apart, not %.1f: %s", d, math.Hypot(across, down), s.Say)
	}
}
