package scene

import "quarterstep/model/geom"

// textRoom is how far from their place, in px, words may reach: the longest
// line a label has.
const textRoom = 170

// Bounds is a box of the Table in which all of the layer lies, with its px
// sizes at scale px a mm. It may be larger than need be.
func (l Layer) Bounds(scale float64) geom.Box {
	var b geom.Box
	add := func(p geom.Point, px float64) {
		r := geom.Vec{X: px / scale, Y: px / scale}
		b = b.Union(geom.Box{Min: p.Add(r.Scale(-1)), Max: p.Add(r)})
	}
	for _, f := range l.Photos {
		b = b.Union(f.Box())
	}
	for _, f := range l.Fills {
		b = b.Union(f.Outline.Bounds())
	}
	for _, k := range l.Lines {
		grow := (k.Width+k.Reach+max(k.Shift, -k.Shift))/scale + 8/scale
		b = b.Union(k.Path.Bounds().Grow(grow))
	}
	for _, d := range l.Dots {
		add(d.At, d.Radius+2+max(d.DX, -d.DX, d.DY, -d.DY))
	}
	for _, t := range l.Texts {
		add(t.At, textRoom)
	}
	for _, h := range l.Handles {
		add(h.At, 24)
	}
	return b
}
