package model

import (
	"maps"
	"math"
	"slices"

	"quarterstep/assets/words"
)

func (c *checker) lengths() {
	ids := idSet{}
	for i, l := range c.p.Lengths {
		place := or(l.Name, words.Text("lengthening"), i)
		if why := ids.refuses(l.ID); why != "" {
			c.add(3, "", place, why)
		}
		if !ordinary(l.By) || math.Abs(l.By) > MaxLengthening {
			c.add(14, "", place, words.F("it cannot be by %v mm", l.By))
		}
		taken := map[string]bool{}
		for _, at := range l.Lines {
			c.lengthenLine(at, place, taken)
		}
		for _, s := range l.Hems {
			c.stretch(14, s, place, words.T("take it off"))
		}
	}
}

func (c *checker) lengthenLine(at PieceLine, place string, taken map[string]bool) {
	i := c.p.PieceIndex(at.Piece)
	if i < 0 {
		c.add(14, "", place, words.T("a piece it lengthens is not there"))
		return
	}
	q := c.p.Pieces[i]
	if k := q.LineIndex(at.Line); k < 0 || q.Lines[k].Kind != Lengthen {
		c.add(14, "", place, words.F("its lengthen line is not on %s", q.Name))
	}
	if taken[at.Piece] {
		c.add(14, "", place, words.F("it lengthens %s twice", q.Name))
	}
	taken[at.Piece] = true
}

func (c *checker) limits() {
	for _, name := range slices.Sorted(maps.Keys(c.p.Limits)) {
		if v := c.p.Limits[name]; !ordinary(v) || v < 0 {
			c.add(15, "", words.T("checks"), words.F("the limit %q cannot be %v", name, v))
		}
	}
}
