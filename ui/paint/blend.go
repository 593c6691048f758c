package paint

import (
	"encoding/binary"
	"image/color"
)

// ink is a premultiplied colour packed as the bytes R, G, B, A of a picture.
type ink struct {
	rb, ga uint32 // two channels each, 8 bits in 16
	alpha  uint32
}

// inkOf is c at a share of its own opacity.
func inkOf(c color.NRGBA, share float64) ink {
	a := uint32(float64(c.A)*min(max(share, 0), 1) + 0.5)
	pre := func(v uint8) uint32 { return (uint32(v)*a + 127) / 255 }
	return ink{rb: pre(c.R) | pre(c.B)<<16, ga: pre(c.G) | a<<16, alpha: a}
}

// over lays k, at coverage m of 255, over the pixel at p.
func (k ink) over(p []byte, m uint32) {
	m += m >> 7 // 0 to 256
	keep := 256 - (k.alpha*m+127)/255
	d := binary.LittleEndian.Uint32(p)
	rb := (d&0xff00ff)*keep + k.rb*m
	ga := (d>>8&0xff00ff)*keep + k.ga*m
	binary.LittleEndian.PutUint32(p, (rb+0x800080)>>8&0xff00ff|(ga+0x800080)&0xff00ff00)
}

// spread are the bits of a pixel's channels R, B, G and A, spread out; half is a
// half in each.
const (
	spread = 0x00ff00ff00ff00ff
	half   = 0x0080008000800080
)

// shades are an ink made ready for every cover, of 255.
type shades struct {
	ink ink
	of  [256]shade
}

// shade is for one cover: a pixel spread out to 16 bits a channel is multiplied by
// keep, add is added, and the upper halves are the new pixel.
type shade struct{ keep, add uint64 }

func newShades(k ink) *shades {
	t := &shades{ink: k}
	all, alpha := uint64(k.rb)|uint64(k.ga)<<32, uint64(k.alpha)
	for c := range t.of {
		m := uint64(c) + uint64(c>>7)
		t.of[c] = shade{keep: 256 - (alpha*m+127)/255, add: all*m + half}
	}
	return t
}

// through lays the ink over a row of pixels, each at its own cover, and clears
// the cover.
func (t *shades) through(row []byte, cover []uint8) {
	for i, c := range cover {
		p := row[i*4 : i*4+4]
		s := &t.of[c]
		d := uint64(binary.LittleEndian.Uint32(p))
		d = ((d|d<<24)&spread*s.keep + s.add) >> 8 & spread
		binary.LittleEndian.PutUint32(p, uint32(d|d>>24))
		cover[i] = 0
	}
}

// run lays k, at coverage m of 255, over a row of pixels, two at a time. Most
// grounds are even, so what became of two pixels is kept for the next two.
func (k ink) run(row []byte, m uint32) {
	if k.alpha*m == 255*255 {
		solid := k.rb&0xffff | k.rb>>16<<16 | k.ga<<8&0xff00ff00
		fillRow(row, solid)
		return
	}
	share := uint64(m + m>>7)
	keep := 256 - (uint64(k.alpha)*share+127)/255
	rb := (uint64(k.rb)|uint64(k.rb)<<32)*share + half
	ga := (uint64(k.ga)|uint64(k.ga)<<32)*share + half
	var was uint64
	is := rb>>8&spread | ga&^spread
	for ; len(row) >= 8; row = row[8:] {
		d := binary.LittleEndian.Uint64(row)
		if d != was {
			was, is = d, ((d&spread)*keep+rb)>>8&spread|((d>>8&spread)*keep+ga)&^spread
		}
		binary.LittleEndian.PutUint64(row, is)
	}
	if len(row) >= 4 {
		k.over(row, m)
	}
}

// fillRow sets every pixel of a row.
func fillRow(row []byte, pixel uint32) {
	if len(row) < 4 {
		return
	}
	binary.LittleEndian.PutUint32(row, pixel)
	for done := 4; done < len(row); done *= 2 {
		copy(row[done:], row[:done])
	}
}
