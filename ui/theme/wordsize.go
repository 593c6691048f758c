package theme

import (
	"bytes"
	"sync"

	"fyne.io/fyne/v2"
	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"

	"quarterstep/assets"
)

// WordSize is the room that text takes in the window in Lato of a size in pixels,
// as fyne.MeasureText says it, which reads the font anew for every text and forgets
// what it measured after a minute: entering a step of the window was waiting for
// that a quarter of the time.
func WordSize(text string, size float32, bold bool) fyne.Size {
	t := current()
	if t == nil { // the fonts are not ours
		return fyne.MeasureText(text, size, fyne.TextStyle{Bold: bold})
	}
	return wordSizes.of(sizedWord{text, size, bold})
}

// ReadFonts reads the fonts in use, ours and those the toolkit falls back to, which
// takes longer than a frame; until then whatever has words waits for it. It may run
// beside the window while the window has no words yet.
func ReadFonts() {
	for _, bold := range []bool{false, true} {
		WordSize(" ", Body, bold)
		fyne.MeasureText(" ", Body, fyne.TextStyle{Bold: bold})
	}
}

// mostSizes is how many sizes are remembered before all are forgotten: figures
// change as the sewist drags.
const mostSizes = 20_000

type sizedWord struct {
	text string
	size float32
	bold bool
}

// measurer measures words and remembers their sizes.
type measurer struct {
	lock   sync.Mutex // tests open several windows
	known  map[sizedWord]fyne.Size
	faces  map[bool]*font.Face // by bold
	shaper shaping.HarfbuzzShaper
	parts  shaping.Segmenter
}

var wordSizes measurer

func (m *measurer) of(w sizedWord) fyne.Size {
	m.lock.Lock()
	defer m.lock.Unlock()
	if size, ok := m.known[w]; ok {
		return size
	}
	if m.known == nil || len(m.known) >= mostSizes {
		m.known = map[sizedWord]fyne.Size{}
	}
	size := m.measured(w)
	m.known[w] = size
	return size
}

// measured is the size of words measured anew; those with shapes that Lato has not
// got are measured by the toolkit, which knows of other fonts.
func (m *measurer) measured(w sizedWord) fyne.Size {
	face := m.face(w.bold)
	if face == nil || !hasAll(face, w.text) {
		return fyne.MeasureText(w.text, w.size, fyne.TextStyle{Bold: w.bold})
	}
	in := shaping.Input{Text: []rune(w.text), RunEnd: len([]rune(w.text)), Direction: di.DirectionLTR, Face: face, Size: fixed.Int26_6(float64(w.size) * 64)}
	var wide fixed.Int26_6
	for _, part := range m.parts.Split(in, shaping.Fontmap(oneFace{face})) {
		wide += m.shaper.Shape(part).Advance
	}
	in.Text, in.RunEnd = []rune{' '}, 1
	return fyne.NewSize(float32(wide)/64, float32(m.shaper.Shape(in).LineBounds.LineThickness())/64)
}

// face is one of the fonts, read once; nil where it cannot be read.
func (m *measurer) face(bold bool) *font.Face {
	if m.faces == nil {
		m.faces = map[bool]*font.Face{}
		m.shaper.SetFontCacheSize(2)
		for bold, data := range map[bool][]byte{false: assets.LatoRegular, true: assets.LatoBold} {
			if face, err := font.ParseTTF(bytes.NewReader(data)); err == nil {
				m.faces[bold] = face
			}
		}
	}
	return m.faces[bold]
}

// hasAll reports that a font has a shape for all of a text, which has no tabs or
// ends of lines.
func hasAll(face *font.Face, text string) bool {
	for _, r := range text {
		if _, ok := face.NominalGlyph(r); !ok || r < ' ' {
			return false
		}
	}
	return true
}

// oneFace is a choice of fonts without a choice.
type oneFace struct{ face *font.Face }

// ResolveFace is for the segmenter.
func (o oneFace) ResolveFace(rune) *font.Face { return o.face }
