package geom

import "quarterstep/assets/words"

// Fit draws n cubics through the first and the last of pts, as near the points
// between as least squares of the distances makes them, smooth at the inner
// joints. start and end are the directions of travel at the two ends; a zero
// Vec leaves that direction free. maxErr is the greatest distance of a point
// from the path, in mm.
//
// The joints share out the length of the points evenly. From there the places
// on the curve that face the points and the curve itself are improved in turn
// (P. J. Schneider, Graphics Gems, 1990), by distances taken square to the
// curve, which settles in a few rounds (W. Wang, H. Pottmann, Y. Liu, ACM
// Trans. Graphics 25 (2006) 214), damped after Levenberg and Marquardt.
//
// It is an error for fewer than two different points, a coordinate that is not
// a number, or n below 1.
func Fit(pts []Point, start, end Vec, n int) (p Path, maxErr float64, err error) {
	f, err := newFitting(pts, start, end, n)
	if err != nil {
		return nil, 0, words.Errorf("drawing a curve along points: %w", err)
	}
	f.solve(1)
	best, least := f.path(), f.facing()
	damping := 1e-2
	for range 30 {
		x, u := f.x, f.u
		f.solve(damping)
		now := f.facing()
		if !(now < least) { // gone too far: back, and with more care
			f.x, f.u = x, u
			if damping *= 100; damping > 1 {
				break
			}
			continue
		}
		settled := now > least*(1-1e-6) || now < 1e-20
		best, least, damping = f.path(), now, damping/10
		if settled {
			break
		}
	}
	for _, q := range f.pts {
		_, _, dist := best.Nearest(q, 1e-9)
		maxErr = max(maxErr, dist)
	}
	return best, maxErr, nil
}
