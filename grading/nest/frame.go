package nest

import "quarterstep/model/geom"

// frame turns paper coordinates into across and along the grain, and back.
type frame struct{ across, along geom.Vec }

// axes are a place or a movement as {across, along}, in mm.
type axes [2]float64

func newFrame(grain geom.Vec) frame {
	return frame{across: grain.Perp().Scale(-1), along: grain}
}

func (f frame) of(p geom.Point) axes {
	v := geom.Vec(p)
	return axes{v.Dot(f.across), v.Dot(f.along)}
}

func (f frame) point(a axes) geom.Point {
	return geom.Point(f.across.Scale(a[0]).Add(f.along.Scale(a[1])))
}

func (f frame) dir(v geom.Vec) axes { return axes{v.Dot(f.across), v.Dot(f.along)} }
