package dart

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// capTol is how exactly the tip of the cap is found, mm.
const capTol = 1e-7

// shapeCap draws the cap anew: the half beside the side that the dart is folded
// onto is the mirror image, over that leg, of the seam there, as far as the
// middle of the dart; the other half is the mirror image of that half.
func (d Dart) shapeCap(edges []geom.Path) error {
	n := len(edges)
	a, b := d.legs(edges)
	seam, leg, from := edges[d.To], b, a
	if d.Folds == Before {
		seam, leg, from = edges[d.before(n)].Reverse(), a, b
	}
	axis := d.axis(edges)
	half, err := d.toTip(seam.Transform(d.mirror(leg.Sub(d.Apex))), axis)
	if err != nil {
		return err
	}
	other := half.Transform(d.mirror(axis))
	half[0].P0, other[0].P0 = leg, from
	other[len(other)-1].P3 = half.End()
	if d.Folds == After {
		half, other = other, half
	}
	d.setCap(edges, half, other.Reverse())
	return nil
}

// toTip is the mirrored seam from the leg to the middle of the dart; a seam that
// ends before it goes on straight.
func (d Dart) toTip(seam geom.Path, axis geom.Vec) (geom.Path, error) {
	reach := seam.Start().Dist(d.Apex)
	long := append(seam[:len(seam):len(seam)], geom.Line(seam.End(), seam.End().Add(seam.EndDir().Scale(reach))))
	for _, x := range geom.Intersect(long, geom.Polyline(d.Apex, d.Apex.Add(axis.Scale(4*reach))), capTol) {
		one, _ := long[x.IA].Split(x.TA)
		return append(long[:x.IA:x.IA], one), nil
	}
	return nil, words.Errorf("the seam beside the %s, folded over, never meets the middle of the dart", d.Name)
}

// setCap lays the two halves of the cap, from the first leg to the second.
func (d Dart) setCap(edges []geom.Path, first, second geom.Path) {
	if d.capEdges(len(edges)) == 1 {
		edges[d.From] = geom.Join(first, second)
		return
	}
	edges[d.From], edges[(d.From+1)%len(edges)] = first, second
}
