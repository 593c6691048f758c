package nest

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// calmWithin is how near, in mm, the line that an edge goes on with keeps to
// where all printed lines together say it lies. By our own trial: tighter draws
// what is left of the shaking.
const calmWithin = 0.15

// calmCurve is how long, in mm, a cubic of the line that an edge goes on with is
// at least: shorter ones would follow the waves of a shaking hand and make bends
// no printed size has.
const calmCurve = 1.4 * handWave

// calm is the line edge o goes on with from printed line i: drawn anew, with at
// most as many cubics, through where all lines together say it lies, and carried
// by field f in the measures m.
func (o edge) calm(n print, f frame, i int, through []axes, by [2]field, m [2]model.Measure) (goingOn, error) {
	printed := o.printed[i]
	pts := make([]geom.Point, len(through))
	for j, p := range through {
		pts[j] = f.point(p)
	}
	line := printed
	most := min(len(printed), int(o.traces[i].length/calmCurve))
	for count := 1; count <= max(1, most); count++ {
		drawn, off, err := spline(pts, count)
		if err != nil {
			return goingOn{}, err
		}
		line = drawn
		if off <= calmWithin {
			break
		}
	}
	carried := func(p geom.Path) ([][2]carry, error) {
		u, err := thirds(p, arcTol)
		return n.carries(o.traces[i].corresponding(u), by, m), err
	}
	carries, err := carried(line)
	if err != nil {
		return goingOn{}, err
	}
	from, to, err := sameCubics(printed, line, arcTol)
	if err != nil {
		return goingOn{}, err
	}
	leave, err := carried(to)
	if err != nil {
		return goingOn{}, err
	}
	return goingOn{
		ctl: f.all(line.Controls()), carries: carries,
		leaving: &leaving{f.all(from.Controls()), f.all(to.Controls()), leave},
	}, nil
}
