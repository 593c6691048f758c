package nest

import (
	"context"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// edge is one edge of the piece in all printed sizes with how it goes on.
type edge struct {
	printed  []geom.Path
	ctl      [][]axes // control points of printed, in the frame
	straight bool
	drawn    [][2]carry  // how the control points go on, the same for every size; or nil
	traced   []goingOn   // per printed line, where drawn is nil
	between  [][2][]axes // neighbouring sizes brought to the same cubics
	traces   []trace
	runs     [2]bool // at which ends the line runs smoothly on
	read     *reading
}

// reading is the movement of an edge whose ends move as e, with the traces laid
// along each other by it.
type reading struct {
	e      [2]ends
	field  [2]field
	traces []trace
}

// reading is how the edge moves if its ends move as e; it is read once.
func (o *edge) reading(ctx context.Context, n print, e [2]ends) (*reading, error) {
	if o.read != nil && o.read.e == e {
		return o.read, nil
	}
	r := &reading{e: e, traces: slices.Clone(o.traces)}
	for i := range r.traces {
		r.traces[i].s = slices.Clone(r.traces[i].s)
	}
	var err error
	if r.field, err = readField(ctx, n, r.traces, e, o.runs); err != nil {
		return nil, err
	}
	o.read = r
	return r, nil
}

// goingOn is the line an edge goes on with from one printed line, and how its
// control points are carried.
type goingOn struct {
	ctl     []axes
	carries [][2]carry
	// leaving, where it is not nil, is the way from the shaken printed line to
	// ctl, the two cut to the same cubics.
	leaving *leaving
}

type leaving struct {
	from, to []axes
	carries  [][2]carry
}

// newEdge reads an edge as its printed lines lie; e is how its two ends move,
// per direction, and runs says at which of them the line runs smoothly on. An
// edge that is neither straight nor drawn alike in all sizes is left without a
// way to go on: see trace and settle.
func newEdge(ctx context.Context, n print, f frame, paths []geom.Path, e [2]ends, runs [2]bool, tol float64) (edge, error) {
	out := edge{printed: paths, ctl: make([][]axes, len(paths)), traces: make([]trace, len(paths)), runs: runs}
	at := make([][]axes, len(paths))
	for i, p := range paths {
		if err := ctx.Err(); err != nil {
			return edge{}, err
		}
		out.ctl[i] = f.all(p.Controls())
		var err error
		if out.traces[i], err = newTrace(f, p, tol); err != nil {
			return edge{}, err
		}
		at[i] = out.traces[i].sample()
	}
	out.straight = straight(at)
	if !out.straight {
		out.drawn, _ = fitDrawn(n, out.ctl, e, runs)
	}
	for i := 0; i+1 < len(paths); i++ {
		if err := ctx.Err(); err != nil {
			return edge{}, err
		}
		a, b, err := sameCubics(paths[i], paths[i+1], tol)
		if err != nil {
			return edge{}, words.Errorf("laying neighbouring sizes along each other: %w", err)
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

// reads reports that nothing is left to find out about how the edge goes on.
func (o edge) reads() bool { return o.straight || o.drawn != nil }

// trace reads how a traced edge whose ends move as e goes on, each printed
// line with its own shape.
func (o *edge) trace(ctx context.Context, n print, e [2]ends, tol float64) error {
	r, err := o.reading(ctx, n, e)
	if err != nil {
		return err
	}
	o.traces, o.read = r.traces, nil
	m := [2]model.Measure{e[0].start.measure, e[1].start.measure}
	for i, p := range o.printed {
		if err := ctx.Err(); err != nil {
			return err
		}
		u, err := thirds(p, tol)
		if err != nil {
			return err
		}
		o.traced = append(o.traced, goingOn{ctl: o.ctl[i], carries: n.carries(o.traces[i].corresponding(u), r.field, m)})
	}
	return nil
}

// from is the control points the edge goes on with from printed line i, so
// many steps away, and how they are carried.
func (o edge) from(i int, steps float64) ([]axes, [][2]carry) {
	if o.drawn != nil {
		return o.ctl[i], o.drawn
	}
	g := o.traced[i]
	s := fade(steps)
	if g.leaving == nil || s == 1 {
		return g.ctl, g.carries
	}
	ctl := make([]axes, len(g.leaving.from))
	for k := range ctl {
		ctl[k] = mix(g.leaving.from[k], g.leaving.to[k], axes{s, s})
	}
	return ctl, g.leaving.carries
}

// beyond is the edge at place t outside the printed sizes: d0 and d1 are how
// far its ends go from the nearest printed line.
func (o edge) beyond(n print, f frame, t float64, method model.Method, d0, d1 axes) geom.Path {
	from := n.nearest(t)
	printed := o.ctl[from]
	start, end := add(printed[0], d0), add(printed[len(printed)-1], d1)
	if o.straight {
		return geom.Path{geom.Line(f.point(start), f.point(end))}
	}
	ctl, carries := o.from(from, t-n.edge(from, t))
	last := len(ctl) - 1
	d0, d1 = less(start, ctl[0]), less(end, ctl[last])
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

// share is the part of its end's movement that the place u of the edge, 0 to 1,
// takes in direction a.
func (o edge) share(line, a int, u float64) float64 {
	carries := o.drawn
	if carries == nil {
		carries = o.traced[line].carries
	}
	x := u * float64(len(carries)-1)
	k := min(int(x), len(carries)-2)
	w := carries[k][a].w + (x-float64(k))*(carries[k+1][a].w-carries[k][a].w)
	return min(1, max(0, w))
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
	last := len(a) - 1
	d0, d1 := less(b[0], a[0]), less(b[last], a[last])
	pts := make([]geom.Point, len(a))
	for k := range a {
		var s axes
		for d := range s {
			w := o.share(i, d, float64(k)/float64(last))
			s[d] = blend((1-w)*d0[d], w*d1[d], s0[d], s1[d])
		}
		pts[k] = f.point(mix(a[k], b[k], s))
	}
	pts[0], pts[last] = f.point(mix(a[0], b[0], s0)), f.point(mix(a[last], b[last], s1))
	return geom.FromControls(pts)
}

// blend is how far a place has gone that moves by m0 with its edge's start,
// which has gone s0 of its way, and by m1 with its end, which has gone s1; it
// lies between the two.
func blend(m0, m1, s0, s1 float64) float64 {
	m0, m1 = math.Abs(m0), math.Abs(m1)
	if m0+m1 == 0 {
		return (s0 + s1) / 2
	}
	return (m0*s0 + m1*s1) / (m0 + m1)
}

func add(p, d axes) axes  { return axes{p[0] + d[0], p[1] + d[1]} }
func less(p, q axes) axes { return axes{p[0] - q[0], p[1] - q[1]} }

func mix(a, b, s axes) axes {
	return axes{a[0] + s[0]*(b[0]-a[0]), a[1] + s[1]*(b[1]-a[1])}
}
