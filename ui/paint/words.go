package paint

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"quarterstep/assets/words"
)

// Fonts are the two faces words are written in, with the words written so far.
// One Fonts serves one goroutine at a time.
type Fonts struct {
	faces  [2]*sfnt.Font
	buf    sfnt.Buffer
	stamps map[stampKey]stamp
}

// mostStamps is how many words are remembered before all are forgotten.
const mostStamps = 1024

// NewFonts reads a regular and a bold TrueType or OpenType font.
func NewFonts(regular, bold []byte) (*Fonts, error) {
	f := &Fonts{stamps: map[stampKey]stamp{}}
	for i, data := range [][]byte{regular, bold} {
		face, err := sfnt.Parse(data)
		if err != nil {
			return nil, words.Errorf("reading a font: %w", err)
		}
		f.faces[i] = face
	}
	return f, nil
}

// stampKey says which words, how large in device px and how turned; halo is the
// px width of the rim.
type stampKey struct {
	words      string
	size, turn float64
	bold       bool
	halo       int
}

// stamp is words ready to be laid on a picture, offset from their anchor.
type stamp struct {
	ink, rim *image.Alpha // rim is nil without a halo
}

func (f *Fonts) face(bold bool) *sfnt.Font {
	if bold {
		return f.faces[1]
	}
	return f.faces[0]
}

// Width is how wide the words are, in px of size.
func (f *Fonts) Width(words string, size float64, bold bool) float64 {
	var w fixed.Int26_6
	f.each(words, size, bold, func(x fixed.Int26_6, _ sfnt.GlyphIndex, advance fixed.Int26_6) { w = x + advance })
	return float64(w) / 64
}

// each calls do with every glyph of the words and where it starts.
func (f *Fonts) each(words string, size float64, bold bool, do func(x fixed.Int26_6, g sfnt.GlyphIndex, advance fixed.Int26_6)) {
	face, ppem := f.face(bold), fixed.Int26_6(size*64+0.5)
	var x fixed.Int26_6
	var prev sfnt.GlyphIndex
	for _, r := range words {
		g, err := face.GlyphIndex(&f.buf, r)
		if err != nil {
			continue
		}
		if kern, err := face.Kern(&f.buf, prev, g, ppem, font.HintingNone); err == nil && prev != 0 {
			x += kern
		}
		advance, err := face.GlyphAdvance(&f.buf, g, ppem, font.HintingNone)
		if err != nil {
			continue
		}
		do(x, g, advance)
		x, prev = x+advance, g
	}
}

// capShare is half the height of a capital as a share of the size: words stand
// with the middle of their capitals at their place. From Lato's OS/2 table
// (1433 of 2000 units).
const capShare = 1433.0 / 2000 / 2

// stamp writes the words once and remembers them. Its pictures are placed
// relative to the words' anchor: their left end, at the middle of the capitals.
func (f *Fonts) stamp(k stampKey) stamp {
	if s, ok := f.stamps[k]; ok {
		return s
	}
	if len(f.stamps) >= mostStamps {
		clear(f.stamps)
	}
	s := f.write(k)
	f.stamps[k] = s
	return s
}

func (f *Fonts) write(k stampKey) stamp {
	width := f.Width(k.words, k.size, k.bold)
	sin, cos := math.Sincos(k.turn)
	reach := k.size + float64(k.halo)
	lo, hi := pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	for _, c := range []pt{{-reach, -reach}, {width + reach, -reach}, {-reach, reach}, {width + reach, reach}} {
		x, y := c.x*cos-c.y*sin, c.x*sin+c.y*cos
		lo, hi = pt{min(lo.x, x), min(lo.y, y)}, pt{max(hi.x, x), max(hi.y, y)}
	}
	box := image.Rect(int(math.Floor(lo.x)), int(math.Floor(lo.y)), int(math.Ceil(hi.x)), int(math.Ceil(hi.y)))
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	down := capShare * k.size
	f.each(k.words, k.size, k.bold, func(x fixed.Int26_6, g sfnt.GlyphIndex, _ fixed.Int26_6) {
		segments, err := f.face(k.bold).LoadGlyph(&f.buf, g, fixed.Int26_6(k.size*64+0.5), nil)
		if err != nil {
			return
		}
		place := func(p fixed.Point26_6) (float32, float32) {
			u, v := float64(p.X+x)/64, float64(p.Y)/64+down
			return float32(u*cos - v*sin - float64(box.Min.X)), float32(u*sin + v*cos - float64(box.Min.Y))
		}
		glyph(r, segments, place)
	})
	s := stamp{ink: image.NewAlpha(box)}
	r.DrawOp = draw.Src
	r.Draw(s.ink, box, image.Opaque, image.Point{})
	if k.halo > 0 {
		s.rim = rim(s.ink, k.halo)
	}
	return s
}

// glyph gives the outline of one letter to r.
func glyph(r *vector.Rasterizer, segments sfnt.Segments, place func(fixed.Point26_6) (float32, float32)) {
	for i, s := range segments {
		x, y := place(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				r.ClosePath()
			}
			r.MoveTo(x, y)
		case sfnt.SegmentOpLineTo:
			r.LineTo(x, y)
		case sfnt.SegmentOpQuadTo:
			u, v := place(s.Args[1])
			r.QuadTo(x, y, u, v)
		case sfnt.SegmentOpCubeTo:
			u, v := place(s.Args[1])
			w, z := place(s.Args[2])
			r.CubeTo(x, y, u, v, w, z)
		}
	}
	r.ClosePath()
}

// rim is the letters grown by d px all round.
func rim(letters *image.Alpha, d int) *image.Alpha {
	out := image.NewAlpha(letters.Rect)
	w, h := letters.Rect.Dx(), letters.Rect.Dy()
	for dy := -d; dy <= d; dy++ {
		for dx := -d; dx <= d; dx++ {
			near := min(max(float64(d)+0.5-math.Hypot(float64(dx), float64(dy)), 0), 1)
			if near == 0 {
				continue
			}
			share := uint32(near*256 + 0.5)
			for y := max(0, dy); y < min(h, h+dy); y++ {
				from := letters.Pix[(y-dy)*letters.Stride:]
				to := out.Pix[y*out.Stride:]
				for x := max(0, dx); x < min(w, w+dx); x++ {
					if v := uint8(uint32(from[x-dx]) * share >> 8); v > to[x] {
						to[x] = v
					}
				}
			}
		}
	}
	return out
}
