package straight

import (
	"context"
	"image"
	"math"

	"quarterstep/model/geom"
)

// overlap is what two pictures both show of the paper.
type overlap struct {
	placed []shown
	add    shown
	box    geom.Box // mm
}

// shown is a part that is looked at by places on the paper.
type shown struct {
	gray   *image.Gray
	lens   Lens
	inv    [9]float64 // mm to pixels without bend
	covers []Cover
}

func show(p Part) shown { return shown{p.Gray, p.Map.Lens, inverse3(p.Map.H), p.Covers} }

// The overlap is laid together in rounds, each finer, with these distances
// between looks in mm; a large one is looked at more sparsely, so that no round
// has more than mostLooks.
var rounds = []float64{0.9, 0.45, 0.2}

const (
	mostLooks  = 500_000
	leastLooks = 400
	leastAgree = 0.35 // how alike the two must be, 1 the same
)

// overlapOf finds the box in which both the placed parts and add show paper.
func overlapOf(placed []Part, add Part) (overlap, bool) {
	o := overlap{add: show(add)}
	for _, p := range placed {
		o.placed = append(o.placed, show(p))
	}
	var pts []geom.Point
	size := add.Gray.Rect.Size()
	const across = 60
	for j := 0; j <= across; j++ {
		for i := 0; i <= across; i++ {
			px := geom.Pt(float64(i)*float64(size.X)/across, float64(j)*float64(size.Y)/across)
			mm := add.Map.MM(px)
			if _, ok := o.there(mm); ok {
				pts = append(pts, mm)
			}
		}
	}
	if len(pts) < 4 {
		return o, false
	}
	o.box = geom.BoxOf(pts...)
	return o, o.box.Width() > 4 && o.box.Height() > 4
}

// there is the brightness that a placed part shows at mm.
func (o overlap) there(mm geom.Point) (float64, bool) {
	for _, p := range o.placed {
		if v, ok := p.look(mm); ok {
			return v, true
		}
	}
	return 0, false
}

// look is the brightness p shows at mm, if it shows it.
func (p shown) look(mm geom.Point) (float64, bool) {
	px := p.lens.bend(project(p.inv, mm))
	if !px.Finite() || !inside(p.gray, px, 3) || Covered(p.covers, px) {
		return 0, false
	}
	return brightness(p.gray, px), true
}

// patch is a raster of mm: what is seen, compared with its surroundings, and
// whether it is seen at all.
type patch struct {
	w, h int
	step float64
	at   geom.Point // of the first look
	v    []float32
	ok   []bool
}

// newPatch looks at all of box every step mm, each look the mean of four.
func newPatch(box geom.Box, step float64, look func(geom.Point) (float64, bool)) patch {
	p := patch{w: int(box.Width()/step) + 1, h: int(box.Height()/step) + 1, step: step, at: box.Min}
	p.v, p.ok = make([]float32, p.w*p.h), make([]bool, p.w*p.h)
	inShares(len(p.v), func(from, to int) {
		for i := from; i < to; i++ {
			q := p.place(i)
			sum, all := 0.0, true
			for _, d := range [4]geom.Vec{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
				v, ok := look(q.Add(d.Scale(step / 4)))
				sum, all = sum+v, all && ok
			}
			p.v[i], p.ok[i] = float32(sum/4), all
		}
	})
	p.compare(max(2, int(3/step)))
	p.soften()
	return p
}

func (p patch) place(i int) geom.Point {
	return p.at.Add(geom.Vec{X: float64(i%p.w) * p.step, Y: float64(i/p.w) * p.step})
}

// compare makes every look how much darker or lighter it is than the mean of
// the looks around it, as a share, so that light and shadow do not count.
func (p patch) compare(r int) {
	sum := make([]float64, (p.w+1)*(p.h+1))
	num := make([]float64, (p.w+1)*(p.h+1))
	for y := range p.h {
		for x := range p.w {
			i, k := y*p.w+x, (y+1)*(p.w+1)+x+1
			v, n := 0.0, 0.0
			if p.ok[i] {
				v, n = float64(p.v[i]), 1
			}
			sum[k] = v + sum[k-1] + sum[k-p.w-1] - sum[k-p.w-2]
			num[k] = n + num[k-1] + num[k-p.w-1] - num[k-p.w-2]
		}
	}
	for y := range p.h {
		for x := range p.w {
			x0, y0, x1, y1 := max(x-r, 0), max(y-r, 0), min(x+r+1, p.w), min(y+r+1, p.h)
			a, b, c, d := y0*(p.w+1)+x0, y0*(p.w+1)+x1, y1*(p.w+1)+x0, y1*(p.w+1)+x1
			mean := (sum[d] - sum[b] - sum[c] + sum[a]) / max(num[d]-num[b]-num[c]+num[a], 1)
			p.v[y*p.w+x] = (p.v[y*p.w+x] - float32(mean)) / float32(max(mean, 8))
		}
	}
}

// soften is the mean of three by three with weights 1 2 1, so that slopes are
// even from look to look.
func (p patch) soften() {
	row := make([]float32, p.w*p.h)
	copy(row, p.v)
	for y := range p.h {
		for x := 1; x < p.w-1; x++ {
			i := y*p.w + x
			row[i] = (p.v[i-1] + 2*p.v[i] + p.v[i+1]) / 4
		}
	}
	copy(p.v, row)
	for y := 1; y < p.h-1; y++ {
		for x := range p.w {
			i := y*p.w + x
			p.v[i] = (row[i-p.w] + 2*row[i] + row[i+p.w]) / 4
		}
	}
}

// near is the look at q between the four round it.
func (p patch) near(q geom.Point) (float64, bool) {
	x, y := (q.X-p.at.X)/p.step, (q.Y-p.at.Y)/p.step
	x0, y0 := int(math.Floor(x)), int(math.Floor(y))
	if x0 < 0 || y0 < 0 || x0+1 >= p.w || y0+1 >= p.h {
		return 0, false
	}
	i := y0*p.w + x0
	if !p.ok[i] || !p.ok[i+1] || !p.ok[i+p.w] || !p.ok[i+p.w+1] {
		return 0, false
	}
	fx, fy := x-float64(x0), y-float64(y0)
	top := float64(p.v[i]) + fx*float64(p.v[i+1]-p.v[i])
	low := float64(p.v[i+p.w]) + fx*float64(p.v[i+p.w+1]-p.v[i+p.w])
	return top + fy*(low-top), true
}

// lay turns and moves the added part until both show the same; false where what
// they show does not decide, or is not alike.
func (o overlap) lay(ctx context.Context) (t geom.Affine, fit Misfit, alike float64, ok bool, err error) {
	t = geom.Identity()
	var coarse [2]patch
	for n, step := range rounds {
		step = max(step, math.Sqrt(o.box.Width()*o.box.Height()/mostLooks))
		there := newPatch(o.box, step, o.there)
		if err := ctx.Err(); err != nil {
			return t, fit, 0, false, err
		}
		here := newPatch(o.box.Grow(mostMoved), step, o.add.look)
		if n == 1 {
			coarse = [2]patch{there, here}
		}
		for range 25 {
			if err := ctx.Err(); err != nil {
				return t, fit, 0, false, err
			}
			l := newLaid(there, here, t)
			if len(l.looks) < leastLooks {
				return t, fit, 0, false, nil
			}
			u, ok := l.move()
			if !ok {
				return t, fit, 0, false, nil
			}
			t = u.Mul(t)
			if u.Apply(o.box.Min).Dist(o.box.Min)+u.Apply(o.box.Max).Dist(o.box.Max) < step/200 {
				break
			}
		}
		if n == len(rounds)-1 {
			l := newLaid(there, here, t)
			if alike = l.alike(); alike < leastAgree {
				return t, fit, 0, false, nil
			}
			fit = l.misfit(coarse[0], coarse[1], t)
		}
	}
	return t, fit, alike, fit.Points > 0, nil
}

// laid is all looks that both pictures show with the added part where it lies
// now.
type laid struct {
	looks []look
	mid   geom.Point
}

// look is one place seen in both: what each shows, and the slope of it.
type look struct {
	at          geom.Point
	there, here float64
	slope       geom.Vec // by the mm
}

func newLaid(there, here patch, t geom.Affine) laid {
	var l laid
	inv, err := t.Inverse()
	if err != nil {
		return l
	}
	over := patch{w: there.w, h: there.h, step: there.step, at: there.at}
	over.v, over.ok = make([]float32, len(there.v)), make([]bool, len(there.v))
	inShares(len(over.v), func(from, to int) {
		for i := from; i < to; i++ {
			v, ok := here.near(inv.Apply(over.place(i)))
			over.v[i], over.ok[i] = float32(v), ok
		}
	})
	var sum geom.Vec
	for y := 1; y < there.h-1; y++ {
		for x := 1; x < there.w-1; x++ {
			i := y*there.w + x
			a, ok := there.slope(i)
			b, ok2 := over.slope(i)
			if !ok || !ok2 {
				continue
			}
			q := there.place(i)
			l.looks = append(l.looks, look{q, float64(there.v[i]), float64(over.v[i]), a.Add(b).Scale(0.5)})
			sum = sum.Add(geom.Vec(q))
		}
	}
	l.mid = geom.Point(sum.Scale(1 / float64(max(len(l.looks), 1))))
	return l
}

// slope is how the looks change by the mm at look i, which lies not on the rim.
func (p patch) slope(i int) (geom.Vec, bool) {
	if !p.ok[i] || !p.ok[i-1] || !p.ok[i+1] || !p.ok[i-p.w] || !p.ok[i+p.w] {
		return geom.Vec{}, false
	}
	return geom.Vec{X: float64(p.v[i+1] - p.v[i-1]), Y: float64(p.v[i+p.w] - p.v[i-p.w])}.Scale(1 / (2 * p.step)), true
}

// move is the turn and the movement that bring here nearer to there.
func (l laid) move() (geom.Affine, bool) {
	limit := 0.0
	for _, k := range l.looks {
		limit += math.Abs(k.here - k.there)
	}
	limit = 2 * limit / float64(len(l.looks))
	var m [3][4]float64
	for _, k := range l.looks {
		d := k.here - k.there
		w := min(1, limit/max(math.Abs(d), 1e-9)) // Huber 1964: what differs much counts less
		r := k.at.Sub(l.mid)
		row := [3]float64{k.slope.X, k.slope.Y, (k.slope.Y*r.X - k.slope.X*r.Y) / turnScale}
		for i := range 3 {
			for j := range 3 {
				m[i][j] += w * row[i] * row[j]
			}
			m[i][3] += w * row[i] * d
		}
	}
	x, ok := solve3(m)
	if !ok || math.Hypot(x[0], x[1]) > mostMoved || math.Abs(x[2]/turnScale) > 0.1 {
		return geom.Affine{}, false
	}
	back := geom.Translate(geom.Vec(l.mid))
	there := geom.Translate(geom.Vec(l.mid).Scale(-1))
	turn := back.Mul(geom.Rotate(x[2] / turnScale)).Mul(there)
	return geom.Translate(geom.Vec{X: x[0], Y: x[1]}).Mul(turn), true
}

// turnScale brings a turn to the size of a movement: what it does this many mm
// from the middle.
const turnScale = 100.0

// alike is how alike the two pictures are, from -1 to 1.
func (l laid) alike() float64 {
	var a, b, ab float64
	for _, k := range l.looks {
		a, b, ab = a+k.there*k.there, b+k.here*k.here, ab+k.there*k.here
	}
	return ab / math.Sqrt(max(a*b, 1e-12))
}
