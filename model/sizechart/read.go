package sizechart

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// What a chart may have at most: far more than any chart does, little enough
// to read at once.
const (
	maxBytes  = 1 << 20
	maxSizes  = 200
	maxCols   = 60
	maxCell   = 300    // bytes of a cell or of the chart's name
	maxWords  = 10_000 // bytes of its source or status
	longestMM = 10_000 // of one body measure
)

// Read reads a chart and gives it the ID id. The format is in the package's
// description.
func Read(r io.Reader, id string) (model.SizeChart, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err == nil {
		var c model.SizeChart
		if c, err = read(data, id); err == nil {
			return c, nil
		}
	}
	return model.SizeChart{}, words.Errorf("reading size chart %s: %w", id, err)
}

func read(data []byte, id string) (model.SizeChart, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	switch {
	case len(data) > maxBytes:
		return model.SizeChart{}, words.Error("the file is too long to be a size chart")
	case !utf8.Valid(data):
		return model.SizeChart{}, words.Error("the file is not plain text; save it as CSV in UTF-8")
	}
	h, err := readHead(data)
	if err != nil {
		return model.SizeChart{}, err
	}
	if len(h.name) > maxCell || max(len(h.source), len(h.status)) > maxWords {
		return model.SizeChart{}, words.Error("its name, source or status is longer than any; shorten it")
	}
	t := table{chart: model.SizeChart{ID: id, Name: h.name, Source: h.source, Status: h.status}, unit: h.unit}
	if t.chart.Name == "" {
		t.chart.Name = id
	}
	in := csv.NewReader(bytes.NewReader(data))
	in.Comma, in.Comment = separator(data), '#'
	in.FieldsPerRecord, in.LazyQuotes = -1, true
	for {
		row, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return model.SizeChart{}, err
		}
		line, _ := in.FieldPos(0)
		if err := t.add(row, line); err != nil {
			return model.SizeChart{}, words.Errorf("row %d%w", line, err)
		}
	}
	if len(t.chart.Sizes) == 0 {
		return model.SizeChart{}, words.Error("it has no sizes: under the row that names the columns, give each size a row")
	}
	return t.chart, nil
}

// head is what the lines with # say.
type head struct {
	name, source, status string
	unit                 measure.Unit
}

func readHead(data []byte) (head, error) {
	var h head
	for line := range strings.Lines(string(data)) {
		said, is := strings.CutPrefix(strings.TrimSpace(line), "#")
		key, value, has := strings.Cut(said, ":")
		if !is || !has {
			continue
		}
		value = strings.Trim(value, " \t;,") // a table program may pad the line with empty cells
		switch english(strings.ToLower(strings.TrimSpace(key))) {
		case "name":
			h.name = value
		case "source":
			h.source = value
		case "status":
			h.status = value
		case "unit":
			h.unit = measure.Unit(english(strings.ToLower(value)))
		}
	}
	switch h.unit {
	case measure.Centimetres, measure.Inches, measure.Millimetres:
		return h, nil
	case "":
		return h, words.Error(`it does not say its unit: put a line "# unit: cm" (or in, or mm) at the top`)
	}
	return h, words.Errorf("the unit %q is not known: it is cm, in or mm", h.unit)
}

// separator is what sets the columns apart: whichever of tab, semicolon and
// comma the row of names has.
func separator(data []byte) rune {
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		for _, s := range "\t;" {
			if strings.ContainsRune(line, s) {
				return s
			}
		}
		break
	}
	return ','
}
