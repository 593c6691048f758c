package scene

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// sheets draws the pages under the pieces: white paper, glue strips where two
// overlap, joining buttons, names.
func (l *Layer) sheets(in Input) {
	for _, s := range in.Sheets {
		if s.Blank {
			l.blankSheet(in, s)
			continue
		}
		ring := ring(s.Box)
		l.Fills = append(l.Fills, Fill{Outline: ring, Ink: InkSheet, Alpha: 1})
		l.Lines = append(l.Lines, Line{Path: ring, Width: 0.9, Ink: InkEdge, Alpha: 1})
	}
	if in.Glue {
		l.glue(in)
		for _, b := range in.Buttons {
			l.Dots = append(l.Dots, Dot{At: b, Radius: 5.5, Ink: InkWords, Mark: Button})
		}
	}
	for _, s := range in.Sheets {
		if s.Name == in.Page && !s.Blank {
			l.Fills = append(l.Fills, Fill{Outline: ring(s.Box), Ink: InkAccent, Alpha: 0.08})
			l.Lines = append(l.Lines, Line{Path: ring(s.Box), Width: 3, Ink: InkAccent, Alpha: 1})
		}
	}
	l.sheetNames(in)
	l.square(in)
}

// sheetNames writes the pages' names. The piece in hand lies over them, so that they
// are written over it again.
func (l *Layer) sheetNames(in Input) {
	for _, s := range in.Sheets {
		name := sheetName(s, s.Name == in.Page)
		if !in.Names || s.Blank || !in.holdsName(s, name) {
			continue
		}
		if s.Name == in.Page { // on a ground of its own
			box := in.wordsBox(name).Grow(in.px(4))
			l.Lines = append(l.Lines, Line{
				Path:  geom.Polyline(geom.Pt(box.Min.X, box.Centre().Y), geom.Pt(box.Max.X, box.Centre().Y)),
				Width: 20 * max(in.Words, 1), Ink: InkAccent, Alpha: 1,
			})
		}
		l.Texts = append(l.Texts, name)
	}
}

// holdsName reports whether a page is shown large enough for its name; that of
// the page in hand is always written.
func (in Input) holdsName(s Page, name Text) bool {
	words := in.wordsBox(name)
	return s.Name == in.Page || words.Width()+in.px(name.DX) <= s.Box.Width() && 2*words.Height() <= s.Box.Height()
}

func sheetName(s Page, inHand bool) Text {
	t := Text{
		Words: s.Name, At: geom.Pt(s.Box.Min.X, s.Box.Max.Y), DX: 12, DY: -14,
		Size: 13, Bold: true, Ink: InkSoft, Anchor: Left, Halo: InkSheet,
	}
	if inHand {
		t.Ink, t.Halo = InkOnAccent, 0
	}
	return t
}

// blankSheet draws where a page is left out, with the words for which it is shown
// large enough.
func (l *Layer) blankSheet(in Input, s Page) {
	l.Lines = append(l.Lines, Line{
		Path: ring(s.Box.Grow(-3)), Width: 1.2, Dash: []float64{5, 4}, Ink: InkEdge, Alpha: 1,
	})
	c := s.Box.Centre()
	name := Text{Words: s.Name, At: c, Size: 16, Bold: true, Ink: InkFaint}
	why := Text{Words: words.T("blank, left out"), At: c, DY: 10, Size: 13, Ink: InkFaint}
	fits := func(t Text, lines float64) bool {
		box := in.wordsBox(t)
		return box.Width() <= s.Box.Width()-in.px(12) && lines*box.Height() <= s.Box.Height()-in.px(12)
	}
	switch {
	case fits(why, 2.5):
		name.DY = -9
		l.Texts = append(l.Texts, name, why)
	case fits(name, 1):
		l.Texts = append(l.Texts, name)
	}
}

// glue hatches the strips where two neighbouring pages overlap.
func (l *Layer) glue(in Input) {
	for i, a := range in.Sheets {
		for _, b := range in.Sheets[i+1:] {
			if a.Blank || b.Blank {
				continue
			}
			if s := overlap(a.Box, b.Box); s.Width() > 0 && s.Height() > 0 {
				l.strip(in, s)
			}
		}
	}
}

// strip hatches one glue strip across its narrow side.
func (l *Layer) strip(in Input, s geom.Box) {
	long := max(s.Width(), s.Height())
	short := min(s.Width(), s.Height())
	if long < 3*short {
		return // a corner where four pages meet; the strips cross there anyway
	}
	c, half := s.Centre(), geom.Vec{X: long / 2}
	if s.Height() > s.Width() {
		half = geom.Vec{Y: long / 2}
	}
	l.Lines = append(l.Lines, Line{
		Path: geom.Polyline(c.Add(half.Scale(-1)), c.Add(half)), Width: short * in.Scale,
		Dash: []float64{1, 4}, Ink: InkEdge, Alpha: 0.35,
	})
}

// square draws the test square with the length of its side.
func (l *Layer) square(in Input) {
	if in.Square.Empty() {
		return
	}
	l.Lines = append(l.Lines, Line{Path: ring(in.Square), Width: 1.5, Ink: InkWords, Alpha: 1})
	l.Texts = append(l.Texts, Text{
		Words: words.T("Test square"), At: geom.Pt(in.Square.Min.X, in.Square.Centre().Y),
		DX: -10, Size: 13, Ink: InkWords, Anchor: Right, Halo: InkSheet,
	})
}

func ring(b geom.Box) geom.Path {
	return geom.Polyline(b.Min, geom.Pt(b.Max.X, b.Min.Y), b.Max, geom.Pt(b.Min.X, b.Max.Y), b.Min)
}

func overlap(a, b geom.Box) geom.Box {
	return geom.Box{
		Min: geom.Pt(max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y)),
		Max: geom.Pt(min(a.Max.X, b.Max.X), min(a.Max.Y, b.Max.Y)),
	}
}
