package paper

import (
	"context"
	"fmt"
	"image"
	"math"

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
	parts := make([]straight.Part, len(placed))
	for i, q := range placed {
		parts[i] = straight.Part{Gray: q.Photo.Picture.Gray, Map: q.Straight.Map}
	}
	at := make([]straight.Mark, len(marks))
	for i, m := range marks {
		at[i] = straight.Mark(m)
	}
	return straight.Join(ctx, parts, straight.Part{Gray: p.Picture.Gray, Map: own.Map}, at)
}

// FlattenParts makes one flat picture of several parts. Where two show the same
// paper, the one is taken whose edge is farther away.
func FlattenParts(ctx context.Context, parts []Part, progress func(float64)) (Flat, error) {
	if len(parts) == 0 {
		return Flat{}, fmt.Errorf("there is no picture to make flat")
	}
	if len(parts) == 1 {
		return parts[0].Photo.Flatten(ctx, parts[0].Straight, progress)
	}
	whole := parts[0].Straight
	for _, q := range parts[1:] {
		whole.Bounds = whole.Bounds.Union(q.Straight.Bounds)
	}
	out := Flat{From: whole.Bounds.Min, PerMM: math.Inf(1)}
	for _, q := range parts {
		one := q.Straight
		one.Bounds = whole.Bounds
		out.PerMM = min(out.PerMM, q.Photo.fineness(one))
	}
	if out.PerMM < coarsestPerMM {
		return Flat{}, fmt.Errorf("the parts show too much paper together to trace from")
	}
	var far []float32 // how far, in px, the taken part's edge is
	for i, q := range parts {
		told := func(share float64) {
			if progress != nil {
				progress((float64(i) + share) / float64(len(parts)))
			}
		}
		flat, err := straight.FlattenColour(ctx, q.Photo.Picture.Color, q.Straight.Map, whole.Bounds, out.PerMM, told)
		if err != nil {
			return Flat{}, err
		}
		if out.Colour == nil {
			out.Colour = flat
			far = make([]float32, len(flat.Pix)/4)
			for k := range far {
				far[k] = -1
			}
		}
		lay(out, far, flat, q)
		if err := ctx.Err(); err != nil {
			return Flat{}, err
		}
	}
	return out.Keep()
}

// lay puts a part's flat picture over those before it, where it shows the paper
// and its edge is farther away than theirs.
func lay(out Flat, far []float32, flat *image.RGBA, q Part) {
	size := q.Photo.Picture.Size()
	w, h := flat.Rect.Dx(), flat.Rect.Dy()
	for y := range h {
		for x := range w {
			mm := geom.Pt(out.From.X+(float64(x)+0.5)/out.PerMM, out.From.Y+(float64(y)+0.5)/out.PerMM)
			px := q.Straight.Map.Pixel(mm)
			edge := float32(min(px.X, px.Y, float64(size.X)-px.X, float64(size.Y)-px.Y))
			k := y*w + x
			if !(edge > 1) || edge <= far[k] {
				continue
			}
			far[k] = edge
			copy(out.Colour.Pix[4*k:4*k+4], flat.Pix[4*k:4*k+4])
		}
	}
}
