package follow

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"

	"quarterstep/model/crew"
	"quarterstep/model/geom"
)

// ridgePoint is one place on the middle of a dark line.
type ridgePoint struct {
	at       geom.Point // mm
	dir      float64    // direction of the line in radians, modulo half a turn
	strength float32    // darkness against the paper, 1 for ink on white, by the filter's measure
	blob     float32    // how round it is: 0 a line, 1 a dot
	x, y     int32      // its pixel
}

// sure is how surely a place is ink: its strength, and half as much again for a
// dot, which is dark against the paper all round. A small dot of a photo is as
// faint across as the shade of a line that shows through.
func (p ridgePoint) sure() float32 { return p.strength * (1 + p.blob/2) }

// sigmaMM is the width of the filter: a little under half of a printed line,
// at which a line's middle is its strongest place whatever its width up to
// 0.75 mm (C. Steger, "An unbiased detector of curvilinear structures", IEEE
// PAMI 20 (1998) 113: at least half the line's width over the square root of
// three).
const sigmaMM = 0.21

// Darkness under which a ridge is not ink: the least anywhere on a line, and
// the least that a line must reach somewhere, as shares of the paper's
// brightness.
const (
	faintest = 0.045
	plain    = 0.085
)

// bandRows is how many rows are filtered at a time.
const bandRows = 96

// ridges finds the places on the middle of dark lines, row by row.
func ridges(ctx context.Context, s Sheet, progress func(float64)) ([]ridgePoint, error) {
	w, h := s.Gray.Rect.Dx(), s.Gray.Rect.Dy()
	paper := paperOf(s)
	kernel := newKernel(max(sigmaMM*s.PerMM, 0.9))
	bands := (h + bandRows - 1) / bandRows
	found := make([][]ridgePoint, bands)
	var next, done int
	var mu sync.Mutex
	var wg crew.Group
	for range min(runtime.GOMAXPROCS(0), bands) {
		wg.Go(func() {
			b := newBand(s, kernel, paper, w)
			for {
				mu.Lock()
				i := next
				next++
				mu.Unlock()
				if i >= bands || ctx.Err() != nil {
					return
				}
				found[i] = b.find(i*bandRows, min((i+1)*bandRows, h))
				mu.Lock()
				done++
				progress(float64(done) / float64(bands))
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return slices.Concat(found...), nil
}

// kernel is a bell curve and its first two slopes, sampled at the pixels.
type kernel struct {
	r          int
	sigma      float64
	g0, g1, g2 []float32
}

func newKernel(sigma float64) kernel {
	r := int(math.Ceil(3 * sigma))
	k := kernel{r: r, sigma: sigma}
	var sum, moment, flat, bow float64
	g := make([]float64, 2*r+1)
	d := make([]float64, 2*r+1)
	q := make([]float64, 2*r+1)
	for i := range g {
		x := float64(i - r)
		g[i] = math.Exp(-x * x / (2 * sigma * sigma))
		d[i] = x * g[i]
		q[i] = (x*x/(sigma*sigma) - 1) * g[i]
		sum += g[i]
		moment += x * d[i]
		flat += q[i]
	}
	// Exact for parabolas in spite of sampling and cutting off: the second
	// slope has no mean, and meets x²/2 with 1.
	for i := range q {
		q[i] -= flat * g[i] / sum
		x := float64(i - r)
		bow += q[i] * x * x / 2
	}
	for i := range g {
		k.g0 = append(k.g0, float32(g[i]/sum))
		k.g1 = append(k.g1, float32(d[i]/moment))
		k.g2 = append(k.g2, float32(q[i]/bow))
	}
	return k
}

// band filters one run of rows after another in the same memory.
type band struct {
	s          Sheet
	k          kernel
	paper      paper
	w          int
	src        []float32    // one padded row
	h0, h1, h2 [][]float32  // rows filtered across
	v          [5][]float32 // one row filtered down: x, y, xx, xy, yy
}

func newBand(s Sheet, k kernel, p paper, w int) *band {
	b := &band{s: s, k: k, paper: p, w: w, src: make([]float32, w+2*k.r)}
	for range bandRows + 2*k.r {
		b.h0 = append(b.h0, make([]float32, w))
		b.h1 = append(b.h1, make([]float32, w))
		b.h2 = append(b.h2, make([]float32, w))
	}
	for i := range b.v {
		b.v[i] = make([]float32, w)
	}
	return b
}

func (b *band) find(y0, y1 int) []ridgePoint {
	h := b.s.Gray.Rect.Dy()
	for i := range y1 - y0 + 2*b.k.r {
		b.across(i, min(max(y0+i-b.k.r, 0), h-1))
	}
	var out []ridgePoint
	for y := y0; y < y1; y++ {
		b.down(y - y0)
		out = b.pick(out, y)
	}
	return out
}

// across filters picture row y into the band's row i.
func (b *band) across(i, y int) {
	row := b.s.Gray.Pix[y*b.s.Gray.Stride:][:b.w]
	r := b.k.r
	for x, v := range row {
		b.src[r+x] = float32(v)
	}
	for j := range r {
		b.src[j], b.src[r+b.w+j] = float32(row[0]), float32(row[b.w-1])
	}
	h0, h1, h2 := b.h0[i], b.h1[i], b.h2[i]
	g0, g1, g2 := b.k.g0, b.k.g1, b.k.g2
	for x := range h0 {
		c := b.src[x+r]
		s0, s1, s2 := g0[r]*c, float32(0), g2[r]*c
		for j := 1; j <= r; j++ {
			a, z := b.src[x+r-j], b.src[x+r+j]
			s0 += g0[r+j] * (a + z)
			s1 += g1[r+j] * (z - a)
			s2 += g2[r+j] * (a + z)
		}
		h0[x], h1[x], h2[x] = s0, s1, s2
	}
}

// down filters the band's rows around row i down into v.
func (b *band) down(i int) {
	r := b.k.r
	x1, y1, xx, xy, yy := b.v[0], b.v[1], b.v[2], b.v[3], b.v[4]
	c0, c1, c2 := b.h0[i+r], b.h1[i+r], b.h2[i+r]
	g0, g2 := b.k.g0[r], b.k.g2[r]
	for x := range x1 {
		x1[x], y1[x], xx[x], xy[x], yy[x] = g0*c1[x], 0, g0*c2[x], 0, g2*c0[x]
	}
	for j := 1; j <= r; j++ {
		g0, g1, g2 := b.k.g0[r+j], b.k.g1[r+j], b.k.g2[r+j]
		a0, z0 := b.h0[i+r-j], b.h0[i+r+j]
		a1, z1 := b.h1[i+r-j], b.h1[i+r+j]
		a2, z2 := b.h2[i+r-j], b.h2[i+r+j]
		for x := range x1 {
			x1[x] += g0 * (a1[x] + z1[x])
			y1[x] += g1 * (z0[x] - a0[x])
			xx[x] += g0 * (a2[x] + z2[x])
			xy[x] += g1 * (z1[x] - a1[x])
			yy[x] += g2 * (a0[x] + z0[x])
		}
	}
}

// pick adds the places of row y on which a ridge's middle falls within the
// pixel, to a part of a pixel (Steger's rule).
func (b *band) pick(out []ridgePoint, y int) []ridgePoint {
	scale := float32(b.k.sigma * b.k.sigma)
	xx, xy, yy := b.v[2], b.v[3], b.v[4]
	for x := range xx {
		sum := xx[x] + yy[x]
		if sum <= 0 { // the larger of the two bends is at least half the sum
			continue
		}
		light := b.paper.at(x, y)
		if (sum+float32(math.Abs(float64(xx[x]-yy[x])))+2*float32(math.Abs(float64(xy[x]))))*scale < 2*faintest*light {
			continue
		}
		half := float64(xx[x]-yy[x]) / 2
		root := math.Hypot(half, float64(xy[x]))
		bend := float64(sum)/2 + root
		strength := float32(bend) * scale / light
		if strength < faintest {
			continue
		}
		angle := math.Atan2(float64(xy[x]), half) / 2 // across the line
		sin, cos := math.Sincos(angle)
		t := -(float64(b.v[0][x])*cos + float64(b.v[1][x])*sin) / bend
		dx, dy := t*cos, t*sin
		if math.Abs(dx) > 0.6 || math.Abs(dy) > 0.6 {
			continue
		}
		out = append(out, ridgePoint{
			at:       b.s.mm(float64(x)+0.5+dx, float64(y)+0.5+dy),
			dir:      angle + math.Pi/2,
			strength: strength,
			blob:     float32(max(0, (float64(sum)/2-root)/bend)),
			x:        int32(x), y: int32(y),
		})
	}
	return out
}

// paper is the brightness of the paper, by blocks of pixels.
type paper struct {
	block, across int
	light         []float32
}

// paperOf takes the brightness that nine of ten pixels of a block do not
// reach, from the lightest of the block and its neighbours, so that a block
// full of ink still knows its paper.
func paperOf(s Sheet) paper {
	w, h := s.Gray.Rect.Dx(), s.Gray.Rect.Dy()
	p := paper{block: max(8, int(5*s.PerMM))}
	p.across = (w + p.block - 1) / p.block
	down := (h + p.block - 1) / p.block
	own := make([]float32, p.across*down)
	for by := range down {
		for bx := range p.across {
			own[by*p.across+bx] = s.lightest(bx*p.block, by*p.block, p.block)
		}
	}
	p.light = make([]float32, len(own))
	for by := range down {
		for bx := range p.across {
			best := float32(16)
			for y := max(by-1, 0); y <= min(by+1, down-1); y++ {
				for x := max(bx-1, 0); x <= min(bx+1, p.across-1); x++ {
					best = max(best, own[y*p.across+x])
				}
			}
			p.light[by*p.across+bx] = best
		}
	}
	return p
}

// lightest is the brightness that nine tenths of a block's pixels do not
// reach.
func (s Sheet) lightest(x0, y0, block int) float32 {
	var count [256]int
	n := 0
	for y := y0; y < min(y0+block, s.Gray.Rect.Dy()); y += 2 {
		row := s.Gray.Pix[y*s.Gray.Stride:]
		for x := x0; x < min(x0+block, s.Gray.Rect.Dx()); x += 2 {
			count[row[x]]++
			n++
		}
	}
	left := n / 10
	for v := 255; v > 0; v-- {
		if left -= count[v]; left < 0 {
			return float32(v)
		}
	}
	return 0
}

func (p paper) at(x, y int) float32 {
	return p.light[y/p.block*p.across+x/p.block]
}
