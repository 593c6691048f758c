package paint

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// circle appends a ring of radius r round c.
func (p *Painter) circle(c pt, r float64) {
	from := len(p.pts)
	n := max(int(2*math.Pi/math.Acos(1-min(chordTol/max(r, 1), 0.5))), 12)
	for i := range n + 1 {
		s, co := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
		p.pts = append(p.pts, pt{c.x + r*co, c.y + r*s})
	}
	p.runs = append(p.runs, run{from, len(p.pts)})
}

// square appends a ring of side 2r round c.
func (p *Painter) square(c pt, r float64) {
	p.ring(pt{c.x - r, c.y - r}, pt{c.x + r, c.y - r}, pt{c.x + r, c.y + r}, pt{c.x - r, c.y + r}, pt{c.x - r, c.y - r})
}

// mark draws one shape: filled, then outlined; either may have no width.
func (p *Painter) mark(shape func(pt, float64), c pt, size float64, fill scene.Ink, width float64, outline scene.Ink) {
	from := len(p.runs)
	shape(c, size/2)
	p.addFill(from, p.inkOf(fill, 1))
	if width > 0 {
		p.addStroke(from, roundPen(width), p.inkOf(outline, 1))
	}
}

func (p *Painter) handle(h scene.Handle, m geom.Affine, factor float64, seen geom.Box) {
	c := at(m, h.At)
	if !near(c, 24*factor, seen) {
		return
	}
	shape := p.square
	if h.Shape != scene.Corner {
		shape = p.circle
	}
	px := func(v float64) float64 { return v * factor }
	switch {
	case h.State == scene.Selected && h.Shape == scene.Bend:
		p.mark(shape, c, px(9), scene.InkAccent, 0, 0)
	case h.Shape == scene.Bend:
		p.mark(shape, c, px(7), scene.InkTable, px(1.5), scene.InkAccent)
	case h.State == scene.Selected:
		p.mark(shape, c, px(17), scene.InkTable, px(1.6), scene.InkAccent)
		p.mark(shape, c, px(10), scene.InkAccent, 0, 0)
	case h.State == scene.Linked:
		for _, dx := range [2]float64{-3.5, 3.5} {
			p.mark(p.circle, c.add(pt{px(dx), 0}), px(10), scene.InkTable, 0, 0)
		}
		from := len(p.runs)
		p.circle(c.add(pt{px(-3.5), 0}), px(5))
		p.circle(c.add(pt{px(3.5), 0}), px(5))
		p.addStroke(from, roundPen(px(1.8)), p.inkOf(scene.InkAccent, 1))
	case h.State == scene.Locked:
		p.mark(shape, c, px(11), scene.InkSoft, 0, 0)
		from := len(p.runs)
		r := px(2.8)
		p.ring(pt{c.x - r, c.y - r}, pt{c.x + r, c.y + r})
		p.ring(pt{c.x - r, c.y + r}, pt{c.x + r, c.y - r})
		p.addStroke(from, roundPen(px(1.5)), p.inkOf(scene.InkTable, 1))
	default:
		p.mark(shape, c, px(10), scene.InkTable, px(2), scene.InkAccent)
	}
}

// dot draws a mark of fixed size.
func (p *Painter) dot(d scene.Dot, m geom.Affine, factor float64, seen geom.Box) {
	c, r := at(m, d.At).add(pt{d.DX * factor, d.DY * factor}), d.Radius*factor
	if !near(c, r, seen) {
		return
	}
	switch d.Mark {
	case scene.Plain:
		p.mark(p.circle, c, 2*r, d.Ink, 0, 0)
	case scene.Button:
		p.button(c, r, factor, d.Ink)
	case scene.Numbered:
		p.mark(p.diamond, c, 2*r, scene.InkLookFill, 1.2*factor, scene.InkLookLine)
	case scene.LookAt:
		p.mark(p.diamond, c, 2*r, scene.InkLookFill, 1.2*factor, scene.InkLookLine)
		from := len(p.runs)
		p.ring(pt{c.x, c.y - 0.42*r}, pt{c.x, c.y + 0.08*r})
		p.ring(pt{c.x, c.y + 0.42*r}, pt{c.x, c.y + 0.44*r})
		p.addStroke(from, roundPen(1.8*factor), p.inkOf(scene.InkOnLook, 1))
	}
}

// button draws a four-hole button.
func (p *Painter) button(c pt, r, factor float64, k scene.Ink) {
	p.mark(p.circle, c, 2*r, scene.InkSheet, 1.3*factor, k)
	from := len(p.runs)
	hole := 1.7 * factor
	for _, q := range [4]pt{{-hole, -hole}, {hole, -hole}, {hole, hole}, {-hole, hole}} {
		p.circle(c.add(q), 0.8*factor)
	}
	p.addFill(from, p.inkOf(k, 1))
}

// diamond appends a square on its corner, reaching r from c.
func (p *Painter) diamond(c pt, r float64) {
	p.ring(pt{c.x, c.y - r}, pt{c.x + r, c.y}, pt{c.x, c.y + r}, pt{c.x - r, c.y}, pt{c.x, c.y - r})
}

func near(c pt, r float64, seen geom.Box) bool {
	return c.x+r >= 0 && c.y+r >= 0 && c.x-r <= seen.Max.X && c.y-r <= seen.Max.Y
}

// signRoom is how much room a sign takes before words, px.
const signRoom = 21

// sign draws the sign of words that begin at c.
func (p *Painter) sign(t scene.Text, c pt, factor float64) {
	at := func(x, y float64) pt { return c.add(pt{x * factor, y * factor}) }
	from := len(p.runs)
	switch t.Sign {
	case scene.LinkSign:
		p.circle(at(4.5, 0), 3.9*factor)
		p.circle(at(9.5, 0), 3.9*factor)
	case scene.MatchSign:
		p.ring(at(2, 0.5), at(5.4, 4), at(12, -4))
	}
	if t.Halo != 0 {
		p.addStroke(from, roundPen(5*factor), p.inkOf(t.Halo, 1))
	}
	p.addStroke(from, roundPen(1.5*factor), p.inkOf(t.Ink, 1))
}
