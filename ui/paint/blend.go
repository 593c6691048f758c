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
	const half = 0x800080
	binary.LittleEndian.PutUint32(p, (rb+half)>>8&0xff00ff|(ga+half)&0xff00ff00)
}

// run lays k, at coverage m of 255, over a row of pixels.
func (k ink) run(row []byte, m uint32) {
	if k.alpha*m == 255*255 {
		solid := k.rb&0xffff | k.rb>>16<<16 | k.ga<<8&0xff00ff00
		fillRow(row, solid)
		return
	}
	m += m >> 7
	keep := 256 - (k.alpha*m+127)/255
	srb, sga := k.rb*m+0x800080, k.ga*m+0x800080
	for len(row) >= 4 {
		d := binary.LittleEndian.Uint32(row)
		rb := (d&0xff00ff)*keep + srb
		ga := (d>>8&0xff00ff)*keep + sga
		binary.LittleEndian.PutUint32(row, rb>>8&0xff00ff|ga&0xff00ff00)
		row = row[4:]
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
