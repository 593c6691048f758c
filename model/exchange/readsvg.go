package exchange

import (
	"io"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// ReadSVG reads a drawn nest; what it must look like is told in the package's
// own words. A file that cannot be used gives an Unusable error and an empty
// Sheet.
func ReadSVG(r io.Reader, chart model.SizeChart) (Sheet, error) { return read(r, chart, "") }

// ReadOneSize reads a drawing of a pattern printed in one size, which no layer
// needs to name: what ReadSVG finds no sizes in is all of that size.
func ReadOneSize(r io.Reader, chart model.SizeChart, size string) (Sheet, error) {
	i, ok := chart.Place(size)
	if !ok {
		return Sheet{}, unusable(words.F("The chart %s has no size %s. Choose one of its sizes.", chart.Name, shorten(size)))
	}
	return read(r, chart, chart.Sizes[i].Name)
}

// read reads a drawing; where no layer names a size, all of it is of size one,
// or without that cannot be used.
func read(r io.Reader, chart model.SizeChart, one string) (Sheet, error) {
	if len(chart.Sizes) == 0 {
		return Sheet{}, unusable(words.T("There is no size chart to read this drawing by. Choose a size chart first."))
	}
	root, err := readTree(r)
	if err != nil {
		return Sheet{}, err
	}
	vp, sure, err := rootViewport(root)
	if err != nil {
		return Sheet{}, err
	}
	w := &walker{chart: chart, byID: map[string]*element{}, read: map[string][]string{}}
	w.index(root)
	if err := w.kids(root, place{vp: vp}); err != nil {
		return Sheet{}, err
	}
	if w.sizes == 0 {
		if one == "" {
			return Sheet{}, noSizes(w, chart)
		}
		for i := range w.runs {
			w.runs[i].sizes = []string{one}
		}
	}
	sheet, err := sortOut(w.runs, chart)
	if err != nil {
		return Sheet{}, err
	}
	for i := range sheet.Pieces {
		o := &sheet.Pieces[i].Outlines[0]
		if o.Size == "" && one == "" {
			return Sheet{}, unusable(words.T("The layers of sizes in this drawing hold no piece. Put each size's closed lines into its layer, and bring it in again."))
		}
		if o.Size == "" {
			o.Size = one
		}
	}
	if !sure {
		sheet.Warnings = append([]string{words.T("This drawing does not say how large it is on paper, so 96 of its units were taken as an inch. Check one measure before cutting.")}, sheet.Warnings...)
	}
	for _, size := range w.hidden {
		sheet.Warnings = append(sheet.Warnings, words.F("The layer of size %s is hidden and was left out.", size))
	}
	for _, name := range w.odd {
		sheet.Warnings = append(sheet.Warnings, words.F("The layer “%s” is no size of the chart and was left out.", shorten(name)))
	}
	return sheet, nil
}

func noSizes(w *walker, chart model.SizeChart) error {
	if len(w.runs) == 0 && len(w.hidden) == 0 && len(w.groups) == 0 {
		return unusable(words.T("There are no lines in this drawing. Open it in the program that made it, see that the pattern is in it, save it as plain SVG and bring it in again."))
	}
	if len(w.hidden) > 0 {
		return unusable(words.F("The size layers of this drawing (%s) are hidden. Show them, save it and bring it in again.", strings.Join(w.hidden, ", ")))
	}
	names := chart.Name
	if names == "" {
		names = chart.ID
	}
	found := ""
	if groups := slices.Compact(w.groups); len(groups) > 0 {
		var q []string
		for _, g := range groups[:min(3, len(groups))] {
			q = append(q, "“"+shorten(g)+"”")
		}
		found = strings.Join(q, ", ")
	}
	var some []string
	for _, s := range chart.Sizes[:min(3, len(chart.Sizes))] {
		some = append(some, s.Name)
	}
	label := strings.Join(some, ", ")
	if found == "" {
		return unusable(words.F("No group in this drawing is named after a size of the chart %s. Name each size's layer %s or another size of that chart, or choose the chart the pattern was drawn for.", names, label))
	}
	return unusable(words.F("No group in this drawing is named after a size of the chart %s: found %s. Name each size's layer %s or another size of that chart, or choose the chart the pattern was drawn for.", names, found, label))
}
