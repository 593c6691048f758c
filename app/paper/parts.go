package paper

import (
	"context"
	"image"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
)

// Part is one picture of a piece that was taken in several, with its way to the
// flat paper that all share.
type Part struct {
	Photo    *Photo
	Straight Straight
}

// Mark is one place of the paper clicked in two pictures, both in px.
type Mark struct {
	On    int // which of the parts that lie already
	There geom.Point
	Here  geom.Point
}

// Join lays a picture, made flat by itself, on those that lie already: by two or
// more places clicked in both, then by all that both show. It returns the
// picture's way to the paper the others share.
func (p *Photo) Join(ctx context.Context, placed []Part, own Straight, marks []Mark, unit measure.Unit) (Straight, error) {
	j, err := p.joined(ctx, placed, own, marks)
	if err != nil {
		return Straight{}, err
	}
	out := own
	out.Map, out.Say, out.Points = j.Map, j.Say(unit), j.Misfit.Points
	return out, out.bound(p)
}

// joined lays the picture on those that lie already, beginning where the marks say.
func (p *Photo) joined(ctx context.Context, placed []Part, own Straight, marks []Mark) (straight.Joined, error) {
	full, done, err := holdAll(append(slices.Clone(placed), Part{Photo: p}))
	if err != nil {
		return straight.Joined{}, err
	}
	defer done()
	parts := make([]straight.Part, len(placed))
	for i, q := range placed {
		parts[i] = straight.Part{Gray: full[i].Gray, Map: q.Straight.Map, Covers: q.Straight.Covers}
	}
	at := make([]straight.Mark, len(marks))
	for i, m := range marks {
		at[i] = straight.Mark(m)
	}
	return straight.Join(ctx, parts, straight.Part{Gray: full[len(placed)].Gray, Map: own.Map, Covers: own.Covers}, at)
}

// ByLengthsOf is the way of a part that goes by the same targets, page or mat as
// the first, and by no drawn length of its own: what lengths drawn on the first
// said of those is true of the part too.
func (s Straight) ByLengthsOf(first Straight) Straight {
	s.Map, s.Off = s.Map.Larger(1+first.Off), first.Off
	return s
}

// FlattenParts makes one flat picture of several parts. Where two show the same
// paper, the one is taken whose edge is farther away and in which nothing lies
// on it; each is brought to the light of those before it.
func FlattenParts(ctx context.Context, parts []Part, progress func(float64)) (Flat, error) {
	if len(parts) == 0 {
		return Flat{}, words.Error("there is no picture to make flat")
	}
	if len(parts) == 1 {
		return parts[0].Photo.Flatten(ctx, parts[0].Straight, progress)
	}
	whole := parts[0].Straight
	for _, q := range parts[1:] {
		whole.Bounds = whole.Bounds.Union(q.Straight.Bounds)
	}
	var err error
	out := Flat{From: whole.Bounds.Min, PerMM: math.Inf(1)}
	for _, q := range parts {
		one := q.Straight
		one.Bounds = whole.Bounds
		out.PerMM = min(out.PerMM, q.Photo.fineness(one))
	}
	if out.PerMM < coarsestPerMM {
		return Flat{}, words.Error("the parts show too much paper together to trace from")
	}
	if out.Colour, err = newWhite(whole.Bounds, out.PerMM); err != nil {
		return Flat{}, err
	}
	far := make([]uint16, len(out.Colour.Pix)/4) // how far, in px, the edge of the part taken is; 0 for none
	for i, q := range parts {
		told := func(share float64) {
			if progress != nil {
				progress((float64(i) + share) / float64(len(parts)))
			}
		}
		if err := layFlat(ctx, out, far, q, told); err != nil {
			return Flat{}, err
		}
		if err := ctx.Err(); err != nil {
			return Flat{}, err
		}
	}
	return out.Keep()
}

// layFlat makes a part flat and lays it on those before it.
func layFlat(ctx context.Context, out Flat, far []uint16, q Part, progress func(float64)) error {
	full, done, err := q.Photo.hold(true)
	if err != nil {
		return err
	}
	defer done()
	box, at := onGrid(q.Straight.Bounds, out)
	flat, err := straight.FlattenColour(ctx, full.Color, q.Straight.Map, box, out.PerMM, progress)
	if err == nil {
		lay(out, far, flat, at, q)
	}
	return err
}

// newWhite is a white picture of a box of paper.
func newWhite(b geom.Box, perMM float64) (*image.RGBA, error) {
	w, h := math.Ceil(b.Width()*perMM), math.Ceil(b.Height()*perMM)
	if !(w*h <= straight.MostPixels) {
		return nil, straight.ErrTooLarge
	}
	out := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	for i := range out.Pix {
		out.Pix[i] = 255
	}
	return out, nil
}

// onGrid is the paper of a part, made larger to whole pixels of the flat picture
// it is laid on, and the first of those.
func onGrid(b geom.Box, out Flat) (geom.Box, image.Point) {
	size := out.Colour.Rect.Size()
	from, to := b.Min.Sub(out.From).Scale(out.PerMM), b.Max.Sub(out.From).Scale(out.PerMM)
	x0, y0 := max(int(from.X), 0), max(int(from.Y), 0)
	x1, y1 := min(int(math.Ceil(to.X)), size.X), min(int(math.Ceil(to.Y)), size.Y)
	mm := func(x, y int) geom.Point {
		return geom.Pt(out.From.X+float64(x)/out.PerMM, out.From.Y+float64(y)/out.PerMM)
	}
	return geom.Box{Min: mm(x0, y0), Max: mm(x1, y1)}, image.Pt(x0, y0)
}

// hidden is how near, in px, the edge is said to be of what lies on the paper.
const hidden = 1

// lay puts a part's flat picture, which begins at a pixel of the whole, over
// those before it, where it shows the paper and its edge is farther away than
// theirs. What lies on the paper is taken only where no other shows it free.
func lay(out Flat, far []uint16, flat *image.RGBA, at image.Point, q Part) {
	even := evenOut(out, far, flat, at, q)
	size := q.Photo.Picture.Size()
	pixel := q.Straight.Map.Back()
	wide := out.Colour.Rect.Dx()
	w, h := min(flat.Rect.Dx(), wide-at.X), min(flat.Rect.Dy(), out.Colour.Rect.Dy()-at.Y)
	rows(h, func(y int) {
		light := even.row(y, w)
		for x := range w {
			px := pixel(geom.Pt(out.From.X+(float64(x+at.X)+0.5)/out.PerMM, out.From.Y+(float64(y+at.Y)+0.5)/out.PerMM))
			edge := min(px.X, px.Y, float64(size.X)-px.X, float64(size.Y)-px.Y)
			k := (y+at.Y)*wide + x + at.X
			if !(edge > 1) || uint16(min(edge, math.MaxUint16)) <= far[k] {
				continue
			}
			if straight.Covered(q.Straight.Covers, px) {
				edge = hidden
				if far[k] >= hidden {
					continue
				}
			}
			far[k] = uint16(min(edge, math.MaxUint16))
			to := out.Colour.Pix[4*k : 4*k+4 : 4*k+4]
			copy(to, flat.Pix[4*(y*flat.Rect.Dx()+x):][:4])
			if light != nil {
				for c, by := range light[x] {
					to[c] = uint8(min(float64(to[c])*by+0.5, 255))
				}
			}
		}
	})
}
