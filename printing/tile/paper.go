package tile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Paper is a sheet as it is sold, in mm. Width is across, Height down, when it
// lies as its name says: sheets upright, rolls as wide as the roll.
type Paper struct {
	Name          string
	Width, Height float64
}

// papers are the sheets known by name. Sizes: ISO 216 (A series) and ANSI/ASME
// Y14.1 (letter 8.5 x 11 in, tabloid 11 x 17 in); legal, 8.5 x 14 in, is
// common practice.
var papers = []Paper{
	{"A4", 210, 297},
	{"Letter", 8.5 * 25.4, 11 * 25.4},
	{"Legal", 8.5 * 25.4, 14 * 25.4},
	{"A3", 297, 420},
	{"Tabloid", 11 * 25.4, 17 * 25.4},
	{"A2", 420, 594},
	{"A1", 594, 841},
	{"A0", 841, 1189},
}

// Papers lists the sheets known by name, small ones first.
func Papers() []Paper { return append([]Paper(nil), papers...) }

// longest is the largest side a page may have, in mm: 14,400 units of 1/72 in
// (ISO 32000-1, annex C), beyond which readers need not follow.
const longest = 14400 * 25.4 / 72

// ParsePaper reads the name of a sheet ("A4", "letter") or its width and
// height ("914.4 x 3000 mm", "36x120in", "61x100 cm"; without a unit, mm).
// Errors are sentences for the sewist.
func ParsePaper(s string) (Paper, error) {
	name := strings.ToLower(strings.TrimSpace(s))
	for _, p := range papers {
		if name == strings.ToLower(p.Name) {
			return p, nil
		}
	}
	w, h, ok := sides(name)
	if !ok {
		return Paper{}, fmt.Errorf("%q is no paper known here: use %s, or width x height such as 914x3000mm", s, paperNames())
	}
	for _, side := range []float64{w, h} {
		if !(side > 0) || side > longest {
			return Paper{}, fmt.Errorf("paper %q cannot be printed: each side must be more than 0 and at most %.0f mm", s, longest)
		}
	}
	return Paper{Name: fmt.Sprintf("%s x %s mm", trim(w), trim(h)), Width: w, Height: h}, nil
}

func paperNames() string {
	names := make([]string, len(papers))
	for i, p := range papers {
		names[i] = p.Name
	}
	return strings.Join(names, ", ")
}

// sides reads "914.4 x 3000 mm" into mm.
func sides(s string) (w, h float64, ok bool) {
	unit := 1.0
	for _, u := range []struct {
		name string
		mm   float64
	}{{"mm", 1}, {"cm", 10}, {"in", 25.4}, {`"`, 25.4}} {
		if rest, found := strings.CutSuffix(s, u.name); found {
			s, unit = rest, u.mm
			break
		}
	}
	a, b, found := strings.Cut(strings.ReplaceAll(s, "×", "x"), "x")
	if !found {
		return 0, 0, false
	}
	w, err1 := strconv.ParseFloat(strings.TrimSpace(a), 64)
	h, err2 := strconv.ParseFloat(strings.TrimSpace(b), 64)
	if err1 != nil || err2 != nil || math.IsNaN(w) || math.IsNaN(h) {
		return 0, 0, false
	}
	return w * unit, h * unit, true
}

// trim writes mm to a tenth at most.
func trim(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64)
}
