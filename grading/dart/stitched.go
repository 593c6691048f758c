package dart

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// LegsDiffer is how much longer the first leg is than the second, mm, each from
// the apex to where it crosses the stitching line, which lies inside the seam
// edges by their allowances. The error says which seam has no stitching line
// that the leg crosses.
func (d Dart) LegsDiffer(edges []geom.Path) (float64, error) {
	a, b := d.legs(edges)
	inward := 1.0
	if geom.Join(edges...).Area() < 0 {
		inward = -1
	}
	first, err := d.sewnLeg(a, edges[d.before(len(edges))].Reverse(), inward*d.Allowances[0])
	if err != nil {
		return 0, err
	}
	second, err := d.sewnLeg(b, edges[d.To], -inward*d.Allowances[1])
	return first - second, err
}

// sewnLeg is how far from the apex the leg to end crosses the stitching line of
// the seam that starts there, off mm to the side of it.
func (d Dart) sewnLeg(end geom.Point, seam geom.Path, off float64) (float64, error) {
	if off == 0 {
		return end.Dist(d.Apex), nil
	}
	const tol = 1e-3
	line, err := geom.OffsetEdge(seam, off, tol)
	if err != nil {
		return 0, words.Errorf("finding where the %s is sewn: %w", d.Name, err)
	}
	start := line.Start()
	reach := end.Dist(d.Apex)
	long := append(geom.Path{geom.Line(start.Add(line.StartDir().Scale(-reach)), start)}, line...)
	leg := geom.Polyline(d.Apex, end)
	for _, x := range geom.Intersect(long, leg, tol) {
		return x.At.Dist(d.Apex), nil
	}
	return 0, words.Errorf("finding where the %s is sewn: its leg does not cross the stitching line beside it", d.Name)
}
