package app

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// Measured is one body measure of the wearer: her own, or the chart's at the
// size the rest goes by.
type Measured struct {
	Measure model.Measure
	Own     bool
	MM      float64
	Place   float64 // on the chart; sizes count from 0, beyond its ends allowed
	Placed  bool    // the chart places it
	Off     bool    // it lies beyond the chart's ends
	By      float64 // how far beyond them, mm
	Says    string  // its place by name: "48", "46 1/2", "beyond 62"
}

// Wearer lists the body measures of p's target: the chart's in its order, then
// those of her own that the chart lacks.
func Wearer(p model.Pattern) []Measured {
	measures := slices.Clone(p.Chart.Measures)
	for _, m := range slices.Sorted(maps.Keys(p.Target.Body)) {
		if !slices.Contains(measures, m) {
			measures = append(measures, m)
		}
	}
	var out []Measured
	for _, m := range measures {
		if mm, ok := p.Target.Value(p.Chart, m); ok {
			out = append(out, measured(p, m, mm))
		}
	}
	return out
}

func measured(p model.Pattern, m model.Measure, mm float64) Measured {
	out := Measured{Measure: m, MM: mm}
	if _, out.Own = p.Target.Body[m]; !out.Own {
		out.Place, out.Placed = p.Target.Place, true
		out.Says = p.Chart.NameAt(out.Place)
		return out
	}
	if out.Place, out.Placed = p.Chart.PlaceOf(m, mm); !out.Placed {
		out.Says = words.T("not on this chart")
		return out
	}
	last := len(p.Chart.Sizes) - 1
	first, most := p.Chart.Sizes[0], p.Chart.Sizes[last]
	switch {
	case out.Place < 0:
		out.Off, out.By, out.Says = true, first.Body[m]-mm, words.F("below %s", first.Name)
	case out.Place > float64(last):
		out.Off, out.By, out.Says = true, mm-most.Body[m], words.F("beyond %s", most.Name)
	default:
		out.Says = placeName(p.Chart, out.Place, 10)
	}
	return out
}

// placeName names a place on the chart, rounded to so many parts of a step.
func placeName(c model.SizeChart, place, parts float64) string {
	return c.NameAt(math.Round(place*parts) / parts)
}

// WearerLine says in one short line what p is graded to: "bust 50, waist 48
// 1/2, hip 52", to the nearest half size, else "size 48".
func WearerLine(p model.Pattern) string {
	var says []string
	own := 0
	for _, m := range Wearer(p) {
		if !m.Own || !m.Placed {
			continue
		}
		own++
		if own > maxInLine {
			continue
		}
		name := m.Says
		if !m.Off {
			name = placeName(p.Chart, m.Place, 2)
		}
		says = append(says, m.Measure.Said()+" "+name)
	}
	if own == 0 {
		return words.F("size %s", p.Chart.NameAt(p.Target.Place))
	}
	if own > maxInLine {
		says = append(says, words.F("%d more", own-maxInLine))
	}
	return strings.Join(says, ", ")
}

// maxInLine is how many measures a short line names.
const maxInLine = 3

// WearerText says, a sentence for each of the wearer's own measurements, where
// it lies on the chart, and what the rest goes by.
func WearerText(p model.Pattern) []string {
	var out []string
	rest := false
	for _, m := range Wearer(p) {
		if !m.Own {
			rest = true
			continue
		}
		says := m.Says
		switch {
		case m.Off:
			says = words.F("%s by %s", says, measure.FormatPlace(m.By, p.Unit))
		case m.Placed:
			says = words.F("size %s", says)
		}
		out = append(out, fmt.Sprintf("%s %s: %s.", capital(m.Measure.Said()), measure.FormatPlace(m.MM, p.Unit), says))
	}
	if len(out) > 0 && rest {
		out = append(out, words.F("The rest goes by size %s.", p.Chart.NameAt(p.Target.Place)))
	}
	return out
}

func capital(s string) string {
	if s == "" {
		return ""
	}
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

// ReadMeasure reads what was typed for measurement m, in mm; a bare number is
// in cm or inches as p shows lengths. What cannot be read gives the sentence of
// edit.HowToType.
func ReadMeasure(p model.Pattern, m model.Measure, text string) (float64, error) {
	bare := measure.Centimetres
	if p.Unit == model.Inches {
		bare = measure.Inches
	}
	l, err := measure.Parse(text, bare)
	if err != nil {
		return 0, edit.HowToType(p, m)
	}
	return l.MM(), nil
}

// Aim is p for a size of its chart, for a wearer's own measurements as they are
// typed, or for both: then what she did not measure goes by the size. With
// neither it is p as it stands. Measurements are named as the chart names them;
// hyphens for spaces will do. The error names what the chart lacks: NoMeasure
// for a measure.
func Aim(p model.Pattern, size string, typed map[string]string) (model.Pattern, error) {
	if size != "" {
		var err error
		if p, err = Retarget(p, size, p.Target.Method); err != nil {
			return p, err
		}
	}
	if len(typed) == 0 {
		return p, nil
	}
	place := p.Target.Place
	body, err := readBody(p, typed)
	if err != nil {
		return p, err
	}
	if p, err = edit.OwnMeasures(body)(p); err != nil {
		return p, err
	}
	if size != "" {
		p.Target.Place = place
	}
	return p, nil
}

// NoMeasure says that a chart lacks a measure.
type NoMeasure struct {
	Name  string
	Chart model.SizeChart
}

func (e NoMeasure) Error() string {
	names := make([]string, len(e.Chart.Measures))
	for i, m := range e.Chart.Measures {
		names[i] = m.Said()
	}
	return words.F("the chart %s has no measure %q; it has %s", e.Chart.Name, e.Name, strings.Join(names, ", "))
}

func readBody(p model.Pattern, typed map[string]string) (map[model.Measure]float64, error) {
	body := make(map[model.Measure]float64, len(typed))
	for _, name := range slices.Sorted(maps.Keys(typed)) {
		m := model.Measure(strings.ToLower(strings.ReplaceAll(name, "-", " ")))
		if !slices.Contains(p.Chart.Measures, m) {
			return nil, NoMeasure{name, p.Chart}
		}
		mm, err := ReadMeasure(p, m, typed[name])
		if err != nil {
			return nil, err
		}
		body[m] = mm
	}
	return body, nil
}
