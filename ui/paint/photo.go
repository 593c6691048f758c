package paint

import (
	"encoding/binary"
	"image"
	"math"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// laid is a photo as it lies on the picture: which places of which of its levels
// the picture's pixels show.
type laid struct {
	from  *image.RGBA
	to    image.Rectangle // of the picture, in device px
	x, y  float64         // the picture's (0, 0) in the level's pixels
	step  float64         // the level's pixels a device px
	keep  uint32          // of what is below, 0 to 256
	at    []int           // for each column, the byte of the left pixel
	share []uint32        // and how much the right one counts, 0 to 256
}

// photo lays a photo on the picture. It is read from the level whose pixels are
// nearest to device px from above, between four pixels.
func (p *Painter) photo(f scene.Photo, m geom.Affine, seen geom.Box) {
	if len(f.Levels) == 0 || f.PerMM <= 0 || f.Faded >= 1 {
		return
	}
	b := f.Box()
	lo, hi := at(m, b.Min), at(m, b.Max)
	// Not image.Rect, which would turn one that is out of sight inside out.
	to := image.Rectangle{
		Min: image.Pt(int(math.Round(max(lo.x, 0))), int(math.Round(max(lo.y, 0)))),
		Max: image.Pt(int(math.Round(min(hi.x, seen.Max.X))), int(math.Round(min(hi.y, seen.Max.Y)))),
	}
	if to.Empty() {
		return
	}
	perPx := f.PerMM / m.A // pixels of the first level to a device px
	n := 0
	for n+1 < len(f.Levels) && perPx >= 2 {
		perPx /= 2
		n++
	}
	corner := at(m, f.At)
	d := &laid{
		from: f.Levels[n], to: to, step: perPx, x: -corner.x * perPx, y: -corner.y * perPx,
		keep: uint32(math.Round(256 * min(max(f.Faded, 0), 1))),
	}
	d.columns()
	p.ops = append(p.ops, op{kind: opPhoto, photo: d, top: to.Min.Y, low: to.Max.Y})
}

// columns works out for every column which two pixels it lies between.
func (d *laid) columns() {
	w := d.to.Dx()
	d.at, d.share = make([]int, w), make([]uint32, w)
	for i := range w {
		x, share := between(d.x+(float64(d.to.Min.X+i)+0.5)*d.step, d.from.Rect.Dx())
		d.at[i], d.share[i] = 4*x, share
	}
}

// between is the pixel left of a place, of n, and how much the right one counts
// there, 0 to 256.
func between(v float64, n int) (int, uint32) {
	v = min(max(v-0.5, 0), float64(n-1)-1e-6)
	i := int(v)
	return i, uint32((v - float64(i)) * 256)
}

// rows lays the photo's part of a band.
func (d *laid) rows(b *band) {
	from := d.from
	for y := max(d.to.Min.Y, b.top); y < min(d.to.Max.Y, b.low); y++ {
		ty, v := between(d.y+(float64(y)+0.5)*d.step, from.Rect.Dy())
		top := from.Pix[ty*from.Stride:]
		low := top
		if ty+1 < from.Rect.Dy() {
			low = from.Pix[(ty+1)*from.Stride:]
		}
		row := b.pix[y*b.stride+4*d.to.Min.X : y*b.stride+4*d.to.Max.X]
		if d.keep == 0 {
			d.row(row, top, low, v)
		} else {
			d.faded(row, top, low, v)
		}
	}
}

// row lays one row of the photo as taken.
func (d *laid) row(row, top, low []byte, v uint32) {
	for i, x := range d.at {
		rb, ga := mix(top[x:x+8:x+8], low[x:x+8:x+8], d.share[i], v)
		binary.LittleEndian.PutUint32(row[4*i:], rb|ga<<8)
	}
}

// faded lays one row of the photo over what is below.
func (d *laid) faded(row, top, low []byte, v uint32) {
	for i, x := range d.at {
		rb, ga := mix(top[x:x+8:x+8], low[x:x+8:x+8], d.share[i], v)
		below := binary.LittleEndian.Uint32(row[4*i:])
		rb = ((below&0xff00ff)*d.keep + rb*(256-d.keep)) >> 8 & 0xff00ff
		ga = ((below>>8&0xff00ff)*d.keep + ga*(256-d.keep)) & 0xff00ff00
		binary.LittleEndian.PutUint32(row[4*i:], rb|ga)
	}
}

// mix is the colour between four pixels, two channels each.
func mix(top, low []byte, u, v uint32) (rb, ga uint32) {
	a, b := binary.LittleEndian.Uint32(top), binary.LittleEndian.Uint32(top[4:])
	c, e := binary.LittleEndian.Uint32(low), binary.LittleEndian.Uint32(low[4:])
	const m = 0xff00ff
	t := ((a&m)*(256-u) + (b&m)*u) >> 8 & m
	l := ((c&m)*(256-u) + (e&m)*u) >> 8 & m
	rb = (t*(256-v) + l*v) >> 8 & m
	t = ((a>>8&m)*(256-u) + (b>>8&m)*u) >> 8 & m
	l = ((c>>8&m)*(256-u) + (e>>8&m)*u) >> 8 & m
	return rb, (t*(256-v) + l*v) >> 8 & m
}
