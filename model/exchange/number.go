package exchange

import (
	"math"
	"strconv"
	"strings"
)

// scanner reads numbers in SVG's compact writing: "1.5.5-3" is 1.5, 0.5, -3.
type scanner struct {
	s string
	i int
}

// space skips white space and at most one comma.
func (sc *scanner) space() {
	comma := false
	for ; sc.i < len(sc.s); sc.i++ {
		switch sc.s[sc.i] {
		case ' ', '\t', '\n', '\r', '\f':
		case ',':
			if comma {
				return
			}
			comma = true
		default:
			return
		}
	}
}

func (sc *scanner) done() bool { return sc.i >= len(sc.s) }

// number reads one number; false, without moving, where there is none or it is
// too large to be one.
func (sc *scanner) number() (float64, bool) {
	sc.space()
	end := numberEnd(sc.s, sc.i)
	if end == sc.i {
		return 0, false
	}
	v, err := strconv.ParseFloat(sc.s[sc.i:end], 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, false
	}
	sc.i = end
	return v, true
}

// flag reads an arc's flag, a single 0 or 1 that need not be set apart.
func (sc *scanner) flag() (on, ok bool) {
	sc.space()
	if sc.done() || sc.s[sc.i] != '0' && sc.s[sc.i] != '1' {
		return false, false
	}
	sc.i++
	return sc.s[sc.i-1] == '1', true
}

// numberEnd is where the number at i ends, or i where there is none.
func numberEnd(s string, i int) int {
	start := i
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	digits := func() (n int) {
		for ; i < len(s) && s[i] >= '0' && s[i] <= '9'; i++ {
			n++
		}
		return n
	}
	n := digits()
	if i < len(s) && s[i] == '.' {
		i++
		n += digits()
	}
	if n == 0 {
		return start
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		mark := i
		i++
		if i < len(s) && (s[i] == '+' || s[i] == '-') {
			i++
		}
		if digits() == 0 {
			i = mark
		}
	}
	return i
}

// numbers reads a list of numbers; false where anything else stands in it. Of a
// list that is longer than that of mostCubics lines no more is read.
func numbers(s string) ([]float64, bool) {
	sc := scanner{s: s}
	var out []float64
	for {
		v, ok := sc.number()
		if !ok {
			sc.space()
			return out, sc.done()
		}
		if out = append(out, v); len(out) > 2*mostCubics+3 {
			return out[:2*mostCubics+4], true
		}
	}
}

// mmPerPx is 1/96 in, the CSS pixel.
const mmPerPx = 25.4 / 96

// mmPer is the length of SVG's units in mm (CSS Values and Units 3, 6.2).
var mmPer = map[string]float64{
	"": mmPerPx, "px": mmPerPx, "mm": 1, "cm": 10, "q": 0.25, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6,
}

// length is a length as written: a number and its unit in lower case.
type length struct {
	v    float64
	unit string
}

func parseLength(s string) (length, bool) {
	sc := scanner{s: strings.TrimSpace(s)}
	v, ok := sc.number()
	l := length{v, strings.ToLower(strings.TrimSpace(sc.s[sc.i:]))}
	_, known := mmPer[l.unit]
	return l, ok && (known || l.unit == "%")
}

// user is the length in user units, a percentage being of whole user units.
func (l length) user(whole float64) float64 {
	switch l.unit {
	case "":
		return l.v
	case "%":
		return l.v / 100 * whole
	}
	return l.v * mmPer[l.unit] / mmPerPx
}
