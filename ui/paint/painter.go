package paint

import (
	"image"
	"image/color"
	"math"
	"sync"
	"sync/atomic"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// Painter paints scenes in one set of colours. It keeps its working memory from
// one picture to the next and serves one goroutine at a time.
type Painter struct {
	fonts   *Fonts
	palette palette.Palette

	size   pt // of the picture
	pts    []pt
	runs   []run
	line   []pt // of one line
	chords []chord
	ops    []op
	ready  ready
	bands  [bandCount]band
}

// Width is how wide words are, in px of size, in the regular face.
func (p *Painter) Width(words string, size float64) float64 {
	return p.fonts.Width(words, size, false)
}

// A picture is painted in bandCount bands of rows, by workers that each take
// the next band when they are done with one: pieces lie unevenly.
const (
	workers   = 2
	bandCount = 4
)

// New is a Painter with these fonts and colours.
func New(fonts *Fonts, colours palette.Palette) *Painter {
	return &Painter{fonts: fonts, palette: colours}
}

// op is one thing to lay on the picture, in device px.
type op struct {
	kind     opKind
	from, to int // its runs, or the chords of a stroke
	pen      pen
	shades   *shades // the ink of a stroke
	ink      ink
	mask     *image.Alpha
	x, y     int // where the mask's origin goes
	photo    *laid
	// top and low are the rows it may touch, of strokes and fills.
	top, low int
}

type opKind uint8

const (
	opStroke opKind = iota
	opFill
	opMask
	opPhoto
)

// Screen is where a picture lies on the board and how fine the screen is.
type Screen struct {
	View   view.View
	Corner view.Px // the picture's upper left corner on the board, in px
	Factor float64 // device px a px
	Words  float64 // how much larger words, handles and marks are than they say; 0 is 1
	Lines  float64 // how much wider lines are than they say; 0 is 1
}

// wordScale is device px a px of words.
func (s Screen) wordScale() float64 {
	if s.Words <= 0 {
		return s.Factor
	}
	return s.Factor * s.Words
}

// affine takes places on the Table to the picture's device px.
func (s Screen) affine() geom.Affine {
	v := s.View
	v.Origin = v.ToMM(s.Corner)
	return geom.ScaleXY(s.Factor, s.Factor).Mul(v.Affine())
}

// Clear sets the whole picture to one colour; a transparent one empties it.
func Clear(img *image.RGBA, c color.NRGBA) {
	k := inkOf(c, 1)
	solid := k.rb&0xffff | k.rb>>16<<16 | k.ga<<8&0xff00ff00
	for y := range img.Rect.Dy() {
		fillRow(img.Pix[y*img.Stride:y*img.Stride+4*img.Rect.Dx()], solid)
	}
}

// Paint lays the layers over what is on img.
func (p *Painter) Paint(img *image.RGBA, s Screen, layers ...scene.Layer) {
	p.pts, p.runs, p.chords, p.ops = p.pts[:0], p.runs[:0], p.chords[:0], p.ops[:0]
	p.size = pt{float64(img.Rect.Dx()), float64(img.Rect.Dy())}
	m := s.affine()
	seen := geom.Box{Max: geom.Pt(float64(img.Rect.Dx()), float64(img.Rect.Dy()))}
	for _, l := range layers {
		p.layer(l, m, s, seen)
	}
	p.run(img)
}

func (p *Painter) layer(l scene.Layer, m geom.Affine, screen Screen, seen geom.Box) {
	factor := screen.Factor
	for _, f := range l.Photos {
		p.photo(f, m, seen)
	}
	for _, f := range l.Fills {
		p.fill(f, m, seen)
	}
	for _, k := range l.Lines {
		if screen.Lines > 0 {
			k.Width *= screen.Lines
		}
		p.stroke(k, m, factor, seen)
	}
	for _, d := range l.Dots {
		if d.Mark == scene.Button { // lies on the paper
			p.dot(d, m, factor, seen)
			continue
		}
		p.dot(d, m, screen.wordScale(), seen)
	}
	for _, t := range l.Texts {
		p.text(t, m, screen.wordScale(), seen)
	}
	for _, h := range l.Handles {
		p.handle(h, m, screen.wordScale(), seen)
	}
}

// run shares the rows of img between the workers.
func (p *Painter) run(img *image.RGBA) {
	h := img.Rect.Dy()
	var done sync.WaitGroup
	var next atomic.Int32
	for range workers {
		done.Add(1)
		go func() {
			defer done.Done()
			for {
				i := int(next.Add(1)) - 1
				if i >= bandCount {
					return
				}
				p.bands[i].run(p, img, h*i/bandCount, h*(i+1)/bandCount)
			}
		}()
	}
	done.Wait()
}

// run paints the rows of img from top to low.
func (b *band) run(p *Painter, img *image.RGBA, top, low int) {
	b.pix, b.stride, b.width = img.Pix, img.Stride, img.Rect.Dx()
	b.top, b.low = top, low
	if need := (low - top) * b.width; len(b.mask) < need {
		b.mask = make([]uint8, need)
	}
	for _, o := range p.ops {
		if o.kind == opMask || o.top < low && o.low > top {
			b.op(p, o)
		}
	}
}

func (b *band) op(p *Painter, o op) {
	switch o.kind {
	case opStroke:
		b.stroke(p.chords[o.from:o.to], o.pen, o.shades)
	case opFill:
		b.paint(p.pts, p.runs[o.from:o.to], o.ink)
	case opMask:
		b.stamp(o.mask, o.x, o.y, o.ink)
	case opPhoto:
		o.photo.rows(b)
	}
}

// stamp lays colour k through a mask whose origin goes to (x, y).
func (b *band) stamp(mask *image.Alpha, x, y int, k ink) {
	to := mask.Rect.Add(image.Pt(x, y)).Intersect(image.Rect(0, b.top, b.width, b.low))
	for py := to.Min.Y; py < to.Max.Y; py++ {
		from := mask.Pix[mask.PixOffset(to.Min.X-x, py-y):]
		row := b.pix[py*b.stride+to.Min.X*4:]
		for i := range to.Dx() {
			if m := from[i]; m != 0 {
				k.over(row[i*4:i*4+4], uint32(m))
			}
		}
	}
}

func (p *Painter) inkOf(k scene.Ink, share float64) ink {
	return inkOf(colourOf(p.palette, k), share)
}

// addFill adds what was appended to runs since from as one fill.
func (p *Painter) addFill(from int, k ink) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, u := range p.runs[from:] {
		for _, q := range p.pts[u.from:u.to] {
			lo, hi = min(lo, q.y), max(hi, q.y)
		}
	}
	if lo > hi {
		return
	}
	const farAway = 1 << 30
	p.ops = append(p.ops, op{
		kind: opFill, from: from, to: len(p.runs), ink: k,
		top: int(max(lo-1, -farAway)), low: int(min(hi+2, farAway)),
	})
}

// addStroke adds what was appended to runs since from as one line.
func (p *Painter) addStroke(from int, n pen, k ink) {
	first := len(p.chords)
	for _, u := range p.runs[from:] {
		p.chords = chordsOf(p.chords, p.pts[u.from:u.to], n.r+0.5, n.round, p.size)
	}
	if len(p.chords) == first {
		return
	}
	o := op{kind: opStroke, from: first, to: len(p.chords), pen: n, shades: p.ready.shades(k), top: math.MaxInt}
	for i := range p.chords[first:] {
		c := &p.chords[first+i]
		o.top, o.low = min(o.top, c.top), max(o.low, c.low)
	}
	p.ops = append(p.ops, o)
}

// ring appends pts as one run.
func (p *Painter) ring(pts ...pt) {
	from := len(p.pts)
	p.pts = append(p.pts, pts...)
	p.runs = append(p.runs, run{from, len(p.pts)})
}

func (p *Painter) fill(f scene.Fill, m geom.Affine, seen geom.Box) {
	if !reaches(f.Outline, m, seen, 0) {
		return
	}
	first, from := len(p.runs), len(p.pts)
	p.pts = flatten(p.pts, f.Outline, m)
	p.runs = append(p.runs, run{from, len(p.pts)})
	p.addFill(first, p.inkOf(f.Ink, f.Alpha))
}

// reaches reports whether path, grown by grow px, may lie within the picture.
func reaches(path geom.Path, m geom.Affine, seen geom.Box, grow float64) bool {
	lo, hi := pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	for _, c := range path {
		for _, q := range [4]geom.Point{c.P0, c.P1, c.P2, c.P3} {
			a := at(m, q)
			lo, hi = pt{min(lo.x, a.x), min(lo.y, a.y)}, pt{max(hi.x, a.x), max(hi.y, a.y)}
		}
	}
	return lo.x-grow <= seen.Max.X && hi.x+grow >= 0 && lo.y-grow <= seen.Max.Y && hi.y+grow >= 0
}

func (p *Painter) stroke(k scene.Line, m geom.Affine, factor float64, seen geom.Box) {
	room := (k.Width + math.Abs(k.Shift) + k.Reach + 10) * factor
	if len(k.Path) == 0 || !reaches(k.Path, m, seen, room) {
		return
	}
	p.line = flatten(p.line[:0], k.Path, m)
	if k.Reach > 0 && len(p.line) > 1 {
		start := p.line[0]
		dir := p.line[len(p.line)-1].sub(start).unit()
		p.line = append(p.line[:0], start, start.add(dir.scale(k.Reach*factor)))
	}
	if k.Shift != 0 {
		shift(p.line, k.Shift*factor)
	}
	if len(p.line) == 2 && len(k.Dash) == 0 && k.Width <= 1.2 {
		crisp(p.line, max(math.Round(k.Width*factor), 1))
	}
	from := len(p.runs)
	p.ring(p.line...)
	ink := p.inkOf(k.Ink, k.Alpha)
	p.addStroke(from, pen{k.Width * factor / 2, k.Round, p.ready.dashes(k.Dash, factor)}, ink)
	if k.Arrow && len(p.line) > 1 {
		p.arrows(k.Width*factor, factor, ink)
	}
}

// crisp moves a level or upright line of a whole width in device px sideways, so
// that its rims fall between pixels.
func crisp(line []pt, width float64) {
	rim := width / 2
	snap := func(v float64) float64 { return math.Floor(v-rim+0.5) + rim }
	switch d := line[1].sub(line[0]); {
	case math.Abs(d.x) < 0.01:
		line[0].x = snap(line[0].x)
		line[1].x = line[0].x
	case math.Abs(d.y) < 0.01:
		line[0].y = snap(line[0].y)
		line[1].y = line[0].y
	}
}

// arrows puts an open head at either end of the current line.
func (p *Painter) arrows(width, factor float64, k ink) {
	const long, half = 7, 4.5
	last := len(p.line) - 1
	from := len(p.runs)
	for _, e := range [2][2]pt{{p.line[0], p.line[1]}, {p.line[last], p.line[last-1]}} {
		back := e[1].sub(e[0]).unit()
		side := back.turned().scale(half * factor)
		foot := e[0].add(back.scale(long * factor))
		p.ring(foot.add(side), e[0], foot.sub(side))
	}
	p.addStroke(from, roundPen(width), k)
}

func (p *Painter) text(t scene.Text, m geom.Affine, factor float64, seen geom.Box) {
	c := at(m, t.At).add(pt{t.DX * factor, t.DY * factor})
	size := t.Size * factor
	width, room := p.fonts.Width(t.Words, size, t.Bold), 0.0
	if t.Sign != 0 {
		room = signRoom * factor
		width += room
	}
	if c.x+width < 0 || c.x-width > seen.Max.X || c.y+width+size < 0 || c.y-width-size > seen.Max.Y {
		return
	}
	back := 0.0
	switch t.Anchor {
	case scene.Middle:
		back = width / 2
	case scene.Right:
		back = width
	}
	sin, cos := math.Sincos(t.Turn)
	c = c.sub(pt{back * cos, back * sin})
	if t.Sign != 0 {
		p.sign(t, c, factor)
		c = c.add(pt{room * cos, room * sin})
	}
	halo := 0
	if t.Halo != 0 {
		halo = max(int(2.5*factor+0.5), 1)
	}
	s := p.fonts.stamp(stampKey{t.Words, size, math.Round(t.Turn*100) / 100, t.Bold, halo})
	x, y := int(math.Round(c.x)), int(math.Round(c.y))
	if s.rim != nil {
		p.ops = append(p.ops, op{kind: opMask, mask: s.rim, x: x, y: y, ink: p.inkOf(t.Halo, 1)})
	}
	p.ops = append(p.ops, op{kind: opMask, mask: s.ink, x: x, y: y, ink: p.inkOf(t.Ink, 1)})
}
