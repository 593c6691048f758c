package exchange

import (
	"regexp"
	"slices"
	"sort"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// longestLabel is how many bytes a label of sizes may have: far above any that
// a sewist writes.
const longestLabel = 200

// joint is what may stand between two sizes of a label.
var joint = regexp.MustCompile(`^\s*(?:[/,;+&|_–—-]|and|to|und|bis|\s)\s*`)

// isRange tells the joints that take in the sizes between.
var isRange = regexp.MustCompile(`[–—-]|to|bis`)

// allSizes are the labels of what is the same in every size, as words.
//
// words: none
var allSizes = []string{"all sizes", "every size", "any size", "one size"}

// saysAllSizes reports whether a label says that its lines serve every size.
func saysAllSizes(label string) bool {
	return slices.Contains(allSizes, strings.Join(wordsOf(label), " "))
}

// sizesNamed is the sizes of the chart that a label names, smallest first and
// by their first names: one, or several that share a line ("38/40", "38, 40",
// "38 & 40"; "36-42" takes in those between). A label that is anything else
// names none.
func sizesNamed(label string, chart model.SizeChart) []string {
	label = bareSize(label)
	if len(label) > longestLabel {
		return nil
	}
	if i, ok := chart.Place(label); ok {
		return []string{chart.Sizes[i].Name}
	}
	r := newLabelReader(label, chart)
	named, ok := r.from(0)
	if !ok {
		return nil
	}
	return namesAt(named, chart)
}

// namesAt is the sizes a label names, each once, in the chart's order.
func namesAt(named []namedSize, chart model.SizeChart) []string {
	in := make([]bool, len(chart.Sizes))
	for k, n := range named {
		in[n.place] = true
		if k == 0 || !n.rangeTo {
			continue
		}
		a, b := named[k-1].place, n.place
		for i := min(a, b); i <= max(a, b); i++ {
			in[i] = true
		}
	}
	var out []string
	for i, s := range chart.Sizes {
		if in[i] {
			out = append(out, s.Name)
		}
	}
	return out
}

// namedSize is a size met in a label; rangeTo: with all from the one before.
type namedSize struct {
	place   int
	rangeTo bool
}

// labelReader takes a label apart into names of sizes and joints. Names may
// hold joints themselves ("S/M"), so longer ones are tried first, and a way
// that leads nowhere is given up.
type labelReader struct {
	text string
	keys []labelKey
	dead map[int]bool // places from which the rest cannot be read
}

type labelKey struct {
	text  string
	place int
}

func newLabelReader(label string, chart model.SizeChart) *labelReader {
	r := &labelReader{text: strings.ToLower(label), dead: map[int]bool{}}
	for _, second := range []bool{false, true} {
		for i, s := range chart.Sizes {
			name := s.Name
			if second {
				name = s.Alt
			}
			if name = strings.ToLower(strings.TrimSpace(name)); name != "" {
				r.keys = append(r.keys, labelKey{name, i})
			}
		}
	}
	sort.SliceStable(r.keys, func(a, b int) bool { return len(r.keys[a].text) > len(r.keys[b].text) })
	return r
}

// from reads the label from place i of its text to its end.
func (r *labelReader) from(i int) ([]namedSize, bool) {
	if r.dead[i] {
		return nil, false
	}
	for _, k := range r.keys {
		rest, ok := strings.CutPrefix(r.text[i:], k.text)
		if !ok {
			continue
		}
		if rest == "" {
			return []namedSize{{place: k.place}}, true
		}
		between := joint.FindString(rest)
		if between == "" {
			continue
		}
		if more, ok := r.from(len(r.text) - len(rest) + len(between)); ok {
			more[0].rangeTo = isRange.MatchString(between)
			return append([]namedSize{{place: k.place}}, more...), true
		}
	}
	r.dead[i] = true
	return nil, false
}

// sizeWords are "sizes" and "size" in every language, longer ones first.
var sizeWords = []string{"sizes", "size", "größen", "größe", "groessen", "groesse", "grössen", "grösse", "gr."}

// bareSize takes the word "size" or "sizes" and what joins it off a layer's
// name; ids cannot begin with a digit, so they may begin with a bare joint
// instead.
func bareSize(name string) string {
	s := strings.TrimSpace(name)
	for _, word := range sizeWords {
		if len(s) > len(word) && strings.EqualFold(s[:len(word)], word) {
			s = s[len(word):]
			break
		}
	}
	return strings.TrimLeft(s, " -_:.")
}

// otherSizes is a label of numbers that are no sizes of the chart.
var otherSizes = regexp.MustCompile(`^\d+(?:[\s/,;+&|_–—-]+\d+)*$`)

// sizeLabel is how sizes that share a line are written: "38/40".
func sizeLabel(sizes []string) string {
	if len(sizes) == 0 {
		return words.T("all sizes")
	}
	return strings.Join(sizes, "/")
}

// shareSize reports whether two lines are drawn for a common size; a line
// without sizes serves all.
func shareSize(a, b []string) bool {
	if len(a) == 0 || len(b) == 0 {
		return true
	}
	return slices.ContainsFunc(a, func(s string) bool { return slices.Contains(b, s) })
}
