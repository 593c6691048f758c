package paper

import (
	"image"
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
)

const (
	// evenCell is the side, in mm, of the squares in which the light of two parts
	// is compared: several printed lines lie in one, and so weigh little.
	evenCell = 16.0
	// evenEvery is every how many pixels each way one is looked at.
	evenEvery = 3
	// evenLeast is the fewest looks that tell the light of a square.
	evenLeast = 40
	// evenMost is the log of how much lighter or darker a part is made at most.
	evenMost = 0.5
	// evenOdd is by how much, as a log, a square may differ from most: more is
	// something lying on the paper.
	evenOdd = 0.3
)

// evenness is by how much a part is made lighter or darker, as the log for each
// colour, at the corners of squares of its own flat picture.
type evenness struct {
	w, h int
	side float64 // px of a square
	log  [][3]float64
}

// lit is how light two parts show one square of paper.
type lit struct {
	at   geom.Point // px of the part's flat picture
	ours [3]float64
	them [3]float64
	n    int
}

// ratio is the log of how much lighter the others show it than the part.
func (l lit) ratio(c int) float64 { return math.Log((l.them[c] + 1) / (l.ours[c] + 1)) }

// evenOut tells how a part, whose flat picture begins at a pixel of the whole,
// is brought to the light of those that lie already, where both show the paper;
// from there on that fades, so that the rest stays as it was taken. It is nil where they share too
// little. Light changes slowly across paper, so that no line is moved by it.
func evenOut(out Flat, far []uint16, flat *image.RGBA, at image.Point, q Part) *evenness {
	side := evenCell * out.PerMM
	e := &evenness{side: side, w: int(float64(flat.Rect.Dx())/side) + 2, h: int(float64(flat.Rect.Dy())/side) + 2}
	cells := shared(out, far, flat, at, q, e)
	if len(cells) == 0 {
		return nil
	}
	most := middling(cells)
	cells = slices.DeleteFunc(cells, func(l lit) bool { return math.Abs(l.ratio(green)-most) > evenOdd })
	e.log = make([][3]float64, e.w*e.h)
	rows(e.h, func(y int) {
		for x := range e.w {
			e.log[y*e.w+x] = lightAt(geom.Pt(float64(x)*side, float64(y)*side), side, cells)
		}
	})
	return e
}

// green is the colour that tells the light best.
const green = 1

// middling is the median ratio.
func middling(cells []lit) float64 {
	all := make([]float64, len(cells))
	for i, l := range cells {
		all[i] = l.ratio(green)
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// lightAt is the ratio at a place: of the squares about it, the nearer the more;
// far from all of them it is left as it is.
func lightAt(p geom.Point, side float64, cells []lit) [3]float64 {
	const left = 0.02 // weight of leaving it as it is, against one square under the place
	var sum [3]float64
	weight := left
	for _, l := range cells {
		d := p.Dist(l.at) / side
		k := 1 / (1 + d*d*d*d)
		weight += k
		for c := range sum {
			sum[c] += k * l.ratio(c)
		}
	}
	for c := range sum {
		sum[c] = min(max(sum[c]/weight, -evenMost), evenMost)
	}
	return sum
}

// shared are the squares that a part and those before it both show.
func shared(out Flat, far []uint16, flat *image.RGBA, at image.Point, q Part, e *evenness) []lit {
	pixel, size := q.Straight.Map.Back(), q.Photo.Picture.Size()
	wide := out.Colour.Rect.Dx()
	w, h := min(flat.Rect.Dx(), wide-at.X), min(flat.Rect.Dy(), out.Colour.Rect.Dy()-at.Y)
	cells := make([]lit, e.w*e.h)
	rows(e.h, func(cy int) {
		for y := int(float64(cy) * e.side); y < min(int(float64(cy+1)*e.side), h); y += evenEvery {
			for x := 0; x < w; x += evenEvery {
				k := (y+at.Y)*wide + x + at.X
				if far[k] <= hidden {
					continue
				}
				px := pixel(geom.Pt(out.From.X+(float64(x+at.X)+0.5)/out.PerMM, out.From.Y+(float64(y+at.Y)+0.5)/out.PerMM))
				if min(px.X, px.Y, float64(size.X)-px.X, float64(size.Y)-px.Y) < 2 || straight.Covered(q.Straight.Covers, px) {
					continue
				}
				l := &cells[cy*e.w+int(float64(x)/e.side)]
				l.n++
				for c := range 3 {
					l.ours[c] += float64(flat.Pix[y*flat.Stride+4*x+c])
					l.them[c] += float64(out.Colour.Pix[4*k+c])
				}
			}
		}
	})
	var all []lit
	for i, l := range cells {
		if l.n < evenLeast {
			continue
		}
		for c := range 3 {
			l.ours[c] /= float64(l.n)
			l.them[c] /= float64(l.n)
		}
		l.at = geom.Pt((float64(i%e.w)+0.5)*e.side, (float64(i/e.w)+0.5)*e.side)
		all = append(all, l)
	}
	return all
}

// row is by how much each pixel of a row of the part's flat picture is made
// lighter; nil where nothing is.
func (e *evenness) row(y, w int) [][3]float64 {
	if e == nil {
		return nil
	}
	at := func(x, y int) [3]float64 { return e.log[min(y, e.h-1)*e.w+min(x, e.w-1)] }
	fy := (float64(y) + 0.5) / e.side
	j := int(fy)
	edge := make([][3]float64, e.w)
	for i := range edge {
		a, b := at(i, j), at(i, j+1)
		for c := range 3 {
			edge[i][c] = math.Exp(a[c] + (b[c]-a[c])*(fy-float64(j)))
		}
	}
	out := make([][3]float64, w)
	for x := range out {
		fx := (float64(x) + 0.5) / e.side
		i := min(int(fx), e.w-1)
		a, b := edge[i], edge[min(i+1, e.w-1)]
		for c := range 3 {
			out[x][c] = a[c] + (b[c]-a[c])*(fx-float64(i))
		}
	}
	return out
}
