package scene

import (
	"math"
	"sync"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// How much room words need, in px: from a label's middle to the nearest line,
// between its lines of words, and a letter's width on the average.
const (
	labelRoom   = 34
	labelLead   = 20
	letterWidth = 7.5
)

// label writes what the piece is: inside it where there is room, else beside
// it, clear of the other pieces where that can be.
func (l *Layer) label(in Input, q model.Piece, edges []geom.Path) {
	outline := geom.Join(edges...)
	box := outline.Bounds()
	if box.Height()*in.Scale < 24 && box.Width()*in.Scale < 24 {
		return
	}
	lines := labelLines(in, q)
	steady := outline
	if printed := geom.Join(largest(q)...); len(printed) > 0 && len(in.Sheets) == 0 {
		steady = printed.Transform(in.place(q))
	}
	w, h := labelSize(in, lines)
	obstacles := in.obstacles(q)
	at, room := in.Rooms.roomiest(q.ID, steady, obstacles)
	if room < in.px(labelRoom) || !fits(steady, at, w, h) {
		room = 0
		var ok bool
		if at, ok = in.clearest(steady, obstacles, l.Texts, w, h); !ok {
			l.labelBeside(in, q, box, lines)
			return
		}
	}
	if room > in.px(60) && len(in.Sheets) == 0 {
		name := Text{Words: in.Pattern.Name, Size: 13, Ink: InkSoft}
		lines = append([]Text{name}, lines...)
	}
	l.write(in, lines, at, Middle, 0, -labelLead*float64(len(lines)-1)/2)
}

// WordsBox is about where the words lie that name the pieces, inside them or
// beside them; those of the runs alone where there are some.
func (in Input) WordsBox() geom.Box {
	in.reckonOnce()
	var b geom.Box
	for i, q := range in.Pattern.Pieces {
		var l Layer
		if edges := in.Edges(i); len(in.Runs) > 0 {
			l.runNames(in, q, edges)
		} else {
			l.label(in, q, edges)
		}
		for _, t := range l.Texts {
			b = b.Union(in.wordsBox(t))
		}
	}
	return b
}

// wordsBox is about where one text lies; one that is turned is taken to stand
// upright.
func (in Input) wordsBox(t Text) geom.Box {
	w, h := in.px(letterWidth*t.Size/14*float64(t.letters())), in.px(labelLead)
	at := t.At.Add(geom.Vec{X: in.px(t.DX), Y: in.px(t.DY)})
	if t.Turn != 0 {
		half := geom.Vec{X: h / 2, Y: w / 2}
		return geom.Box{Min: at.Add(half.Scale(-1)), Max: at.Add(half)}
	}
	from := at.Add(geom.Vec{Y: -h / 2})
	switch t.Anchor {
	case Middle:
		from.X -= w / 2
	case Right:
		from.X -= w
	}
	return geom.Box{Min: from, Max: from.Add(geom.Vec{X: w, Y: h})}
}

// letters is how many letters a text has, its sign counted as some.
func (t Text) letters() int {
	n := utf8.RuneCountInString(t.Words)
	if t.Sign != 0 {
		n += 3
	}
	return n
}

// labelSize is about how wide and high lines of words are, in mm.
func labelSize(in Input, lines []Text) (w, h float64) {
	letters := 0
	for _, t := range lines {
		letters = max(letters, t.letters())
	}
	return in.px(letterWidth * float64(letters)), in.px(labelLead * float64(len(lines)))
}

// fits reports whether a label of w by h mm round at keeps within the outline.
func fits(outline geom.Path, at geom.Point, w, h float64) bool {
	pts := outline.Flatten(2)
	for _, x := range []float64{-w / 2, w / 2} {
		for _, y := range []float64{-h / 2, h / 2} {
			if _, in := clearance(at.Add(geom.Vec{X: x, Y: y}), pts); !in {
				return false
			}
		}
	}
	return true
}

// write puts lines of words below one another.
func (l *Layer) write(in Input, lines []Text, at geom.Point, anchor Anchor, dx, dy float64) {
	for i, t := range lines {
		t.At, t.Anchor, t.DX, t.DY, t.Halo = at, anchor, dx, dy+labelLead*float64(i), in.ground()
		l.Texts = append(l.Texts, t)
	}
}

// How much of a label beside its piece may lie over other pieces and words: of a
// label of several lines, of a name alone. On another piece a name says what is not
// so.
const (
	mostUnder     = 0.1
	mostUnderName = 0.25
)

// mostHigh is how many times as high as its piece a label of more than a name and
// what to cut may be.
const mostHigh = 1.1

// labelBeside writes the label to the right of the piece, below, above or to
// the left of it: the first of these that covers least of the other pieces, and of
// words that were written before. What finds no room goes, the last line first; the
// Shelf names the piece still.
func (l *Layer) labelBeside(in Input, q model.Piece, box geom.Box, lines []Text) {
	for ; len(lines) > 0; lines = lines[:len(lines)-1] {
		if _, h := labelSize(in, lines); len(lines) > 2 && h > mostHigh*box.Height() {
			continue // a small piece has no need of many words
		}
		at, anchor, under := l.beside(in, q, box, lines)
		if under <= mostUnder || len(lines) == 1 && under <= mostUnderName {
			l.write(in, lines, at, anchor, 0, labelLead/2)
			return
		}
	}
}

// beside is the best place for lines beside a piece, and which share of them lies
// over something there.
func (l *Layer) beside(in Input, q model.Piece, box geom.Box, lines []Text) (at geom.Point, anchor Anchor, under float64) {
	w, h := labelSize(in, lines)
	gap := 8 / in.Scale
	places := []struct {
		corner geom.Point // upper left of the label
		anchor Anchor
	}{
		{geom.Pt(box.Max.X+gap, box.Min.Y), Left},
		{geom.Pt(box.Min.X, box.Max.Y+gap), Left},
		{geom.Pt(box.Min.X, box.Min.Y-gap-h), Left},
		{geom.Pt(box.Min.X-gap-w, box.Min.Y), Right},
		{geom.Pt(box.Max.X+gap, box.Max.Y-h), Left},
		{geom.Pt(box.Max.X+gap, box.Min.Y-h+in.px(labelLead)), Left},
		{geom.Pt(box.Max.X+gap, box.Min.Y-h-gap), Left},
	}
	threads := in.knownThreads()
	best, least := places[0], math.Inf(1)
	for _, p := range places {
		label := geom.Box{Min: p.corner, Max: p.corner.Add(geom.Vec{X: w, Y: h})}
		c := in.covered(q.ID, label)
		for _, t := range l.Texts {
			under := overlap(label, in.wordsBox(t))
			c += max(under.Width(), 0) * max(under.Height(), 0)
		}
		for _, t := range threads {
			c += lengthWithin(t, label) * in.px(labelLead/2)
		}
		if c < least {
			best, least = p, c
		}
	}
	at = best.corner
	if best.anchor == Right {
		at.X += w
	}
	return at, best.anchor, least / (w * h)
}

// covered is how much of other pieces' boxes lies under b, in mm².
func (in Input) covered(piece string, b geom.Box) float64 {
	var sum float64
	for i, box := range in.knownBoxes() {
		if in.Pattern.Pieces[i].ID == piece {
			continue
		}
		under := overlap(b, box)
		sum += under.Width() * under.Height()
	}
	return sum
}

// knownBoxes are pieceBoxes, reckoned once while a layer is built.
func (in Input) knownBoxes() []geom.Box {
	if in.boxes == nil {
		return in.pieceBoxes()
	}
	return in.boxes()
}

// knownThreads are sharedThreads, reckoned once while a layer is built.
func (in Input) knownThreads() [][]geom.Point {
	if in.threads == nil {
		return in.sharedThreads()
	}
	return in.threads()
}

// reckonOnce has what labels ask of all pieces reckoned once for all of them.
func (in *Input) reckonOnce() {
	whole := *in
	in.boxes, in.threads = sync.OnceValue(whole.pieceBoxes), sync.OnceValue(whole.sharedThreads)
}

// pieceBoxes are the boxes round the pieces' lines.
func (in Input) pieceBoxes() []geom.Box {
	out := make([]geom.Box, len(in.Pattern.Pieces))
	for i := range out {
		for _, e := range in.Edges(i) {
			out[i] = out[i].Union(e.Bounds())
		}
	}
	return out
}

// sentence is a text with a capital at the front.
func sentence(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + text[n:]
}

func labelLines(in Input, q model.Piece) []Text {
	cut := q.CutWords()
	switch {
	case len(in.Sheets) == 0 || in.Result.Size == "":
	case in.Pattern.Target.Own():
		cut = words.F("%s, own measures", cut)
	default:
		cut = words.F("%s, size %s", cut, in.Result.Size)
	}
	lines := []Text{
		{Words: q.Name, Size: 16, Bold: true, Ink: InkWords},
		{Words: cut, Size: 13, Ink: InkSoft},
	}
	if len(in.Sheets) == 0 {
		lines = append(lines, in.followLines(q)...)
	}
	return lines
}
