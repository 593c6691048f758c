package nest

import (
	"context"
	"math"

	"quarterstep/model/geom"
)

// Places at the same relative length of two sizes need not be the same place
// of the garment: where one end of an armhole moves with the bust, all of its
// lengthening is near the underarm. So correspondence starts from relative
// length and is then found anew, some rounds over, by laying the movement read
// so far on the mean line and taking the nearest place of each printed line
// (iterated closest points, Besl and McKay 1992).
const rounds = 20

// settled is how little, in mm, what the lines waver about the movement read
// must change from one round to the next for the last round to be that.
const settled = 1e-4

// smoothings is how often neighbouring places are evened out after each round,
// so that the correspondence runs on without kinks.
const smoothings = 4

// trace is one printed size of a traced edge as closely spaced places.
type trace struct {
	at     []axes
	length float64   // mm
	s      []float64 // share of the length where corresponding place j lies
}

const traceSteps = 256

func newTrace(f frame, p geom.Path, tol float64) (trace, error) {
	m, err := geom.Measure(p, tol)
	if err != nil {
		return trace{}, err
	}
	tr := trace{length: m.Length(), at: make([]axes, traceSteps+1), s: make([]float64, places)}
	for i := range tr.at {
		tr.at[i] = f.of(m.At(tr.length * float64(i) / traceSteps))
	}
	tr.at[0], tr.at[traceSteps] = f.of(p.Start()), f.of(p.End())
	for j := range tr.s {
		tr.s[j] = float64(j) / (places - 1)
	}
	return tr, nil
}

// place is the point at share s of the length.
func (tr trace) place(s float64) axes {
	x := s * traceSteps
	i := min(traceSteps-1, max(0, int(x)))
	return mix(tr.at[i], tr.at[i+1], axes{x - float64(i), x - float64(i)})
}

// sample is the corresponding places.
func (tr trace) sample() []axes {
	out := make([]axes, len(tr.s))
	for j, s := range tr.s {
		out[j] = tr.place(s)
	}
	return out
}

// nearest is the share of the length nearest to p, looking no further than
// reach from share s.
func (tr trace) nearest(p axes, s, reach float64) float64 {
	lo, hi := max(0, int((s-reach)*traceSteps)), min(traceSteps-1, int((s+reach)*traceSteps))
	best, at := math.Inf(1), s
	known := len2(less(tr.place(min(1, max(0, s))), p)) // nothing farther is the nearest
	step := tr.length / traceSteps * 1.001              // no two neighbours are farther apart
	for i := lo; i <= hi; i++ {
		a, b := tr.at[i], tr.at[i+1]
		dx, dy := b[0]-a[0], b[1]-a[1]
		l := dx*dx + dy*dy
		if l == 0 {
			continue
		}
		t := min(1, max(0, ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l))
		ex, ey := p[0]-a[0]-t*dx, p[1]-a[1]-t*dy
		d := ex*ex + ey*ey
		if d < best {
			best, at = d, (float64(i)+t)/traceSteps
		}
		if far := 4 * step; d > known && d > far*far {
			i += max(int((math.Sqrt(d)-math.Sqrt(min(known, best)))/step)-2, 0)
		}
	}
	return at
}

func len2(a axes) float64 { return a[0]*a[0] + a[1]*a[1] }

// follow moves every corresponding place to the nearest of p. Neighbouring
// places stay between a quarter and four times as far apart as evenly spaced
// ones, so that no stretch of the edge is left out or stretched to nothing.
func (tr trace) follow(p []axes) {
	const reach, even = 0.15, 1.0 / (places - 1)
	last := len(tr.s) - 1
	for j := 1; j < last; j++ {
		s := tr.nearest(p[j], tr.s[j], reach)
		lo := math.Max(tr.s[j-1]+even/4, 1-4*even*float64(last-j))
		hi := math.Min(tr.s[j-1]+4*even, 1-even/4*float64(last-j))
		tr.s[j] = math.Max(lo, math.Min(hi, s))
	}
	for range smoothings {
		before := tr.s[0]
		for j := 1; j < last; j++ {
			now := tr.s[j]
			tr.s[j] = (before + 2*now + tr.s[j+1]) / 4
			before = now
		}
	}
}

// corresponding gives every control point of a path, at relative length u, its
// place on the scale 0 to 1 that all sizes share.
func (tr trace) corresponding(u []float64) []float64 {
	out := make([]float64, len(u))
	j := 0
	for k, v := range u {
		for j+2 < len(tr.s) && v > tr.s[j+1] {
			j++
		}
		f := 0.0
		if gap := tr.s[j+1] - tr.s[j]; gap > 0 {
			f = min(1, max(0, (v-tr.s[j])/gap))
		}
		out[k] = (float64(j) + f) / (places - 1)
	}
	return out
}

// readField finds the correspondence of the traces and the movement of the
// edge together.
func readField(ctx context.Context, n print, traces []trace, e [2]ends, runs [2]bool) ([2]field, error) {
	var length float64
	for _, tr := range traces {
		length += tr.length / float64(len(traces))
	}
	var f [2]field
	noise := shakes
	for round := range rounds {
		at := make([][]axes, len(traces))
		for i, tr := range traces {
			at[i] = tr.sample()
		}
		for a := range 2 {
			var err error
			if f[a], err = fitField(n, at, e[a], a, length, runs, noise); err != nil {
				return f, err
			}
		}
		before := noise
		noise = math.Max(least, missed(n, at, e, f))
		if round == rounds-1 || math.Abs(noise-before) < settled {
			break
		}
		c := newCourse(n, at, e, f)
		for i, tr := range traces {
			if err := ctx.Err(); err != nil {
				return f, err
			}
			tr.follow(c.predicted(i))
		}
	}
	return f, nil
}

// least is the least wobble, in mm, any line is taken to have.
const least = 0.02

// missed is by how much, rms in mm and square to the line, the printed lines
// waver about the movement read.
func missed(n print, at [][]axes, e [2]ends, f [2]field) float64 {
	normal := normals(at)
	c := newCourse(n, at, e, f)
	var sum float64
	for i := range at {
		for j, p := range c.predicted(i) {
			d := less(at[i][j], p)
			off := d[0]*normal[j][0] + d[1]*normal[j][1]
			sum += off * off
		}
	}
	return math.Sqrt(sum / float64(len(at)*places))
}

// course is a movement that was read, with what is the same in all sizes.
type course struct {
	of  [2]courseAlong
	out []axes // of the size asked for last
}

type courseAlong struct {
	start, end, body []float64       // by size
	mean, share, own [places]float64 // by place
}

func newCourse(n print, at [][]axes, e [2]ends, f [2]field) *course {
	c := &course{out: make([]axes, places)}
	for a := range c.of {
		o := &c.of[a]
		o.body = newSeries(len(at), func(i int) float64 { return n.value(e[a].start.measure, i) })
		end := newSeries(len(at), func(i int) float64 { return n.value(e[a].end.measure, i) })
		for i := range at {
			o.start, o.end = append(o.start, e[a].start.perMM*o.body[i]), append(o.end, e[a].end.perMM*end[i])
		}
		for j := range places {
			for _, size := range at {
				o.mean[j] += size[j][a] / float64(len(at))
			}
			u := float64(j) / (places - 1)
			o.share[j], o.own[j] = f[a].share(u), f[a].own(u)
		}
	}
	return c
}

// predicted is where the movement read so far puts the corresponding places in
// printed size i: the mean line of all sizes, carried. It is good until the next
// size is asked for.
func (c *course) predicted(i int) []axes {
	for a := range c.of {
		o := &c.of[a]
		start, end, body := o.start[i], o.end[i], o.body[i]
		for j := range c.out {
			w := o.share[j]
			c.out[j][a] = o.mean[j] + (1-w)*start + w*end + o.own[j]*body
		}
	}
	return c.out
}
