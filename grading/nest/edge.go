package nest

import (
	"fmt"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// edge is one edge of the piece in all printed sizes with how it goes on.
type edge struct {
	printed  []geom.Path
	ctl      [][]axes // control points of printed, in the frame
	straight bool
	drawn    [][2]carry   // the same for every size, or nil
	traced   [][][2]carry // per printed size, where drawn is nil
	between  [][2][]axes  // neighbouring sizes brought to the same cubics
}

// newEdge reads an edge; e is how its two ends move, per direction, and runs
// says at which of them the line runs smoothly on.
func newEdge(n print, f frame, paths []geom.Path, e [2]ends, runs [2]bool, tol float64) (edge, error) {
	out := edge{printed: paths, ctl: make([][]axes, len(paths))}
	for i, p := range paths {
		for _, c := range p.Controls() {
			out.ctl[i] = append(out.ctl[i], f.of(c))
		}
	}
	traces, at := make([]trace, len(paths)), make([][]axes, len(paths))
	for i, p := range paths {
		var err error
		if traces[i], err = newTrace(f, p, tol); err != nil {
			return edge{}, err
		}
		at[i] = traces[i].sample()
	}
	if out.straight = straight(at); out.straight || len(paths) < 2 {
		return out, nil
	}
	var ok bool
	if out.drawn, ok = fitDrawn(n, out.ctl, e, runs); !ok {
		out.drawn = nil
		if err := out.fitTraced(n, traces, e, tol); err != nil {
			return edge{}, err
		}
	}
	for i := 0; i+1 < len(paths); i++ {
		a, b, err := sameCubics(paths[i], paths[i+1], tol)
		if err != nil {
			return edge{}, fmt.Errorf("laying neighbouring sizes along each other: %w", err)
		}
		out.between = append(out.between, [2][]axes{f.all(a.Controls()), f.all(b.Controls())})
	}
	return out, nil
}

func (f frame) all(pts []geom.Point) []axes {
	out := make([]axes, len(pts))
	for i, p := range pts {
		out[i] = f.of(p)
	}
	return out
}

func (o *edge) fitTraced(n print, traces []trace, e [2]ends, tol float64) error {
	fl, err := readField(n, traces, e)
	if err != nil {
		return err
	}
	m := [2]model.Measure{e[0].start.measure, e[1].start.measure}
	for i, p := range o.printed {
		u, err := thirds(p, tol)
		if err != nil {
			return err
		}
		o.traced = append(o.traced, n.carries(traces[i].corresponding(u), fl, m))
	}
	return nil
}

// beyond is the edge outside the printed sizes: from is the printed size it
// goes on from, d0 and d1 how far its ends move.
func (o edge) beyond(n print, f frame, from int, t float64, method model.Method, d0, d1 axes) geom.Path {
	ctl := o.ctl[from]
	last := len(ctl) - 1
	if o.straight || last < 3 {
		return geom.Path{geom.Line(f.point(add(ctl[0], d0)), f.point(add(ctl[last], d1)))}
	}
	carries := o.drawn
	if carries == nil {
		carries = o.traced[from]
	}
	pts := make([]geom.Point, len(ctl))
	for k, p := range ctl {
		for a := range 2 {
			c := carries[k][a]
			p[a] += (1-c.w)*d0[a] + c.w*d1[a] + n.growth(c.own, from, t, method)
		}
		pts[k] = f.point(p)
	}
	return geom.FromControls(pts)
}

// among is the edge between printed sizes i and i+1: s0 and s1 are how far its
// two ends have gone from one to the other, 0 to 1, per direction.
func (o edge) among(f frame, i int, s0, s1 axes) geom.Path {
	if o.straight {
		a, b := o.ctl[i], o.ctl[i+1]
		return geom.Path{geom.Line(
			f.point(mix(a[0], b[0], s0)), f.point(mix(a[len(a)-1], b[len(b)-1], s1)))}
	}
	a, b := o.between[i][0], o.between[i][1]
	pts := make([]geom.Point, len(a))
	for k := range a {
		u := float64(k) / float64(len(a)-1)
		s := axes{s0[0] + u*(s1[0]-s0[0]), s0[1] + u*(s1[1]-s0[1])}
		pts[k] = f.point(mix(a[k], b[k], s))
	}
	return geom.FromControls(pts)
}

func add(p, d axes) axes { return axes{p[0] + d[0], p[1] + d[1]} }

func mix(a, b, s axes) axes {
	return axes{a[0] + s[0]*(b[0]-a[0]), a[1] + s[1]*(b[1]-a[1])}
}
