package tile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"quarterstep/assets/words"
)

// Paper is a sheet as it is sold, in mm. Width is across, Height down, when it
// lies as its name says: sheets upright, rolls as wide as the roll.
type Paper struct {
	Name          string
	Width, Height float64
	// Free is a page as long as the pieces need: off a roll, which has a Width,
	// or for a projector, which has neither side.
	Free bool
	// Screen is a page for a projector; it is Free.
	Screen bool
}

// Said is what the paper is called in the language in use.
func (p Paper) Said() string {
	wide, off := strings.CutPrefix(p.Name, "Roll ")
	switch {
	case p.Projected():
		return words.T("Projector")
	case off:
		return words.F("Roll %s", strings.Replace(wide, ".", words.Decimal(), 1))
	case p.Name == "A4 or Letter": // words: none
		return words.T("A4 or Letter")
	}
	return strings.ReplaceAll(p.Name, ".", words.Decimal())
}

// Roll reports whether the paper comes off a roll.
func (p Paper) Roll() bool { return p.Free && !p.Screen }

// Projected reports whether the page is for a projector.
func (p Paper) Projected() bool { return p.Free && p.Screen }

// papers are those known by name. Sizes: ISO 216 (A series) and ANSI/ASME
// Y14.1 (letter 8.5 x 11 in, tabloid 11 x 17 in); legal, 8.5 x 14 in, and the
// rolls (24 in, A0's width, 36 in) are common practice. What is as wide as A4
// and as high as Letter fits on both.
var papers = []Paper{
	{Name: "A4", Width: 210, Height: 297},
	{Name: "Letter", Width: 8.5 * 25.4, Height: 11 * 25.4},
	{Name: "A4 or Letter", Width: 210, Height: 11 * 25.4}, // words: none
	{Name: "Legal", Width: 8.5 * 25.4, Height: 14 * 25.4},
	{Name: "A3", Width: 297, Height: 420},
	{Name: "Tabloid", Width: 11 * 25.4, Height: 17 * 25.4},
	{Name: "A2", Width: 420, Height: 594},
	{Name: "A1", Width: 594, Height: 841},
	{Name: "A0", Width: 841, Height: 1189},
	{Name: "Roll 610 mm", Width: 610, Free: true},
	{Name: "Roll 841 mm", Width: 841, Free: true},
	{Name: "Roll 914 mm", Width: 914.4, Free: true},
	{Name: "Projector", Free: true, Screen: true},
}

// Papers lists the papers known by name, small ones first.
func Papers() []Paper { return append([]Paper(nil), papers...) }

// longest is the largest side a page may have, in mm: 14,400 units of 1/72 in
// (ISO 32000-1, annex C), beyond which readers need not follow.
const longest = 14400 * 25.4 / 72

// ParsePaper reads the name of a paper ("A4", "letter", "a4 or letter",
// "projector"), the width of a roll ("roll 914 mm", "roll 36 in", "roll 61cm";
// without a unit, mm) or a sheet's width and height ("914.4 x 3000 mm",
// "36x120in", "61x100 cm"; without a unit, mm). Errors are sentences for the
// sewist.
func ParsePaper(s string) (Paper, error) {
	name := strings.ToLower(strings.TrimSpace(s))
	for _, p := range papers {
		if name == strings.ToLower(p.Name) {
			return p, nil
		}
	}
	if wide, found := strings.CutPrefix(name, "roll"); found {
		return parseRoll(s, wide)
	}
	w, h, ok := sides(name)
	if !ok {
		return Paper{}, words.Errorf("%q is no paper known here: use %s, or width x height such as 914x3000mm", s, paperNames())
	}
	for _, side := range []float64{w, h} {
		if !(side > 0) || side > longest {
			return Paper{}, words.Errorf("paper %q cannot be printed: each side must be more than 0 and at most %.0f mm", s, longest)
		}
	}
	return Paper{Name: fmt.Sprintf("%s x %s mm", trim(w), trim(h)), Width: w, Height: h}, nil
}

// parseRoll reads a roll's width; s is what was typed.
func parseRoll(s, wide string) (Paper, error) {
	number, unit := unitOf(strings.TrimSpace(wide))
	w, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil || !(w > 0) || w*unit > longest {
		return Paper{}, words.Errorf("%q is no roll known here: give its width, such as roll 914 mm or roll 36 in, at most %.0f mm", s, longest)
	}
	return Paper{Name: fmt.Sprintf("Roll %s mm", trim(w*unit)), Width: w * unit, Free: true}, nil // words: none
}

func paperNames() string {
	names := make([]string, len(papers))
	for i, p := range papers {
		names[i] = p.Said()
	}
	return strings.Join(names, ", ")
}

// sides reads "914.4 x 3000 mm" into mm.
func sides(s string) (w, h float64, ok bool) {
	s, unit := unitOf(s)
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

// unitOf takes the unit off a length and gives it in mm.
func unitOf(s string) (number string, mm float64) {
	for _, u := range []struct {
		name string
		mm   float64
	}{{"mm", 1}, {"cm", 10}, {"in", 25.4}, {`"`, 25.4}} {
		if rest, found := strings.CutSuffix(s, u.name); found {
			return rest, u.mm
		}
	}
	return s, 1
}

// shown is trim with the decimal mark of the language in use.
func shown(mm float64) string { return strings.Replace(trim(mm), ".", words.Decimal(), 1) }

// trim writes mm to a tenth at most.
func trim(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64)
}
