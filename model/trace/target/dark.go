package target

import (
	"context"
	"image"
	"runtime"

	"quarterstep/model/crew"
)

// halved is g at half size, each pixel the mean of four.
func halved(g *image.Gray) *image.Gray {
	w, h := g.Rect.Dx()/2, g.Rect.Dy()/2
	out := image.NewGray(image.Rect(0, 0, w, h))
	inBands(h, func(from, to int) {
		for y := from; y < to; y++ {
			a := g.Pix[2*y*g.Stride:][:2*w]
			b := g.Pix[(2*y+1)*g.Stride:][:2*w]
			row := out.Pix[y*w:][:w]
			for x := range row {
				row[x] = uint8((int(a[2*x]) + int(a[2*x+1]) + int(b[2*x]) + int(b[2*x+1]) + 2) / 4)
			}
		}
	})
	return out
}

// inBands has all processors do n rows, each a band of them.
func inBands(n int, do func(from, to int)) {
	parts := min(max(1, n/64), runtime.GOMAXPROCS(0))
	var wg crew.Group
	for i := range parts {
		wg.Go(func() { do(n*i/parts, n*(i+1)/parts) })
	}
	wg.Wait()
}

// A pixel is dark where it is less than darkShare of the mean of what is within
// around pixels of it, each way, at half size.
const (
	darkShare = 0.72
	around    = 32
)

// run is dark pixels next to each other in a row, from one to before another.
type run struct{ y, from, to, part int32 }

// darkRuns are the runs of dark pixels of g by rows.
func darkRuns(g *image.Gray) [][]run {
	h := g.Rect.Dy()
	rows := make([][]run, h)
	inBands(h, func(from, to int) {
		sums := newColumns(g, from)
		for y := from; y < to; y++ {
			rows[y] = sums.runs(y)
			sums.next(y)
		}
	})
	return rows
}

// columns are the sums of the pixels within around of a row, column by column.
type columns struct {
	g   *image.Gray
	sum []int32
}

func newColumns(g *image.Gray, y int) *columns {
	c := &columns{g, make([]int32, g.Rect.Dx())}
	for k := max(0, y-around); k <= min(y+around, g.Rect.Dy()-1); k++ {
		c.add(k, 1)
	}
	return c
}

func (c *columns) add(y int, sign int32) {
	row := c.g.Pix[y*c.g.Stride:][:len(c.sum)]
	for x, v := range row {
		c.sum[x] += sign * int32(v)
	}
}

// next goes from row y to the one below.
func (c *columns) next(y int) {
	if y-around >= 0 {
		c.add(y-around, -1)
	}
	if y+around+1 < c.g.Rect.Dy() {
		c.add(y+around+1, 1)
	}
}

// runs are the dark runs of row y.
func (c *columns) runs(y int) []run {
	w := len(c.sum)
	high := min(y+around, c.g.Rect.Dy()-1) - max(0, y-around) + 1
	row := c.g.Pix[y*c.g.Stride:][:w]
	var out []run
	sum, wide := int32(0), 0
	for x := range min(around, w) {
		sum += c.sum[x]
		wide++
	}
	begun := -1
	for x, v := range row {
		if x+around < w {
			sum += c.sum[x+around]
			wide++
		}
		if x-around-1 >= 0 {
			sum -= c.sum[x-around-1]
			wide--
		}
		dark := float32(v)*float32(wide*high) < darkShare*float32(sum)
		if dark && begun < 0 {
			begun = x
		}
		if !dark && begun >= 0 {
			out = append(out, run{y: int32(y), from: int32(begun), to: int32(x)})
			begun = -1
		}
	}
	if begun >= 0 {
		out = append(out, run{y: int32(y), from: int32(begun), to: int32(w)})
	}
	return out
}

// part is a connected dark part of the picture, with what it surrounds row by
// row: how many pixels are dark, how many in all, and of these the sums of their
// places and of the products of places.
type part struct {
	dark                    float64
	n, x, y, xx, xy, yy     float64
	left, right, top, base  int32 // right and base are one beyond
	rowY, rowFrom, rowUntil int32 // the row under way, not yet summed
}

// darkParts are the connected dark parts of g, touching by corners too, by
// union of runs (Hoshen and Kopelman 1976).
func darkParts(ctx context.Context, g *image.Gray) []part {
	rows := darkRuns(g)
	if ctx.Err() != nil {
		return nil
	}
	var parent []int32
	root := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for y, row := range rows {
		var above []run
		if y > 0 {
			above = rows[y-1]
		}
		k := 0
		for i := range row {
			r := &row[i]
			r.part = int32(len(parent))
			parent = append(parent, r.part)
			for k < len(above) && above[k].to < r.from {
				k++
			}
			for j := k; j < len(above) && above[j].from <= r.to; j++ {
				a, b := root(above[j].part), root(r.part)
				parent[max(a, b)] = min(a, b)
			}
		}
	}
	all := make([]part, len(parent))
	for _, row := range rows {
		for _, r := range row {
			all[root(r.part)].add(r)
		}
	}
	var out []part
	for _, p := range all {
		if p.dark > 0 {
			p.close()
			out = append(out, p)
		}
	}
	return out
}

// add adds the pixels of a run; runs come row by row.
func (p *part) add(r run) {
	if p.dark == 0 {
		p.left, p.right, p.top = r.from, r.to, r.y
		p.rowY, p.rowFrom, p.rowUntil = r.y, r.from, r.to
	}
	if r.y != p.rowY {
		p.close()
		p.rowY, p.rowFrom, p.rowUntil = r.y, r.from, r.to
	}
	p.dark += float64(r.to - r.from)
	p.rowFrom, p.rowUntil = min(p.rowFrom, r.from), max(p.rowUntil, r.to)
	p.left, p.right, p.base = min(p.left, r.from), max(p.right, r.to), r.y+1
}

// close sums the row under way, each pixel counted at its middle.
func (p *part) close() {
	n := float64(p.rowUntil - p.rowFrom)
	x := float64(p.rowFrom+p.rowUntil) / 2
	y := float64(p.rowY) + 0.5
	p.n += n
	p.x += n * x
	p.y += n * y
	p.xx += n*x*x + n*(n*n-1)/12
	p.xy += n * x * y
	p.yy += n * y * y
}
