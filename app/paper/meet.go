package paper

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
)

// How the overlap of parts is looked for: first on coarse cells, everywhere and
// turned a little either way, then the best places on fine ones.
const (
	lookStep   = 0.5 // mm between looks at the picture
	coarseCell = 4.0 // mm
	fineCell   = 1.0
	mostTurn   = 3.0  // degrees that a part may be turned against the others
	turnStep   = 1.0  // degrees
	leastShare = 0.06 // of the part that the others show as well
	leastInk   = 6.0  // mm² of ink that both show
	mostPlaces = 8    // that are looked at on fine cells
	sameSpot   = 5.0  // mm within which two places are one
	farSpot    = 20.0 // mm beyond which two places are not the same one, seen turned
	standing   = 1.2  // by how much the likeliest place must be likelier than one far from it
	inset      = 0.08 // of their distance that marks keep from the ends of what both show
	meetMoved  = 3.0  // mm by which laying together may still move the part
)

// Meet looks for the place where a picture, made flat by itself, overlaps those
// that lie already, by what both show and nothing else. It returns two places
// that both show, as if they had been clicked; false where no place stands out,
// or more than one does.
func (p *Photo) Meet(ctx context.Context, placed []Part, own Straight, progress func(float64)) ([]Mark, bool, error) {
	there := sightOf(placed)
	here := sightOf([]Part{{Photo: p, Straight: own}})
	spots := there.coarse(ctx, here)
	for i := range spots {
		if err := ctx.Err(); err != nil {
			return nil, false, err
		}
		spots[i] = there.refine(here, spots[i])
		if progress != nil {
			progress(float64(i+1) / float64(len(spots)+1))
		}
	}
	at, ok := standsOut(spots)
	if !ok {
		return nil, false, ctx.Err()
	}
	marks, ok := markPair(placed, p, own, at, there, here)
	if !ok {
		return nil, false, ctx.Err()
	}
	ok, err := p.meetsAt(ctx, placed, own, marks)
	return marks, ok, err
}

// standsOut is the likeliest place, where none far from it is nearly as likely.
func standsOut(spots []spot) (spot, bool) {
	byScore(spots)
	for i, s := range spots {
		if i > 0 && s.move.Sub(spots[0].move).Len() > farSpot && s.score*standing > spots[0].score {
			return spot{}, false
		}
	}
	if len(spots) == 0 {
		return spot{}, false
	}
	return spots[0], true
}

// meetsAt reports whether both show the same where the marks lay the part.
func (p *Photo) meetsAt(ctx context.Context, placed []Part, own Straight, marks []Mark) (bool, error) {
	parts := make([]straight.Part, len(placed))
	for i, q := range placed {
		parts[i] = straight.Part{Gray: q.Photo.Picture.Gray, Map: q.Straight.Map}
	}
	clicked := make([]straight.Mark, len(marks))
	for i, m := range marks {
		clicked[i] = straight.Mark(m)
	}
	j, err := straight.Join(ctx, parts, straight.Part{Gray: p.Picture.Gray, Map: own.Map}, clicked)
	if err != nil {
		return false, ctx.Err() // marks that fit nowhere are no error: she clicks her own
	}
	return j.Refined && j.Moved <= meetMoved, nil
}

// spot is where a part may lie: turned by an angle about the middle of its
// paper, then moved.
type spot struct {
	turn  float64 // radians
	move  geom.Vec
	score float64
}

func (s spot) near(o spot) bool {
	return s.move.Sub(o.move).Len() < sameSpot
}

// sight is the ink that pictures show: 0 to 1 for each look, less than 0 where
// they show nothing.
type sight struct {
	ink  []float32
	w, h int
	step float64
	at   geom.Point // of the first look
}

func sightOf(parts []Part) sight {
	var box geom.Box
	for _, q := range parts {
		box = box.Union(q.Straight.Bounds)
	}
	s := sight{step: lookStep, at: box.Min, w: int(box.Width()/lookStep) + 1, h: int(box.Height()/lookStep) + 1}
	s.ink = make([]float32, s.w*s.h)
	for i := range s.ink {
		s.ink[i] = -1
	}
	for _, q := range parts {
		s.add(q)
	}
	return s
}

// add looks at a part: ink is how much darker than the paper round it a place
// is.
func (s sight) add(q Part) {
	g, size := q.Photo.Picture.Gray, q.Photo.Picture.Size()
	v := make([]float32, len(s.ink))
	rows(s.h, func(y int) {
		for x := range s.w {
			px := q.Straight.Map.Pixel(s.place(x, y))
			i := y*s.w + x
			v[i] = -1
			if px.X >= 3 && px.Y >= 3 && px.X < float64(size.X)-3 && px.Y < float64(size.Y)-3 {
				v[i] = float32(g.Pix[int(px.Y)*g.Stride+int(px.X)])
			}
		}
	})
	const block = 12 // looks: the paper is as light as the lightest in a block
	bw, bh := s.w/block+1, s.h/block+1
	light := make([]float32, bw*bh)
	for y := range s.h {
		for x := range s.w {
			k := y/block*bw + x/block
			light[k] = max(light[k], v[y*s.w+x])
		}
	}
	rows(s.h, func(y int) {
		for x := range s.w {
			i := y*s.w + x
			if v[i] < 0 {
				continue
			}
			ink := 1 - v[i]/max(light[y/block*bw+x/block], 30)
			if ink < 0.2 { // paper's grain, creases
				ink = 0
			}
			s.ink[i] = max(s.ink[i], ink)
		}
	})
}

func (s sight) place(x, y int) geom.Point {
	return geom.Pt(s.at.X+float64(x)*s.step, s.at.Y+float64(y)*s.step)
}

func (s sight) middle() geom.Point { return s.place(s.w/2, s.h/2) }

// cells is the sight in larger cells, turned about its middle; a cell counts
// where most of it is seen.
func (s sight) cells(cell, turn float64) sight {
	mid := s.middle()
	sin, cos := math.Sincos(turn)
	reach := math.Hypot(float64(s.w), float64(s.h)) * s.step / 2
	if turn == 0 {
		reach = 0
	}
	out := sight{step: cell, at: s.at}
	if turn != 0 {
		extra := reach * math.Abs(sin)
		out.at = geom.Pt(s.at.X-extra, s.at.Y-extra)
	}
	wide := float64(s.w)*s.step + 2*(s.at.X-out.at.X)
	high := float64(s.h)*s.step + 2*(s.at.Y-out.at.Y)
	out.w, out.h = int(wide/cell)+1, int(high/cell)+1
	sum, n := make([]float32, out.w*out.h), make([]int32, out.w*out.h)
	for y := range s.h {
		for x := range s.w {
			v := s.ink[y*s.w+x]
			if v < 0 {
				continue
			}
			q := s.place(x, y)
			dx, dy := q.X-mid.X, q.Y-mid.Y
			cx := int((mid.X + cos*dx - sin*dy - out.at.X) / cell)
			cy := int((mid.Y + sin*dx + cos*dy - out.at.Y) / cell)
			if cx >= 0 && cy >= 0 && cx < out.w && cy < out.h {
				sum[cy*out.w+cx] += v
				n[cy*out.w+cx]++
			}
		}
	}
	full := cell / s.step * cell / s.step
	out.ink = sum
	for i := range sum {
		if float64(n[i]) < full/2 {
			sum[i] = -1
			continue
		}
		sum[i] /= float32(n[i])
	}
	return out
}

// coarse are the places where a part may lie, the likeliest first.
func (s sight) coarse(ctx context.Context, part sight) []spot {
	there := s.cells(coarseCell, 0)
	var turns []float64
	for a := -mostTurn; a <= mostTurn; a += turnStep {
		turns = append(turns, a*math.Pi/180)
	}
	var all []spot
	var lock sync.Mutex
	rows(len(turns), func(i int) {
		if ctx.Err() != nil {
			return
		}
		here := part.cells(coarseCell, turns[i])
		var some []spot
		for dy := -here.h + 1; dy < there.h; dy++ {
			for dx := -here.w + 1; dx < there.w; dx++ {
				if score := there.alike(here, dx, dy); score > 0 {
					some = append(some, spot{turns[i], there.moveOf(here, dx, dy), score})
				}
			}
		}
		some = best(some)
		lock.Lock()
		all = append(all, some...)
		lock.Unlock()
	})
	return best(all)
}

// moveOf is the movement that brings cell (0, 0) of here to cell (dx, dy) of
// there.
func (s sight) moveOf(here sight, dx, dy int) geom.Vec {
	return geom.Vec{
		X: s.at.X + float64(dx)*s.step - here.at.X,
		Y: s.at.Y + float64(dy)*s.step - here.at.Y,
	}
}

func byScore(all []spot) {
	slices.SortFunc(all, func(a, b spot) int { return cmp.Compare(b.score, a.score) })
}

// best are the likeliest places, no two of them one.
func best(all []spot) []spot {
	byScore(all)
	var out []spot
	for _, s := range all {
		if len(out) == mostPlaces {
			break
		}
		if !slices.ContainsFunc(out, s.near) {
			out = append(out, s)
		}
	}
	return out
}

// alike is how much two sights agree with here moved by whole cells: their
// correlation, times the root of how many cells say so, as a chance agreement of
// few is no wonder. It is 0 where they share too little.
func (s sight) alike(here sight, dx, dy int) float64 {
	x0, x1 := max(dx, 0), min(dx+here.w, s.w)
	y0, y1 := max(dy, 0), min(dy+here.h, s.h)
	if float64((x1-x0)*(y1-y0)) < leastShare*float64(here.w*here.h) {
		return 0
	}
	var n int
	var a, b, aa, bb, ab float32
	for y := y0; y < y1; y++ {
		row := s.ink[y*s.w+x0 : y*s.w+x1]
		other := here.ink[(y-dy)*here.w+x0-dx:][:len(row)]
		for i, v := range row {
			u := other[i]
			if v < 0 || u < 0 {
				continue
			}
			n++
			a, b, aa, bb, ab = a+v, b+u, aa+v*v, bb+u*u, ab+u*v
		}
	}
	area := float32(s.step * s.step)
	if float64(n) < leastShare*float64(here.w*here.h) || min(a, b)*area < leastInk {
		return 0
	}
	m := float32(n)
	va, vb := float64(aa-a*a/m), float64(bb-b*b/m)
	return float64(ab-a*b/m) / math.Sqrt(max(va*vb, 1e-9)) * math.Sqrt(float64(n))
}

// refine looks for the best place near a coarse one, on fine cells.
func (s sight) refine(part sight, at spot) spot {
	there := s.cells(fineCell, 0)
	out := spot{score: -1}
	var lock sync.Mutex
	const steps = 5
	rows(2*steps+1, func(i int) {
		turn := at.turn + float64(i-steps)*turnStep/(2*steps)*math.Pi/180*2
		here := part.cells(fineCell, turn)
		near := int(coarseCell/fineCell) + 2
		base := at.move.Add(here.at.Sub(there.at)).Scale(1 / fineCell)
		bx, by := int(math.Round(base.X)), int(math.Round(base.Y))
		top := spot{score: -1}
		for dy := by - near; dy <= by+near; dy++ {
			for dx := bx - near; dx <= bx+near; dx++ {
				if score := there.alike(here, dx, dy); score > top.score {
					top = spot{turn, there.moveOf(here, dx, dy), score}
				}
			}
		}
		lock.Lock()
		defer lock.Unlock()
		if top.score > out.score {
			out = top
		}
	})
	return out
}

// markPair is two places far from each other that a part at a spot and the
// others both show, as marks.
func markPair(placed []Part, p *Photo, own Straight, at spot, there, here sight) ([]Mark, bool) {
	mid := here.middle()
	sin, cos := math.Sincos(at.turn)
	lay := func(q geom.Point) geom.Point {
		d := q.Sub(mid)
		return geom.Pt(mid.X+cos*d.X-sin*d.Y+at.move.X, mid.Y+sin*d.X+cos*d.Y+at.move.Y)
	}
	var seen []geom.Point // of the part, own mm
	for y := 0; y < here.h; y += 8 {
		for x := 0; x < here.w; x += 8 {
			if here.ink[y*here.w+x] < 0 {
				continue
			}
			q := lay(here.place(x, y))
			tx, ty := int((q.X-there.at.X)/there.step), int((q.Y-there.at.Y)/there.step)
			if tx >= 0 && ty >= 0 && tx < there.w && ty < there.h && there.ink[ty*there.w+tx] >= 0 {
				seen = append(seen, here.place(x, y))
			}
		}
	}
	if len(seen) == 0 {
		return nil, false
	}
	a := farthestOf(seen, seen[0])
	b := farthestOf(seen, a)
	a, b = a.Lerp(b, inset), b.Lerp(a, inset)
	var out []Mark
	for _, q := range []geom.Point{a, b} {
		for i, k := range placed {
			px := k.Straight.Map.Pixel(lay(q))
			size := k.Photo.Picture.Size()
			if px.X >= 0 && px.Y >= 0 && px.X < float64(size.X) && px.Y < float64(size.Y) {
				out = append(out, Mark{On: i, There: px, Here: own.Map.Pixel(q)})
				break
			}
		}
	}
	return out, len(out) == 2
}

// farthestOf is the place of pts farthest from one.
func farthestOf(pts []geom.Point, from geom.Point) geom.Point {
	out := from
	for _, q := range pts {
		if q.Dist(from) > out.Dist(from) {
			out = q
		}
	}
	return out
}

// rows does something for each of n rows, on all cores.
func rows(n int, f func(i int)) {
	const workers = 4
	var all sync.WaitGroup
	for k := range workers {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := k; i < n; i += workers {
				f(i)
			}
		}()
	}
	all.Wait()
}
