package app

import (
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing"
)

// letter heights of the words that name a piece, mm.
const (
	nameSize  = 7.0
	wordSize  = 4.5
	smallSize = 3.2
	leastSize = 1.8 // no smaller letter is printed. Common practice: 5 points can still be read
	lineStep  = 1.6 // how far apart lines of words stand, in their letter heights
	blockGap  = 0.8 // left free round them, mm
)

// pieceWords lays one of the blocks that may name a piece where it
// has most room clear of its own marks. Where a piece is small the letters
// shrink and the block stands on its side; where that is not enough, fewer lines
// are written: at the last its name alone, and nothing in a piece in which no
// letter can be read.
func pieceWords(drawn printing.Piece, all [][]printing.Label) []printing.Label {
	for i, words := range all {
		least := leastSize / words[len(words)-1].Size
		if i < len(all)-1 {
			least = math.Max(least, 0.5)
		}
		if out, ok := layBlock(drawn, words, least); ok {
			return out
		}
	}
	return nil
}

// blocks are what may be written on a piece, the fullest first and its name
// alone last; places come later.
func blocks(p model.Pattern, q model.Piece, note, date string) [][]printing.Label {
	name := printing.Label{Text: q.Name, Size: nameSize, Bold: true}
	line := func(s string) printing.Label { return printing.Label{Text: s, Size: wordSize} }
	small := func(s string) printing.Label { return printing.Label{Text: s, Size: smallSize} }
	full := []printing.Label{name}
	if p.Name != "" {
		full = append(full, line(p.Name))
	}
	full = append(full, line(capital(note)), line(q.CutWords()))
	least := []printing.Label{name, small(capital(note)), small(q.CutWords())}
	return [][]printing.Label{
		append(slices.Clone(full), small(scaleWords(p.Unit, date))),
		append(slices.Clone(full), small(words.T("Full size"))),
		full, least,
		{name, small(capital(note) + ". " + q.CutWords())},
		{name},
	}
}

// scaleWords says that the piece is drawn true to scale, how to be sure of it,
// and when it was printed.
func scaleWords(u model.Unit, date string) string {
	square := "5 cm"
	if u == model.Inches {
		square = "2 " + measure.Inches.Name()
	}
	text := words.F("Full size where the test square measures %s", square)
	if date != "" {
		text += ". " + date
	}
	return text
}

// layBlock places a block upright or on its side, its letters as large as there
// is room for and no smaller than least of what they are; false where there is
// not.
func layBlock(drawn printing.Piece, words []printing.Label, least float64) ([]printing.Label, bool) {
	half := 0.0
	for _, w := range words {
		if strings.TrimSpace(w.Text) == "" {
			return nil, false
		}
		half = math.Max(half, halfWidth(w))
	}
	high, first := blockHigh(words)
	const tries = 5
	for i := range tries {
		k := 1 - (1-least)*float64(i)/(tries-1)
		for _, turn := range []float64{0, -math.Pi / 2} {
			at, room := roomiest(drawn, turn, k*half+blockGap, k*high+2*blockGap)
			if room < k*half+blockGap/2 {
				continue
			}
			return blockAt(words, at, turn, k, k*(first-high/2)), true
		}
	}
	return nil, false
}

// blockHigh is how high a block is, in mm, and how far its first baseline lies
// below its top.
func blockHigh(words []printing.Label) (high, first float64) {
	first = letterTall * words[0].Size
	high = first
	for _, w := range words[1:] {
		high += lineStep * w.Size
	}
	return high + letterFoot*words[len(words)-1].Size, first
}

// blockAt is the block about its middle, its letters times k, its first
// baseline down mm below the middle.
func blockAt(words []printing.Label, at geom.Point, turn, k, down float64) []printing.Label {
	out := slices.Clone(words)
	way := geom.Rotate(turn)
	for i := range out {
		if i > 0 {
			down += k * lineStep * words[i].Size
		}
		out[i].Size *= k
		out[i].Turn = turn
		out[i].At = at.Add(way.ApplyVec(geom.Vec{Y: down}))
	}
	return out
}
