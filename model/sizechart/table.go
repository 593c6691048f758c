package sizechart

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// table takes the rows of a chart one by one.
type table struct {
	chart model.SizeChart
	unit  measure.Unit
	names []string       // the columns' names; nil before the first row
	taken map[string]int // names and second names, to the row they stand in
}

const (
	sizeCol = "size"
	codeCol = "code"
)

// add takes a row that stands in that line of the file. Its errors go on after
// the words "row 7".
func (t *table) add(row []string, line int) error {
	for i := range row {
		if row[i] = strings.TrimSpace(row[i]); len(row[i]) > maxCell {
			return words.Errorf(", column %d: “%s…” is longer than any name or measure", i+1, strings.ToValidUTF8(row[i][:30], ""))
		}
	}
	for len(row) > 0 && row[len(row)-1] == "" {
		row = row[:len(row)-1]
	}
	switch {
	case len(row) == 0:
		return nil
	case t.names == nil:
		return t.addNames(row)
	case len(row) > len(t.names):
		return words.Errorf(": it has %d cells, but only %d columns have a name", len(row), len(t.names))
	case len(t.chart.Sizes) == maxSizes:
		return words.Errorf(": a chart has at most %d sizes", maxSizes)
	}
	return t.addSize(row, line)
}

func (t *table) addNames(row []string) error {
	if len(row) > maxCols {
		return words.Errorf(": a chart has at most %d columns", maxCols)
	}
	seen := map[string]bool{}
	for i, name := range row {
		name = english(strings.ToLower(strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '_' }), " ")))
		switch {
		case name == "":
			return words.Errorf(", column %d: the column has no name", i+1)
		case seen[name]:
			return words.Errorf(", column %d: there are two columns %q", i+1, name)
		case name == string(model.Steps):
			return words.Errorf(", column %d: %q cannot be a body measure: it is the size's place in the chart", i+1, name)
		}
		seen[name] = true
		t.names = append(t.names, name)
		if name != sizeCol && name != codeCol {
			t.chart.Measures = append(t.chart.Measures, model.Measure(name))
		}
	}
	switch {
	case !seen[sizeCol]:
		return words.Errorf(`: one column must be named "size", and these are %s`, strings.Join(t.names, ", "))
	case len(t.chart.Measures) == 0:
		return words.Error(`: it names no body measures, such as "bust"`)
	}
	t.taken = map[string]int{}
	return nil
}

func (t *table) addSize(row []string, line int) error {
	s := model.ChartSize{Body: map[model.Measure]float64{}}
	for i, cell := range row {
		switch name := t.names[i]; {
		case cell == "":
		case name == sizeCol:
			s.Name = cell
		case name == codeCol:
			s.Alt = cell
		default:
			l, err := measure.Parse(cell, t.unit)
			if err != nil {
				return words.Errorf(", column %s: %q is not a length like 66.5 or 26 1/2", name, cell)
			}
			mm := l.MM()
			if mm <= 0 || mm > longestMM {
				return words.Errorf(", column %s: %s is no body measure", name, cell)
			}
			s.Body[model.Measure(name)] = mm
		}
	}
	if s.Name == "" {
		return words.Error(": the size has no name")
	}
	if strings.EqualFold(s.Alt, s.Name) {
		s.Alt = ""
	}
	for _, n := range []string{s.Name, s.Alt} {
		key := strings.ToLower(n)
		if n == "" {
			continue
		}
		if at, ok := t.taken[key]; ok {
			return words.Errorf(": the size %s is in row %d already", n, at)
		}
		t.taken[key] = line
	}
	t.chart.Sizes = append(t.chart.Sizes, s)
	return nil
}
