package follow

import "quarterstep/model/geom"

// straightEdge is the straight line between two corners.
func (f *Field) straightEdge(from, to geom.Point) Edge {
	return Edge{Path: geom.Path{geom.Line(from, to)}, Points: []geom.Point{from, to}}
}
