package nest

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// A hand that traces wavers by a few tenths of a millimetre, and a line six
// sizes out multiplies that by the steps. So on a traced nest no place is
// trusted by itself: the movements of all grade points and edges are found
// together, by least squares over every place of every printed line. Only what
// lies square to a line counts, for along it a hand cannot be seen to waver; a
// corner is so found by the two edges that meet there, not by the spot where
// the hand turned. Shares and movements of their own are as in field; the
// equations are linear but for share times movement and are solved anew each
// round about the last solution (Gauss and Newton's method), between rounds the
// places are laid along each other anew (see readField).

// shakes is the wobble in mm, rms, from which a nest counts as traced by hand:
// drawing programs round to far less. By our own trial.
const shakes = 0.1

// Weights of single observations against one independent place of an edge: a
// corner a hand turned at, and a match point, which may lie anywhere on its
// curve.
const (
	cornerWeight = 1.0
	matchWeight  = 0.02
	holdWeight   = 1e4 // a fold or centre edge does not move across itself
)

// How far, as a standard deviation, a place's share of an edge is from even,
// and how far it moves by itself, in mm over the printed sizes, before the
// print is looked at. By our own trial on drafted garments.
const (
	usualShift = 0.15
	usualOwn   = 0.1
)

// How much, as a standard deviation in radians, the direction of an edge's end
// turns over the printed sizes, and one side of a smooth joint more than the
// other. By our own trial on drafted garments.
const (
	keptDirection = 0.005
	keptJoint     = 0.003
)

// settling is the unknowns of a piece and what they are found from.
type settling struct {
	fit    *Fit
	body   [][2]series  // per grade point and direction: its measure, rms 1
	scale  [][2]float64 // mm of the measure to one of body
	moves  [][2]float64 // per grade point and direction: mm to one of body
	fields [][2]field   // per edge; own in mm to one of body
	curved []int        // per edge: its place among the curved ones, or -1
	wobble float64      // rms, mm, as found in the last round
}

// perField is the unknowns of one edge in one direction.
const perField = len(field{}.shareOf) + len(field{}.ownOf)

// mostUnknowns is from how many on a piece is read edge by edge, as one drawn by
// a program: solving takes their number cubed. It is that of a traced piece with
// about thirty curved edges.
const mostUnknowns = 800

// unknowns is how many are to be found.
func (s *settling) unknowns() int {
	curved := 0
	for _, c := range s.curved {
		curved = max(curved, c+1)
	}
	return 2*len(s.fit.points) + 2*perField*curved
}

// settle finds how the whole piece moves where a hand shook while tracing it;
// false where it did not, or where the piece has more than mostUnknowns.
func (fit *Fit) settle(ctx context.Context) (bool, error) {
	shaky, err := fit.shaky(ctx)
	if err != nil || !shaky {
		return false, err
	}
	s := newSettling(fit)
	if s.unknowns() > mostUnknowns {
		return false, nil
	}
	for round := range rounds {
		before := s.wobble
		if err := s.solve(ctx); err != nil {
			return false, words.Errorf("reading how %s moves: %w", fit.piece.Name, err)
		}
		if round == rounds-1 || math.Abs(s.wobble-before) < settled {
			break
		}
		if err := s.follow(ctx); err != nil {
			return false, err
		}
	}
	s.keepPoints()
	return true, s.keepEdges(ctx)
}

// shaky reports whether half of the piece's outline wobbles.
func (fit *Fit) shaky(ctx context.Context) (bool, error) {
	var all, wobbly float64
	for j := range fit.edges {
		e := &fit.edges[j]
		w, err := e.wobble(ctx, fit.print, fit.ends(j))
		if err != nil {
			return false, err
		}
		length := e.traces[0].length
		all += length
		if w > shakes {
			wobbly += length
		}
	}
	return wobbly > all/2, nil
}

// wobble is by how much, rms in mm, the printed lines of the edge waver beside
// what they have in common.
func (o *edge) wobble(ctx context.Context, n print, e [2]ends) (float64, error) {
	at := make([][]axes, len(o.traces))
	for i, tr := range o.traces {
		at[i] = tr.sample()
	}
	if o.straight {
		_, own, _ := bows(at)
		return own, nil
	}
	if o.drawn != nil && len(o.traces) > 2 {
		return 0, nil
	}
	r, err := o.reading(ctx, n, e)
	if err != nil {
		return 0, err
	}
	for i, tr := range r.traces {
		at[i] = tr.sample()
	}
	return missed(n, at, e, r.field), nil
}

// normals is the unit normal of the mean line at its corresponding places.
func normals(at [][]axes) []axes {
	mean := means(at)
	out := make([]axes, len(mean))
	for j := range out {
		a, b := mean[max(0, j-1)], mean[min(len(mean)-1, j+1)]
		d := less(b, a)
		if l := math.Hypot(d[0], d[1]); l > 0 {
			out[j] = axes{-d[1] / l, d[0] / l}
		}
	}
	return out
}

func means(at [][]axes) []axes {
	out := make([]axes, len(at[0]))
	for _, size := range at {
		for j, p := range size {
			out[j][0] += p[0] / float64(len(at))
			out[j][1] += p[1] / float64(len(at))
		}
	}
	return out
}

func newSettling(fit *Fit) *settling {
	n := len(fit.points)
	s := &settling{
		fit: fit, body: make([][2]series, n), scale: make([][2]float64, n), moves: make([][2]float64, n),
		fields: make([][2]field, n), curved: make([]int, n), wobble: handNoise,
	}
	sizes := len(fit.print.lines)
	for k, p := range fit.points {
		for a := range 2 {
			m := newSeries(sizes, func(i int) float64 { return fit.print.value(p.rates[a].measure, i) })
			scale := math.Sqrt(m.dot(m) / float64(sizes))
			for i := range m {
				m[i] /= scale
			}
			s.body[k][a], s.scale[k][a], s.moves[k][a] = m, scale, p.rates[a].perMM*scale
		}
	}
	curved := 0
	for j := range fit.edges {
		e := &fit.edges[j]
		e.straight = e.straight || e.short()
		s.curved[j] = -1
		s.fields[j] = [2]field{{runs: e.runs}, {runs: e.runs}}
		if !e.straight {
			s.curved[j] = curved
			curved++
		}
	}
	return s
}

// shortEdge is the length in mm, half as much again as the shortest wave of a
// shaking hand, below which an edge's curve tells nothing.
const shortEdge = 1.5 * handWave

// short reports that the edge is short for a shaking hand and bows no more than
// that shakes.
func (o edge) short() bool {
	at := make([][]axes, len(o.traces))
	var length float64
	for i, tr := range o.traces {
		at[i] = tr.sample()
		length = math.Max(length, tr.length)
	}
	_, _, worst := bows(at)
	return length < shortEdge && worst < 3*handNoise
}

// next is the grade point at the end of edge j.
func (s *settling) next(j int) int { return (j + 1) % len(s.fit.points) }

// moved is how far place u of edge j is from its mean in printed line i.
func (s *settling) moved(j, i int, u float64) axes {
	k := s.next(j)
	var d axes
	for a := range d {
		f := s.fields[j][a]
		w := f.share(u)
		start := s.body[j][a][i]
		d[a] = (1-w)*s.moves[j][a]*start + w*s.moves[k][a]*s.body[k][a][i] + f.own(u)*start
	}
	return d
}

// equations is the normal equations of the least squares.
type equations struct {
	normal *mat.SymDense
	right  *mat.VecDense
}

// add takes one observation in: the sum of factor[p] times unknown at[p] is
// value.
func (q equations) add(at []int, factor []float64, value, weight float64) {
	for p, i := range at {
		q.right.SetVec(i, q.right.AtVec(i)+weight*factor[p]*value)
		for r := p; r < len(at); r++ {
			k := at[r]
			add := weight * factor[p] * factor[r]
			if k == i && r != p {
				add *= 2
			}
			q.normal.SetSym(i, k, q.normal.At(i, k)+add)
		}
	}
}

// solve finds all unknowns anew about the last solution.
func (s *settling) solve(ctx context.Context) error {
	corners := 2 * len(s.fit.points)
	size := s.unknowns()
	q := equations{mat.NewSymDense(size, nil), mat.NewVecDense(size, nil)}
	var off, seen float64
	for j := range s.fit.edges {
		if err := ctx.Err(); err != nil {
			return err
		}
		o, n := s.observe(q, j, corners)
		off, seen = off+o, seen+n
	}
	s.wobble = math.Max(least, math.Sqrt(off/seen))
	s.corners(q)
	s.directions(q, corners)
	for i := corners; i < size; i++ {
		q.normal.SetSym(i, i, q.normal.At(i, i)+pull((i-corners)%perField, s.wobble))
	}
	var chol mat.Cholesky
	var x mat.VecDense
	if !chol.Factorize(q.normal) {
		return words.Error("the printed sizes do not hang together")
	}
	if err := chol.SolveVecTo(&x, q.right); err != nil {
		return err
	}
	s.take(&x, corners)
	return nil
}

// observe takes in every place of edge j and returns the sum of squares by
// which they miss the last solution, and their number.
func (s *settling) observe(q equations, j, corners int) (off, seen float64) {
	const ns, no = len(field{}.shareOf), len(field{}.ownOf)
	e := s.fit.edges[j]
	at := make([][]axes, len(e.traces))
	var length float64
	for i, tr := range e.traces {
		at[i] = tr.sample()
		length += tr.length / float64(len(e.traces))
	}
	mean, normal := means(at), normals(at)
	weight := math.Max(2, length/(handWave/2)) / places
	k := s.next(j)
	var unknown []int
	var factor []float64
	for p := range places {
		u := float64(p) / (places - 1)
		for i := range at {
			unknown, factor = unknown[:0], factor[:0]
			missing := less(less(at[i][p], mean[p]), s.moved(j, i, u))
			value := missing[0]*normal[p][0] + missing[1]*normal[p][1]
			off += value * value
			see := func(index int, now, by float64) {
				unknown, factor = append(unknown, index), append(factor, by)
				value += by * now
			}
			for a, square := range normal[p] {
				f := s.fields[j][a]
				w := f.share(u)
				start, end := s.body[j][a][i], s.body[k][a][i]
				see(2*j+a, s.moves[j][a], square*(1-w)*start)
				see(2*k+a, s.moves[k][a], square*w*end)
				if s.curved[j] < 0 {
					continue
				}
				first := corners + perField*(2*s.curved[j]+a)
				for c := range max(ns, no) {
					if c < ns {
						see(first+c, f.shareOf[c], square*wave(c, u)*(s.moves[k][a]*end-s.moves[j][a]*start))
					}
					if c < no {
						see(first+ns+c, f.ownOf[c], square*wave(c, u)*start)
					}
				}
			}
			q.add(unknown, factor, value, weight)
		}
	}
	return off, float64(places * len(at))
}

// corners takes in the spots where the hand turned, and what holds them.
func (s *settling) corners(q equations) {
	for k, p := range s.fit.points {
		weight := cornerWeight
		if s.fit.piece.Points[k].Smooth {
			weight = matchWeight
		}
		for a := range 2 {
			seen := newSeries(len(p.at), func(i int) float64 { return p.at[i][a] })
			for i, v := range seen {
				q.add([]int{2*k + a}, []float64{s.body[k][a][i]}, v, weight)
			}
		}
		if p.slide != nil {
			along := s.fit.frame.dir(*p.slide)
			q.add([]int{2 * k, 2*k + 1}, []float64{-along[1], along[0]}, 0, holdWeight)
		}
	}
}

// directions takes in that an edge's ends are likely to keep their direction,
// and that a line that runs smoothly through a grade point is to go on doing so.
func (s *settling) directions(q equations, corners int) {
	noise := s.wobble * s.wobble
	for j := range s.fit.edges {
		for end := range 2 {
			s.turn(q, []turning{{j, end, 1}}, corners, noise/(keptDirection*keptDirection))
		}
		if next := s.next(j); s.fit.edges[j].runs[1] {
			s.turn(q, []turning{{j, 1, 1}, {next, 0, -1}}, corners, noise/(keptJoint*keptJoint))
		}
	}
}

// turning is by how much an edge turns at its start or end, times sign.
type turning struct {
	edge, end int
	sign      float64
}

// turn takes in, for every printed line, that the turnings add up to nothing.
func (s *settling) turn(q equations, sum []turning, corners int, weight float64) {
	const ns = len(field{}.shareOf)
	for i := range s.fit.print.lines {
		var unknown []int
		var factor []float64
		var value float64
		for _, t := range sum {
			j, k := t.edge, s.next(t.edge)
			normal, length := s.endNormal(t.edge, t.end)
			for a, square := range normal {
				square *= t.sign / length
				f := s.fields[j][a]
				rise := f.rise(t.end)
				start, end := s.body[j][a][i], s.body[k][a][i]
				see := func(index int, by float64) { unknown, factor = append(unknown, index), append(factor, by) }
				see(2*j+a, -square*rise*start)
				see(2*k+a, square*rise*end)
				if s.curved[j] < 0 {
					continue
				}
				first := corners + perField*(2*s.curved[j]+a)
				for c := range f.shareOf {
					by := square * waveRise(c, t.end) * (s.moves[k][a]*end - s.moves[j][a]*start)
					see(first+c, by)
					value += by * f.shareOf[c]
				}
				for c := range f.ownOf {
					see(first+ns+c, square*waveRise(c, t.end)*start)
				}
			}
		}
		q.add(unknown, factor, value, weight)
	}
}

// endNormal is the normal of the mean line of edge j at its start or end, and
// its mean length in mm.
func (s *settling) endNormal(j, end int) (axes, float64) {
	e := s.fit.edges[j]
	at := make([][]axes, len(e.traces))
	var length float64
	for i, tr := range e.traces {
		at[i] = tr.sample()
		length += tr.length / float64(len(e.traces))
	}
	return normals(at)[end*(places-1)], length
}

func (s *settling) take(x *mat.VecDense, corners int) {
	const ns = len(field{}.shareOf)
	for k := range s.moves {
		s.moves[k] = [2]float64{x.AtVec(2 * k), x.AtVec(2*k + 1)}
	}
	for j, c := range s.curved {
		if c < 0 {
			continue
		}
		for a := range 2 {
			first := corners + perField*(2*c+a)
			f := &s.fields[j][a]
			for i := range f.shareOf {
				f.shareOf[i] = x.AtVec(first + i)
			}
			for i := range f.ownOf {
				f.ownOf[i] = x.AtVec(first + ns + i)
			}
		}
	}
}

// settledLine is where the solution puts the corresponding places of edge j in
// printed line i: the mean of all lines, moved.
func (s *settling) settledLine(j, i int) []axes {
	e := s.fit.edges[j]
	at := make([][]axes, len(e.traces))
	for l, tr := range e.traces {
		at[l] = tr.sample()
	}
	out := means(at)
	for p := range out {
		out[p] = add(out[p], s.moved(j, i, float64(p)/(places-1)))
	}
	return out
}

// follow lays the places of every printed line along each other anew.
func (s *settling) follow(ctx context.Context) error {
	for j := range s.fit.edges {
		traces := s.fit.edges[j].traces
		lines := make([][]axes, len(traces))
		for i := range traces {
			lines[i] = s.settledLine(j, i)
		}
		for i := range traces {
			if err := ctx.Err(); err != nil {
				return err
			}
			traces[i].follow(lines[i])
		}
	}
	return nil
}

// keepPoints writes the movements found into the piece's grade points.
func (s *settling) keepPoints() {
	n := s.fit.print
	for k := range s.fit.points {
		p := &s.fit.points[k]
		p.settled = make([]axes, len(p.at))
		for a := range 2 {
			r := &p.rates[a]
			seen := newSeries(len(p.at), func(i int) float64 { return p.at[i][a] })
			r.perMM = s.moves[k][a] / s.scale[k][a]
			r.perStep = r.perMM * (n.value(r.measure, len(seen)-1) - n.value(r.measure, 0)) / n.steps()
			r.residual = 0
			for i, v := range seen {
				p.settled[i][a] = s.moves[k][a]*s.body[k][a][i] - v
				r.residual = math.Max(r.residual, math.Abs(p.settled[i][a]))
			}
		}
	}
}

// keepEdges writes the movements found into the piece's curved edges.
func (s *settling) keepEdges(ctx context.Context) error {
	n := s.fit.print
	for j := range s.fit.edges {
		e := &s.fit.edges[j]
		if e.straight {
			continue
		}
		e.drawn, e.traced = nil, nil
		var f [2]field
		m := [2]model.Measure{}
		for a := range f {
			f[a], m[a] = s.fields[j][a], s.fit.points[j].rates[a].measure
			for c := range f[a].ownOf {
				f[a].ownOf[c] /= s.scale[j][a]
			}
		}
		for i := range e.printed {
			if err := ctx.Err(); err != nil {
				return err
			}
			g, err := e.calm(n, s.fit.frame, i, s.settledLine(j, i), f, m)
			if err != nil {
				return words.Errorf("drawing %s of %s: %w", edgeName(s.fit.piece.Edges[j], j), s.fit.piece.Name, err)
			}
			e.traced = append(e.traced, g)
		}
	}
	return nil
}
