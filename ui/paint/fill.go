package paint

import (
	"cmp"
	"math"
	"slices"
)

// sub is how many lines a row of pixels is sampled on; across, the cover is
// exact.
const sub = 4

// crossing is where the outline crosses a sample line, and whether downwards.
type crossing struct {
	x    float64
	down int
}

// change is a change of cover from pixel x on.
type change struct {
	x  int
	by float64
}

type filler struct {
	cross   [][]crossing
	changes []change
}

// paint fills the closed rings, non-zero winding, in colour k.
func (b *band) paint(pts []pt, runs []run, k ink) {
	top, low := b.gather(pts, runs)
	for y := top; y < low; y++ {
		b.fill.changes = b.fill.changes[:0]
		for s := range sub {
			b.fill.sample(b.fill.cross[(y-b.top)*sub+s], float64(b.width))
		}
		b.fillRow(y, k)
	}
}

// gather finds where the rings cross the sample lines of the band and returns
// the rows they reach.
func (b *band) gather(pts []pt, runs []run) (top, low int) {
	lines := (b.low - b.top) * sub
	for len(b.fill.cross) < lines {
		b.fill.cross = append(b.fill.cross, nil)
	}
	for i := range lines {
		b.fill.cross[i] = b.fill.cross[i][:0]
	}
	first, last := lines, 0
	for _, u := range runs {
		prev := pts[u.to-1]
		for _, p := range pts[u.from:u.to] {
			from, to := b.side(prev, p, lines)
			first, last = min(first, from), max(last, to)
			prev = p
		}
	}
	return b.top + first/sub, min(b.top+(last+sub-1)/sub, b.low)
}

// side notes the crossings of one side of a ring and the sample lines between
// which they lie.
func (b *band) side(p, q pt, lines int) (from, to int) {
	down := 1
	if p.y > q.y {
		p, q, down = q, p, -1
	}
	// Sample line i lies at top + (i + 1/2) / sub.
	line := func(y float64) int {
		return int(min(max(math.Ceil((y-float64(b.top))*sub-0.5), 0), float64(lines)))
	}
	from, to = line(p.y), line(q.y)
	if from >= to {
		return lines, 0
	}
	slope := (q.x - p.x) / (q.y - p.y)
	for i := from; i < to; i++ {
		y := float64(b.top) + (float64(i)+0.5)/sub
		b.fill.cross[i] = append(b.fill.cross[i], crossing{p.x + (y-p.y)*slope, down})
	}
	return from, to
}

// sample turns the crossings of one sample line into changes of cover.
func (f *filler) sample(cs []crossing, width float64) {
	sortCrossings(cs)
	wind := 0
	for _, c := range cs {
		was := wind
		wind += c.down
		switch {
		case was == 0 && wind != 0:
			f.edge(min(max(c.x, 0), width), 1.0/sub)
		case was != 0 && wind == 0:
			f.edge(min(max(c.x, 0), width), -1.0/sub)
		}
	}
}

// edge raises the cover by dv to the right of x, sharing the pixel x lies in.
func (f *filler) edge(x, dv float64) {
	i := math.Floor(x)
	part := x - i
	f.changes = append(f.changes, change{int(i), dv * (1 - part)}, change{int(i) + 1, dv * part})
}

// fillRow lays the cover that the changes describe on row y.
func (b *band) fillRow(y int, k ink) {
	cs := b.fill.changes
	sortChanges(cs)
	row := b.pix[y*b.stride : y*b.stride+b.width*4]
	cover := 0.0
	for i, c := range cs {
		cover += c.by
		end := b.width
		if i+1 < len(cs) {
			end = cs[i+1].x
		}
		from := min(c.x, b.width)
		end = min(end, b.width)
		if end <= from {
			continue
		}
		if m := uint32(min(cover, 1)*255 + 0.5); m > 0 {
			k.run(row[from*4:end*4], m)
		}
	}
}

// few is how many are sorted by putting each in its place among those before it:
// most outlines cross a row twice.
const few = 32

func sortCrossings(cs []crossing) {
	if len(cs) > few {
		slices.SortFunc(cs, func(a, b crossing) int { return cmp.Compare(a.x, b.x) })
		return
	}
	for i := 1; i < len(cs); i++ {
		for k := i; k > 0 && cs[k].x < cs[k-1].x; k-- {
			cs[k], cs[k-1] = cs[k-1], cs[k]
		}
	}
}

func sortChanges(cs []change) {
	if len(cs) > few {
		slices.SortFunc(cs, func(a, b change) int { return a.x - b.x })
		return
	}
	for i := 1; i < len(cs); i++ {
		for k := i; k > 0 && cs[k].x < cs[k-1].x; k-- {
			cs[k], cs[k-1] = cs[k-1], cs[k]
		}
	}
}
