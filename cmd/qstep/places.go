package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"quarterstep/app/paper"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
)

// mostPlace is the farthest, in px, that a place of a picture can be typed.
const mostPlace = 1e6

// placesOf reads places typed as x,y,x,y.
func placesOf(text string) ([]geom.Point, error) {
	var out []geom.Point
	words := strings.Split(text, ",")
	if len(words)%2 != 0 {
		return nil, fmt.Errorf("%w: %q are no places; type x,y,x,y", errUsage, text)
	}
	for i := 0; i < len(words); i += 2 {
		x, errX := strconv.ParseFloat(strings.TrimSpace(words[i]), 64)
		y, errY := strconv.ParseFloat(strings.TrimSpace(words[i+1]), 64)
		if errX != nil || errY != nil || !(math.Abs(x) <= mostPlace) || !(math.Abs(y) <= mostPlace) {
			return nil, fmt.Errorf("%w: %q are no places; type x,y,x,y", errUsage, text)
		}
		out = append(out, geom.Pt(x, y))
	}
	return out, nil
}

// fourOf reads the four corners of something.
func fourOf(flag, text string) ([4]geom.Point, error) {
	at, err := placesOf(text)
	if err != nil {
		return [4]geom.Point{}, err
	}
	if len(at) != 4 {
		return [4]geom.Point{}, fmt.Errorf("%w: --%s wants four corners, x,y each, and got %d", errUsage, flag, len(at))
	}
	return [4]geom.Point(at), nil
}

// pictureOf takes the number of a picture off what is typed, as in "2:10,20";
// usual where there is none. Pictures count from 1, the result from 0.
func pictureOf(text string, usual, pictures int) (int, string, error) {
	number, rest, typed := strings.Cut(text, ":")
	if !typed {
		return usual, text, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(number))
	if err != nil || n < 1 || n > pictures {
		return 0, "", fmt.Errorf("%w: %q names no picture; there are %d", errUsage, text, pictures)
	}
	return n - 1, rest, nil
}

// lengthOf reads a length above nothing; a bare number is mm.
func lengthOf(flag, text string) (float64, error) {
	l, err := measure.Parse(text, measure.Millimetres)
	if err != nil {
		return 0, fmt.Errorf("%w: --%s %q is no length; type it as 10 cm or 4in", errUsage, flag, text)
	}
	if l.MM() <= 0 {
		return 0, fmt.Errorf("%w: --%s %q is not above nothing", errUsage, flag, text)
	}
	return l.MM(), nil
}

// apartOf reads the two distances of target cards, across and down; nothing typed
// is none.
func apartOf(text string) (out [2]float64, err error) {
	if text == "" {
		return out, nil
	}
	across, down, two := strings.Cut(text, ",")
	if !two {
		return out, fmt.Errorf(`%w: --apart is typed "41 cm,57 cm", not %q`, errUsage, text)
	}
	for i, t := range []string{across, down} {
		if out[i], err = lengthOf("apart", t); err != nil {
			return out, err
		}
	}
	return out, nil
}

// knownOf reads a length drawn on a picture: [N:]x,y,x,y=10 cm.
func knownOf(text string, pictures int) (int, straight.Known, error) {
	n, rest, err := pictureOf(text, 0, pictures)
	if err != nil {
		return 0, straight.Known{}, err
	}
	where, long, typed := strings.Cut(rest, "=")
	at, err := placesOf(where)
	if err == nil && (!typed || len(at) != 2) {
		err = fmt.Errorf(`%w: --known is typed "x,y,x,y=10 cm", not %q`, errUsage, text)
	}
	if err != nil {
		return 0, straight.Known{}, err
	}
	mm, err := lengthOf("known", long)
	return n, straight.Known{From: at[0], To: at[1], MM: mm}, err
}

// joinOf reads one place of the paper in two pictures: [N:]x,y=[M:]x,y. It
// returns which picture is joined on, and the place in it and in an earlier one.
func joinOf(text string, pictures int) (int, paper.Mark, error) {
	fail := fmt.Errorf("%w: --join is typed x,y=x,y, or 1:x,y=2:x,y with more than two pictures, not %q", errUsage, text)
	a, b, typed := strings.Cut(text, "=")
	if !typed {
		return 0, paper.Mark{}, fail
	}
	n, wordsA, errA := pictureOf(a, 0, pictures)
	m, wordsB, errB := pictureOf(b, 1, pictures)
	if errA != nil || errB != nil || n == m || m >= pictures {
		return 0, paper.Mark{}, fail
	}
	p, errA := placesOf(wordsA)
	q, errB := placesOf(wordsB)
	if errA != nil || errB != nil || len(p) != 1 || len(q) != 1 {
		return 0, paper.Mark{}, fail
	}
	if n > m {
		n, m, p, q = m, n, q, p
	}
	return m, paper.Mark{On: n, There: p[0], Here: q[0]}, nil
}
