package paint

// span is a stretch of one row of the mask that a line has darkened.
type span struct{ y, x0, x1 int32 }

// band is the rows from top to low of a picture, with what one worker needs to
// paint them.
type band struct {
	pix      []byte
	stride   int
	width    int
	top, low int
	mask     []uint8 // of the band's rows; all zero between lines
	spans    []span
	cover    cover
	fill     filler
}

// pen is how a line is drawn.
type pen struct {
	r     float64 // half its width, px
	round bool    // its ends and those of its dashes
	dash  *dashes // nil is solid
}

// roundPen draws solid lines of this width with round ends.
func roundPen(width float64) pen { return pen{r: width / 2, round: true} }

// stroke paints the chords as one line.
func (b *band) stroke(chords []chord, n pen, k *shades) {
	for i := range chords {
		if c := &chords[i]; c.top < b.low && c.low > b.top {
			b.chord(c, &n)
		}
	}
	b.lay(k)
}

// chord darkens the mask near c.
func (b *band) chord(c *chord, n *pen) {
	top, low := max(c.top, b.top), min(c.low, b.low)
	dy := float64(top) + 0.5 - c.p.y
	side := newStrip(c.p.x, -c.d.y, c.d.x*dy, c.d.x, -n.r-0.5, n.r+0.5)
	all := newStrip(c.p.x, c.d.x, c.d.y*dy, c.d.y, c.first, c.last)
	v := &b.cover
	v.set(c, n, dy)
	for y := top; y < low; y++ {
		x0 := max(first(max(side.lo, all.lo)), 0)
		x1 := min(beyond(min(side.hi, all.hi)), b.width)
		if x0 < x1 {
			row, drawn := b.mask[(y-b.top)*b.width:][x0:x1], true
			switch {
			case !v.endless:
				v.ends(row, x0, y)
			case n.dash == nil:
				v.solid(row, x0)
			default:
				drawn = v.dashed(row, x0)
			}
			if drawn {
				b.spans = append(b.spans, span{int32(y), int32(x0), int32(x1)})
			}
		}
		side.down()
		all.down()
		v.down()
	}
}

// lay puts the mask on the picture in colour k and clears it.
func (b *band) lay(k *shades) {
	for _, s := range b.spans {
		mask := b.mask[(int(s.y)-b.top)*b.width:][s.x0:s.x1]
		row := b.pix[int(s.y)*b.stride+int(s.x0)*4:]
		k.through(row, mask)
	}
	b.spans = b.spans[:0]
}
