package target

import (
	"cmp"
	"context"
	"image"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Found is a target seen in a photo.
type Found struct {
	Centre geom.Point // px
	Code   int
	Size   float64 // px, the ring's radius the longer way
	// Rim are places all round the ring's outer edge, in px; all zero where they
	// are not plain to see.
	Rim [RimPlaces]geom.Point
}

// Find finds all targets in g, the lowest code first. The only error is that
// ctx ended.
func Find(ctx context.Context, g *image.Gray) ([]Found, error) {
	var out []Found
	for _, blob := range darkParts(ctx, halved(g)) {
		if err := ctx.Err(); err != nil {
			return nil, words.Errorf("looking for targets: %w", err)
		}
		r, ok := ringOf(blob)
		if !ok {
			continue
		}
		if f, ok := look(g, r); ok {
			out = append(out, f)
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, words.Errorf("looking for targets: %w", err)
	}
	slices.SortFunc(out, func(a, b Found) int {
		return cmp.Or(a.Code-b.Code, cmp.Compare(a.Centre.Y, b.Centre.Y))
	})
	return out, nil
}

// look examines what may be a ring: whether a target is within, where exactly,
// and which. The checker is looked at twice, as the ring's middle is the target's
// only nearly.
func look(g *image.Gray, r ring) (Found, bool) {
	if _, ok := r.checker(g); !ok {
		return Found{}, false
	}
	c, ok := saddle(g, r)
	if !ok {
		return Found{}, false
	}
	r = r.about(c)
	turn, ok := r.checker(g)
	if !ok {
		return Found{}, false
	}
	m, ok := r.read(g, turn)
	if !ok {
		return Found{}, false
	}
	code, ok := codeOf(m)
	if !ok {
		return Found{}, false
	}
	f := Found{Centre: c, Code: code, Size: r.a.Len()}
	if rim, ok := r.rim(g); ok {
		f.Rim = rim
	}
	return f, true
}
