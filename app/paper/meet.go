package paper

import (
	"cmp"
	"context"
	"math"
	"slices"

	"quarterstep/model/crew"
	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
)

// How the overlap of parts is looked for: first on coarse cells, everywhere and
// turned a little either way, then the best places on ever finer ones.
const (
	lookStep   = 0.5  // mm between looks at the picture
	coarseCell = 4.0  // mm
	scanTurn   = 3.0  // degrees that a scan may be laid down askew
	photoTurn  = 15.0 // and a photo held
	turnStep   = 1.0  // degrees
	leastShare = 0.06 // of the part that the others show as well
	leastInk   = 6.0  // mm² of ink that both show
	mostPlaces = 16
	sameSpot   = 5.0  // mm within which two places are one, on coarse cells
	sameFine   = 1.0  // and on fine ones
	sameTurn   = 0.01 // radians
	leastAlike = 0.3  // correlation on fine cells
	plainAlike = 0.5  // and where it need not be much likelier than another
	standing   = 1.15 // by how much the likeliest place must be likelier than another
	standsFar  = 1.3  // where the two are less than plainly alike
	leastArea  = 2500 // mm² that both show
	inset      = 0.08 // of their distance that marks keep from the ends of what both show
	meetAlike  = 0.7  // correlation once laid together; photos rendered came out at 0.84 and more
	meetMoved  = 3.0  // mm by which laying together may still move the part
)

// finer is how places found before are looked at on finer cells.
type finer struct {
	spots     int     // that are looked at
	cell      float64 // mm
	reach     int     // cells either way
	turn      float64 // degrees between turns
	turnReach int     // turns either way
}

var looks = []finer{
	{mostPlaces, 2, 3, 0.25, 5},
	{6, 1, 2, 0.25, 2},
	{4, lookStep, 2, 0.1, 3},
}

// Meet looks for the place where a picture, made flat by itself, overlaps those
// that lie already, by what both show and nothing else. It returns two places
// that both show, as if they had been clicked; false where no place stands out,
// or more than one does.
func (p *Photo) Meet(ctx context.Context, placed []Part, own Straight, progress func(float64)) ([]Mark, bool, error) {
	if progress == nil {
		progress = func(float64) {}
	}
	_, done, err := holdAll(append(slices.Clone(placed), Part{Photo: p}))
	if err != nil {
		return nil, false, err
	}
	defer done() // they are looked at several times
	there := sightOf(placed)
	here := sightOf([]Part{{Photo: p, Straight: own}})
	turns := p.turns(placed)
	for n, some := range [][][]float64{turns[:1], turns[1:]} {
		at, ok, err := there.find(ctx, here, some, func(share float64) { progress((float64(n) + 0.9*share) / 2) })
		if err != nil {
			return nil, false, err
		}
		if !ok {
			continue
		}
		if marks, ok := markPair(placed, own, at, there, here); ok {
			if ok, err = p.meetsAt(ctx, placed, own, marks); ok || err != nil {
				return marks, ok, err
			}
		}
	}
	return nil, false, ctx.Err()
}

// find looks for the one place where a part may lie, turned by one of the angles
// of any of the lists.
func (s sight) find(ctx context.Context, part sight, turns [][]float64, progress func(float64)) (spot, bool, error) {
	spots := s.coarse(ctx, part, slices.Concat(turns...), func(share float64) { progress(share / 2) })
	for n, l := range looks {
		spots = spots[:min(len(spots), l.spots)]
		for i := range spots {
			if err := ctx.Err(); err != nil {
				return spot{}, false, err
			}
			spots[i] = s.refine(part, spots[i], l)
			progress(0.5 + 0.5*(float64(n)+float64(i+1)/float64(len(spots)))/float64(len(looks)))
		}
		byScore(spots)
	}
	at, ok := standsOut(spots)
	return at, ok, ctx.Err()
}

// standsOut is the likeliest place, where both show the same there over area
// enough, and nowhere else nearly: dashes that run along each other look alike
// at every dash.
func standsOut(spots []spot) (spot, bool) {
	if len(spots) == 0 || spots[0].alike < leastAlike || spots[0].area < leastArea {
		return spot{}, false
	}
	clear := standing
	if spots[0].alike < plainAlike {
		clear = standsFar
	}
	for _, s := range spots[1:] {
		same := s.move.Sub(spots[0].move).Len() < sameFine && math.Abs(s.turn-spots[0].turn) < sameTurn
		if !same && s.score*clear > spots[0].score {
			return spot{}, false
		}
	}
	return spots[0], true
}

// meetsAt reports whether both show the same where the marks lay the part.
func (p *Photo) meetsAt(ctx context.Context, placed []Part, own Straight, marks []Mark) (bool, error) {
	j, err := p.joined(ctx, placed, own, marks)
	if err != nil {
		return false, ctx.Err() // marks that fit nowhere are no error: she clicks her own
	}
	return j.Refined && j.Moved <= meetMoved && j.Alike >= meetAlike, nil
}

// spot is where a part may lie: turned by an angle about the middle of its
// paper, then moved.
type spot struct {
	turn  float64 // radians
	move  geom.Vec
	score float64
	alike float64 // correlation, 1 the same
	area  float64 // mm² that both show
}

func (s spot) near(o spot) bool {
	return s.move.Sub(o.move).Len() < sameSpot && math.Abs(s.turn-o.turn) < 1.5*turnStep*math.Pi/180
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
	full, done, err := q.Photo.hold(false)
	if err != nil {
		return // Meet holds it already
	}
	defer done()
	g, size := full.Gray, full.Size()
	v := make([]float32, len(s.ink))
	pixel := q.Straight.Map.Back()
	rows(s.h, func(y int) {
		for x := range s.w {
			px := pixel(s.place(x, y))
			i := y*s.w + x
			v[i] = -1
			if straight.Covered(q.Straight.Covers, px) {
				continue
			}
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
	out := sight{step: cell, at: s.at}
	wide, high := float64(s.w)*s.step, float64(s.h)*s.step
	if turn != 0 {
		wide, high = wide*math.Abs(cos)+high*math.Abs(sin), wide*math.Abs(sin)+high*math.Abs(cos)
		out.at = geom.Pt(mid.X-wide/2, mid.Y-high/2)
	}
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

// moveOf is the movement that brings cell (0, 0) of here to cell (dx, dy) of
// there.
func (s sight) moveOf(here sight, dx, dy int) geom.Vec {
	return geom.Vec{
		X: s.at.X + float64(dx)*s.step - here.at.X,
		Y: s.at.Y + float64(dy)*s.step - here.at.Y,
	}
}

// byScore orders places by what they score, those that score the same as they came:
// what comes first may not hang on which processor was done first.
func byScore(all []spot) {
	slices.SortStableFunc(all, func(a, b spot) int { return cmp.Compare(b.score, a.score) })
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

// spot is how much two sights agree with here moved by whole cells: their
// correlation, and as score that times the root of the area that says so, as a
// chance agreement of little is no wonder. The score is 0 where they share too
// little.
func (s sight) spot(here sight, turn float64, dx, dy int) spot {
	out := spot{turn: turn, move: s.moveOf(here, dx, dy)}
	x0, x1 := max(dx, 0), min(dx+here.w, s.w)
	y0, y1 := max(dy, 0), min(dy+here.h, s.h)
	if x1 <= x0 || y1 <= y0 || float64((x1-x0)*(y1-y0)) < leastShare*float64(here.w*here.h) {
		return out
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
	cell := s.step * s.step
	if float64(n) < leastShare*float64(here.w*here.h) || float64(min(a, b))*cell < leastInk {
		return out
	}
	m := float32(n)
	va, vb := float64(aa-a*a/m), float64(bb-b*b/m)
	out.area = float64(n) * cell
	out.alike = float64(ab-a*b/m) / math.Sqrt(max(va*vb, 1e-9))
	out.score = out.alike * math.Sqrt(out.area)
	return out
}

// refine looks for the best place near one, on finer cells.
func (s sight) refine(part sight, at spot, l finer) spot {
	there := s.cells(l.cell, 0)
	found := make([]spot, 2*l.turnReach+1)
	rows(len(found), func(i int) {
		turn := at.turn + float64(i-l.turnReach)*l.turn*math.Pi/180
		here := part.cells(l.cell, turn)
		base := at.move.Add(here.at.Sub(there.at)).Scale(1 / l.cell)
		bx, by := int(math.Round(base.X)), int(math.Round(base.Y))
		top := spot{score: -1}
		for dy := by - l.reach; dy <= by+l.reach; dy++ {
			for dx := bx - l.reach; dx <= bx+l.reach; dx++ {
				if at := there.spot(here, turn, dx, dy); at.score > top.score {
					top = at
				}
			}
		}
		found[i] = top
	})
	byScore(found)
	return found[0]
}

// markPair is two places far from each other that a part at a spot and the
// others both show, as marks.
func markPair(placed []Part, own Straight, at spot, there, here sight) ([]Mark, bool) {
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
	for _, share := range []float64{inset, 0} { // what both show may have a corner left out
		if out := marksAt(placed, own, lay, a.Lerp(b, share), b.Lerp(a, share)); len(out) == 2 {
			return out, true
		}
	}
	return nil, false
}

// marksAt are marks at places of a part, own mm, that those that lie already
// show as well; lay takes the places to theirs.
func marksAt(placed []Part, own Straight, lay func(geom.Point) geom.Point, places ...geom.Point) []Mark {
	var out []Mark
	for _, q := range places {
		for i, k := range placed {
			px := k.Straight.Map.Pixel(lay(q))
			size := k.Photo.Picture.Size()
			if px.X >= 0 && px.Y >= 0 && px.X < float64(size.X) && px.Y < float64(size.Y) {
				out = append(out, Mark{On: i, There: px, Here: own.Map.Pixel(q)})
				break
			}
		}
	}
	return out
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
	var all crew.Group
	for k := range workers {
		all.Go(func() {
			for i := k; i < n; i += workers {
				f(i)
			}
		})
	}
	all.Wait()
}
