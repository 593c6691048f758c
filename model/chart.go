package model

import (
	"math"
	"strings"

	"quarterstep/assets/words"
)

// Measure names a body measure of a size chart, in lower case: "bust".
type Measure string

// The measures Quarterstep knows by name. A chart may carry others.
// words: none
const (
	Steps     Measure = "steps" // the size's place in the chart
	Bust      Measure = "bust"
	Waist     Measure = "waist"
	Hip       Measure = "hip"
	BackWaist Measure = "back waist length"
	UpperArm  Measure = "upper arm"
	Neck      Measure = "neck"
	Shoulder  Measure = "shoulder"
)

// SizeChart is body measurements for each size, smallest size first.
type SizeChart struct {
	ID, Name string
	Measures []Measure // the columns, in the order shown
	Sizes    []ChartSize
	Source   string // where the numbers come from
	Status   string // how far they were checked
}

// ChartSize is one row of a chart; Body holds mm and may lack a measure.
type ChartSize struct {
	Name string // "48"
	Alt  string // second name, such as a girth code; may be empty
	Body map[Measure]float64
}

// Place is the index of the size with that name or second name, ignoring case
// and spaces around it; false when the chart has none.
func (c SizeChart) Place(size string) (int, bool) {
	size = strings.TrimSpace(size)
	for i, s := range c.Sizes {
		if strings.EqualFold(s.Name, size) {
			return i, true
		}
	}
	for i, s := range c.Sizes {
		if s.Alt != "" && strings.EqualFold(s.Alt, size) {
			return i, true
		}
	}
	return 0, false
}

// Has reports whether every size of the chart has measure m; Steps always.
func (c SizeChart) Has(m Measure) bool {
	if m == Steps {
		return true
	}
	for _, s := range c.Sizes {
		if _, ok := s.Body[m]; !ok {
			return false
		}
	}
	return len(c.Sizes) > 0
}

// At is measure m at a place on the chart in mm (for Steps: the place itself),
// straight between two neighbouring sizes. It is false beyond the chart's ends
// and for a measure the chart lacks there.
func (c SizeChart) At(place float64, m Measure) (float64, bool) {
	if math.IsNaN(place) || place < 0 || place > float64(len(c.Sizes)-1) {
		return 0, false
	}
	if m == Steps {
		return place, true
	}
	i := int(place)
	a, ok := c.Sizes[i].Body[m]
	if !ok || place == float64(i) {
		return a, ok
	}
	b, ok := c.Sizes[i+1].Body[m]
	return a + (place-float64(i))*(b-a), ok
}

// NameAt names a place: "48" on a size, "46 1/2" half way to the next, else
// "46 + 0.3" with one decimal.
func (c SizeChart) NameAt(place float64) string {
	i := int(math.Floor(place + 1e-9))
	if i < 0 || i >= len(c.Sizes) {
		return ""
	}
	f := place - float64(i)
	switch {
	case math.Abs(f) < 1e-6:
		return c.Sizes[i].Name
	case math.Abs(f-0.5) < 1e-6:
		return c.Sizes[i].Name + " 1/2"
	}
	return c.Sizes[i].Name + " + " + words.Figure(f, 1)
}

// Beyond is At carried on past the chart's ends by its first or last step. It
// is false for a measure the chart lacks there.
func (c SizeChart) Beyond(place float64, m Measure) (float64, bool) {
	last := len(c.Sizes) - 1
	switch {
	case math.IsNaN(place) || last < 0:
		return 0, false
	case m == Steps:
		return place, true
	case place < 0:
		return c.carried(0, min(1, last), place, m)
	case place > float64(last):
		return c.carried(last, max(0, last-1), place, m)
	}
	return c.At(place, m)
}

// carried goes on straight from size i, away from its neighbour j.
func (c SizeChart) carried(i, j int, place float64, m Measure) (float64, bool) {
	a, okA := c.Sizes[i].Body[m]
	b, okB := c.Sizes[j].Body[m]
	if i == j {
		return a, okA
	}
	return a + (place-float64(i))*(b-a)/float64(j-i), okA && okB
}

// PlaceOf is where on the chart a measure of v mm lies, straight between two
// sizes and carried on past the chart's ends by its first or last step. It is
// false for a measure the chart lacks or that does not grow from size to size.
func (c SizeChart) PlaceOf(m Measure, v float64) (float64, bool) {
	last := len(c.Sizes) - 1
	if math.IsNaN(v) || math.IsInf(v, 0) || last < 1 || m == Steps || !c.Has(m) {
		return 0, false
	}
	i := 0
	for i+1 < last && v > c.Sizes[i+1].Body[m] {
		i++
	}
	a, b := c.Sizes[i].Body[m], c.Sizes[i+1].Body[m]
	if b <= a {
		return 0, false
	}
	return float64(i) + (v-a)/(b-a), true
}
