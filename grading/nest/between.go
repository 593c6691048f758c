package nest

import (
	"sort"

	"quarterstep/model/geom"
)

// sameJoint is how near, in relative length, two joints count as one.
const sameJoint = 1e-6

// sameCubics cuts two paths at each other's joints, by relative length, so
// that both have the same number of cubics without either changing its line.
func sameCubics(a, b geom.Path, tol float64) (geom.Path, geom.Path, error) {
	if len(a) == len(b) {
		return a, b, nil
	}
	ua, err := thirds(a, tol)
	if err != nil {
		return nil, nil, err
	}
	ub, err := thirds(b, tol)
	if err != nil {
		return nil, nil, err
	}
	ja, jb := joints(ua), joints(ub)
	all := append(append([]float64{}, ja...), jb...)
	sort.Float64s(all)
	cuts := all[:1]
	for _, u := range all[1:] {
		if u-cuts[len(cuts)-1] > sameJoint {
			cuts = append(cuts, u)
		}
	}
	ca, err := cutAt(a, ja, cuts, tol)
	if err != nil {
		return nil, nil, err
	}
	cb, err := cutAt(b, jb, cuts, tol)
	return ca, cb, err
}

// joints keeps every third value of thirds: where the cubics meet.
func joints(thirds []float64) []float64 {
	var out []float64
	for i := 0; i < len(thirds); i += 3 {
		out = append(out, thirds[i])
	}
	return out
}

// cutAt cuts p, whose joints lie at own, at all cuts; cuts include own.
func cutAt(p geom.Path, own, cuts []float64, tol float64) (geom.Path, error) {
	var out geom.Path
	i := 0
	for j := 0; j+1 < len(cuts); j++ {
		for i+1 < len(p) && (cuts[j]+cuts[j+1])/2 > own[i+1] {
			i++
		}
		t0, err := paramAt(p[i], own[i], own[i+1], cuts[j], tol)
		if err != nil {
			return nil, err
		}
		t1, err := paramAt(p[i], own[i], own[i+1], cuts[j+1], tol)
		if err != nil {
			return nil, err
		}
		out = append(out, p[i].Sub(t0, t1))
	}
	return weld(out), nil
}

// paramAt is the parameter of cubic c, which spans relative lengths u0 to u1,
// at relative length u.
func paramAt(c geom.Cubic, u0, u1, u, tol float64) (float64, error) {
	switch {
	case u <= u0+sameJoint:
		return 0, nil
	case u >= u1-sameJoint:
		return 1, nil
	}
	l, err := c.Length(tol)
	if err != nil {
		return 0, err
	}
	return c.ParamAt(l*(u-u0)/(u1-u0), tol)
}

// weld makes each cubic start exactly where the one before ends.
func weld(p geom.Path) geom.Path {
	for i := 1; i < len(p); i++ {
		p[i].P0 = p[i-1].P3
	}
	return p
}
