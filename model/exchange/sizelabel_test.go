package exchange

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
)

// letterChart has sizes whose names hold joints themselves.
func letterChart() model.SizeChart {
	return model.SizeChart{Name: "letters", Sizes: []model.ChartSize{
		{Name: "XS"},
		{Name: "S"},
		{Name: "M"},
		{Name: "L"},
		{Name: "XL"},
		{Name: "2-3X", Alt: "4X"},
	}}
}

func TestLabelsOfSizes(t *testing.T) {
	for _, c := range []struct{ label, eu, letters string }{
		{"38", "38", ""},
		{"size 38", "38", ""},
		{"_38", "38", ""},
		{"88", "38", ""}, // a girth code
		{"38/40", "38 40", ""},
		{"38-40", "38 40", ""},
		{"38, 40", "38 40", ""},
		{"38+40", "38 40", ""},
		{"38 & 40", "38 40", ""},
		{"38 and 40", "38 40", ""},
		{"38 40", "38 40", ""},
		{"size-38_40", "38 40", ""},
		{"Sizes: 40 / 38", "38 40", ""},
		{"36-42", "36 38 40 42", ""},
		{"36 – 42", "36 38 40 42", ""},
		{"36 to 42", "36 38 40 42", ""},
		{"42-36", "36 38 40 42", ""},
		{"36/42", "36 42", ""},
		{"34, 38-42", "34 38 40 42", ""},
		{"38/38", "38", ""},
		{"36/38/40/42", "36 38 40 42", ""},
		{"S/M", "", "S M"},
		{"xs-l", "", "XS S M L"},
		{"XL/2-3x", "", "XL 2-3X"},
		{"XL-2-3X", "", "XL 2-3X"},
		{"L to 4X", "", "L XL 2-3X"},
		{"38/", "", ""},
		{"/38", "", ""},
		{"38//40", "", ""},
		{"38/39", "", ""},
		{"3840", "", ""},
		{"Pocket 38/40", "", ""},
		{"38-40 long", "", ""},
		{"", "", ""},
		{"size", "", ""},
		{strings.Repeat("38/", 100) + "38", "", ""},
	} {
		if got := strings.Join(sizesNamed(c.label, euChart()), " "); got != c.eu {
			t.Errorf("%q names the sizes %q of the numbered chart, want %q", c.label, got, c.eu)
		}
		if got := strings.Join(sizesNamed(c.label, letterChart()), " "); got != c.letters {
			t.Errorf("%q names the sizes %q of the lettered chart, want %q", c.label, got, c.letters)
		}
	}
	for label, want := range map[string]bool{
		"All sizes": true, "all-sizes": true, "ALL SIZES": true, "one size": true, "every size": true,
		"all": false, "38": false, "all sizes of the front": false, "": false,
	} {
		if saysAllSizes(label) != want {
			t.Errorf("%q says all sizes: %v", label, !want)
		}
	}
}

// Any set of sizes, written as a label or as an id, reads back.
func TestLabelsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom([]model.SizeChart{euChart(), usChart(), letterChart()}).Draw(t, "chart")
		in := rapid.SliceOfN(rapid.Bool(), len(c.Sizes), len(c.Sizes)).Draw(t, "in")
		var sizes []string
		for i, s := range c.Sizes {
			if in[i] {
				sizes = append(sizes, s.Name)
			}
		}
		if len(sizes) == 0 {
			return
		}
		label := sizeLabel(sizes)
		for _, l := range []string{label, "size " + label, "Sizes: " + label, "size-" + idText(label), strings.ReplaceAll(label, "/", " & ")} {
			if got := sizesNamed(l, c); !slices.Equal(got, sizes) {
				t.Fatalf("%q reads back as %q, want %q", l, got, sizes)
			}
		}
	})
}

// FuzzSizeLabel: whatever a label says, it names sizes of the chart in its
// order, each once, or none; and what it names reads back.
func FuzzSizeLabel(f *testing.F) {
	f.Add("36-42")
	f.Fuzz(func(t *testing.T, label string) {
		for _, c := range []model.SizeChart{euChart(), letterChart()} {
			sizes := sizesNamed(label, c)
			before := -1
			for _, s := range sizes {
				place, ok := c.Place(s)
				if !ok || place <= before || c.Sizes[place].Name != s {
					t.Fatalf("%q names %q", label, sizes)
				}
				before = place
			}
			if len(sizes) > 0 && !slices.Equal(sizesNamed(sizeLabel(sizes), c), sizes) {
				t.Fatalf("%q names %q, which does not read back", label, sizes)
			}
			if len(sizes) > 0 && saysAllSizes(label) {
				t.Fatalf("%q names %q and all sizes", label, sizes)
			}
		}
	})
}
