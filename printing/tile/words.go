package tile

import (
	"quarterstep/model/geom"
)

// NameSize is the letter height of a sheet's name, mm.
const NameSize = 9.0

// the room a sheet's name needs, mm, and how far it keeps from the sheet's own
// border, joining buttons among it.
const (
	nameWidth  = 17.0
	nameHeight = 8.5
	nameInset  = 7.0
)

// nameSheets finds for each sheet's name a place clear of lines and words: the
// corners first, the lower left one before all, then along the sides.
func (p *Plan) nameSheets(shapes []shape) {
	for i := range p.Sheets {
		s := &p.Sheets[i]
		places := namePlaces(s.Own)
		s.NameAt = places[0]
		for _, at := range places {
			if free(nameBox(at), shapes, s.Buttons) {
				s.NameAt = at
				break
			}
		}
	}
}

func nameBox(at geom.Point) geom.Box {
	return geom.Box{Min: at.Add(geom.Vec{X: -1, Y: -nameHeight}), Max: at.Add(geom.Vec{X: nameWidth, Y: 1.5})}
}

func namePlaces(own geom.Box) []geom.Point {
	left, right := own.Min.X+nameInset, own.Max.X-nameInset-nameWidth
	top, bottom := own.Min.Y+nameInset+nameHeight, own.Max.Y-nameInset
	places := []geom.Point{{X: left, Y: bottom}, {X: left, Y: top}, {X: right, Y: bottom}, {X: right, Y: top}}
	const n = 12
	for k := 1; k < n; k++ {
		x, y := left+(right-left)*float64(k)/n, bottom+(top-bottom)*float64(k)/n
		places = append(places, geom.Pt(left, y), geom.Pt(x, bottom), geom.Pt(right, y), geom.Pt(x, top))
	}
	for k := 1; k < n*n; k++ {
		places = append(places, geom.Pt(left+(right-left)*float64(k%n)/n, bottom+(top-bottom)*float64(k/n)/n))
	}
	return places
}

// the room for words in a strip, mm along and across.
const (
	tipLong = 26.0
	tipHigh = 3.2
)

// placeTips finds room for words in the strips of every sheet, or beside joins
// without, near their
// upper or left end before elsewhere.
func (p *Plan) placeTips(shapes []shape) {
	for i := range p.Sheets {
		s := &p.Sheets[i]
		for side := Left; side <= Down; side++ {
			if s.Beside[side] != "" {
				s.Tips[side] = tipPlace(s.tipRoom(side), s.Buttons, shapes)
			}
		}
	}
}

// tipRoom is where the words of a side may stand: its strip or, where that is
// too narrow, a strip as broad on the sheet's own side of the join.
func (s Sheet) tipRoom(side Side) geom.Box {
	if s.InStrip(side) {
		return s.Strip(side)
	}
	const off = 0.8 // from the join
	b := s.Own
	switch side {
	case Left:
		b.Min.X, b.Max.X = b.Min.X+off, b.Min.X+off+tipHigh
	case Up:
		b.Min.Y, b.Max.Y = b.Min.Y+off, b.Min.Y+off+tipHigh
	case Right:
		b.Min.X, b.Max.X = b.Max.X-off-tipHigh, b.Max.X-off
	case Down:
		b.Min.Y, b.Max.Y = b.Max.Y-off-tipHigh, b.Max.Y-off
	}
	return b
}

func tipPlace(strip geom.Box, buttons []Button, shapes []shape) geom.Box {
	half, long := geom.Vec{X: tipLong / 2, Y: tipHigh / 2}, strip.Width()
	along := geom.Vec{X: 1}
	if strip.Height() > strip.Width() {
		half, long, along = geom.Vec{X: half.Y, Y: half.X}, strip.Height(), geom.Vec{Y: 1}
	}
	if long < tipLong {
		return geom.Box{}
	}
	const places = 40
	for k := 4; k < places+4; k++ {
		at := strip.Centre().Add(along.Scale((float64(k%places)/places - 0.5) * (long - tipLong)))
		b := geom.Box{Min: at.Add(half.Scale(-1)), Max: at.Add(half)}
		if free(b, shapes, buttons) {
			return b
		}
	}
	return geom.Box{}
}

// free reports whether b is clear of every line, word and button.
func free(b geom.Box, shapes []shape, buttons []Button) bool {
	for _, s := range shapes {
		if s.meets(b) {
			return false
		}
		for _, w := range s.words {
			if w.Intersects(b) {
				return false
			}
		}
	}
	for _, n := range buttons {
		if geom.BoxOf(n.At).Grow(n.R + 3).Intersects(b) {
			return false
		}
	}
	return true
}
