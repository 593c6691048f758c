package match

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// outline cuts a ring at its grade points; what was traced is drawn anew.
func (n *nest) outline(i int) model.Outline {
	r := n.rings[i]
	out := model.Outline{Size: r.size, Also: r.also}
	for k := range n.tracks {
		a, b := n.tracks[k].at[i].place, n.tracks[(k+1)%len(n.tracks)].at[i].place
		edge := cutRing(r.path, a, b)
		if r.dense {
			edge = redraw(edge)
		}
		out.Edges = append(out.Edges, edge)
	}
	return joined(out)
}

// cutRing is the stretch of a closed path from a to b, in its direction. Whole
// curves are kept as they are.
func cutRing(p geom.Path, a, b place) geom.Path {
	n := len(p)
	if a.t == 1 {
		a = place{(a.i + 1) % n, 0}
	}
	if b.t == 1 {
		b = place{(b.i + 1) % n, 0}
	}
	if a.i == b.i && a.t < b.t {
		return geom.Path{p[a.i].Sub(a.t, b.t)}
	}
	out := geom.Path{p[a.i].Sub(a.t, 1)}
	for i := (a.i + 1) % n; i != b.i; i = (i + 1) % n {
		out = append(out, p[i])
	}
	if b.t > 0 {
		out = append(out, p[b.i].Sub(0, b.t))
	}
	return out
}

// joined makes every edge start exactly where the one before ends.
func joined(o model.Outline) model.Outline {
	for k := range o.Edges {
		next := o.Edges[(k+1)%len(o.Edges)]
		o.Edges[k][len(o.Edges[k])-1].P3 = next[0].P0
	}
	return o
}
