package spool

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/printing/tile"
)

// Media is a paper as the printing system names it, with its size upright, mm.
type Media struct {
	Name       string // iso_a4_210x297mm (PWG 5101.1)
	Wide, High float64
}

// Roll is the range of sizes that a printer takes besides, mm; the zero Roll is
// none.
type Roll struct {
	LeastWide, LeastHigh, MostWide, MostHigh float64
}

// sized ends the name of a paper with its size (PWG 5101.1, 5).
var sized = regexp.MustCompile(`^([a-z]+)_(.+)_(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(mm|in)$`)

// parseMedia reads a paper's size out of its name. Names of a range, and old
// ones that tell no size, are not for it.
func parseMedia(name string) (Media, bool) {
	m := sized.FindStringSubmatch(name)
	if m == nil {
		return Media{}, false
	}
	w, err1 := strconv.ParseFloat(m[3], 64)
	h, err2 := strconv.ParseFloat(m[4], 64)
	if err1 != nil || err2 != nil || !(w > 0) || !(h > 0) || m[1] == "custom" && (m[2] == "min" || m[2] == "max") {
		return Media{}, false
	}
	if m[5] == "in" {
		w, h = w*25.4, h*25.4
	}
	return Media{Name: name, Wide: w, High: h}, true
}

// take widens the range by the name of one of its ends.
func (r *Roll) take(name string) {
	for _, end := range []struct {
		prefix     string
		wide, high *float64
	}{{"custom_min_", &r.LeastWide, &r.LeastHigh}, {"custom_max_", &r.MostWide, &r.MostHigh}} {
		if rest, ok := strings.CutPrefix(name, end.prefix); ok {
			if m, ok := parseMedia("size_end_" + rest); ok {
				*end.wide, *end.high = m.Wide, m.High
			}
		}
	}
}

// takes reports whether a paper of that size is within the range.
func (r Roll) takes(w, h float64) bool {
	const slack = 0.05
	return w >= r.LeastWide-slack && h >= r.LeastHigh-slack && w <= r.MostWide+slack && h <= r.MostHigh+slack
}

// known are the names of the papers that have one (PWG 5101.1, tables 2 and 5),
// by the name used here.
var known = []struct{ paper, media string }{
	{"A4", "iso_a4_210x297mm"},
	{"Letter", "na_letter_8.5x11in"},
	{"Legal", "na_legal_8.5x14in"},
	{"A3", "iso_a3_297x420mm"},
	{"Tabloid", "na_ledger_11x17in"},
	{"A2", "iso_a2_420x594mm"},
	{"A1", "iso_a1_594x841mm"},
	{"A0", "iso_a0_841x1189mm"},
}

// near is how far two papers' sides may differ and be the same paper, mm.
// Printers' own lists round to a point.
const near = 1.0

func same(m Media, w, h float64) bool {
	return math.Abs(m.Wide-w) <= near && math.Abs(m.High-h) <= near
}

// MediaFor is the name to ask printer p for a paper by. It fails where the
// printer does not have it.
func (p Printer) MediaFor(paper tile.Paper) (string, error) {
	w, h := paper.Width, paper.Height
	if !(w > 0) || !(h > 0) || math.IsInf(w, 0) || math.IsInf(h, 0) {
		return "", words.Errorf("choose a paper first")
	}
	usual := ""
	for _, k := range known {
		if m, _ := parseMedia(k.media); same(m, w, h) {
			usual = k.media
		}
	}
	if name := p.eitherSheet(w, h); name != "" {
		return name, nil
	}
	custom := fmt.Sprintf("Custom.%sx%smm", number(w), number(h))
	switch {
	case len(p.Media) == 0 && usual != "":
		return usual, nil
	case len(p.Media) == 0:
		return custom, nil
	}
	var other string
	for _, m := range p.Media {
		if usual != "" && m.Name == usual {
			return usual, nil
		}
		if other == "" && same(m, w, h) && !borderless(m.Name) {
			other = m.Name
		}
	}
	if other != "" {
		return other, nil
	}
	if p.Roll.takes(w, h) {
		return custom, nil
	}
	return "", p.lacks(paper)
}

// eitherSheet is the sheet to print a page on that is as wide as A4 and as high
// as Letter: the one the printer has by itself, else the one it knows, A4 first;
// empty for other pages. A page not scaled lies in the middle of the sheet.
func (p Printer) eitherSheet(w, h float64) string {
	a4, _ := parseMedia(known[0].media)
	letter, _ := parseMedia(known[1].media)
	if !same(Media{Wide: a4.Wide, High: letter.High}, w, h) {
		return ""
	}
	for _, m := range []Media{a4, letter} {
		if p.Usual == m.Name {
			return m.Name
		}
	}
	for _, m := range []Media{a4, letter} {
		if slices.ContainsFunc(p.Media, func(q Media) bool { return q.Name == m.Name }) {
			return m.Name
		}
	}
	return ""
}

// borderless reports whether a printer's own name for a paper is for printing
// over its edges, which enlarges the page.
func borderless(name string) bool {
	return strings.Contains(name, "fullbleed") || strings.Contains(name, "borderless")
}

// Papers are the printer's papers that have a name here.
func (p Printer) Papers() []string {
	var names []string
	for _, k := range known {
		if slices.ContainsFunc(p.Media, func(m Media) bool { return m.Name == k.media }) {
			names = append(names, k.paper)
		}
	}
	return names
}

// lacks says which papers there are instead.
func (p Printer) lacks(paper tile.Paper) error {
	names := p.Papers()
	if p.Roll.MostWide > 0 && paper.Width > p.Roll.MostWide {
		return words.Errorf("%s takes paper up to %s mm wide, and %s is wider. Choose a narrower paper, and make the pages anew",
			p.Words, saidMM(p.Roll.MostWide), paper.Said())
	}
	if len(names) == 0 {
		return words.Errorf("%s does not take %s. Choose another paper or printer", p.Words, paper.Said())
	}
	return words.Errorf("%s does not take %s; it takes %s. Choose one of these, and the pages are made anew",
		p.Words, paper.Said(), strings.Join(names, ", "))
}

// saidMM is number as it is shown.
func saidMM(mm float64) string { return strings.Replace(number(mm), ".", words.Decimal(), 1) }

func number(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*100)/100, 'f', -1, 64)
}
