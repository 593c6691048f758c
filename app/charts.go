package app

import (
	"os"
	"path/filepath"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/sizechart"
)

// Charts are the built-in size charts.
func Charts() []model.SizeChart { return sizechart.Builtin() }

// Chart is the built-in chart with that id, or the chart in a CSV file.
func Chart(idOrFile string) (model.SizeChart, error) {
	if c, ok := sizechart.ByID(idOrFile); ok {
		return c, nil
	}
	f, err := os.Open(idOrFile)
	if err != nil {
		if !strings.EqualFold(filepath.Ext(idOrFile), ".csv") {
			return model.SizeChart{}, words.Errorf("there is no size chart %q; the built-in ones are %s", idOrFile, chartIDs())
		}
		return model.SizeChart{}, plainFile(idOrFile, err)
	}
	defer f.Close()
	name := filepath.Base(idOrFile)
	c, err := sizechart.Read(f, strings.TrimSuffix(name, filepath.Ext(name)))
	if err != nil {
		return model.SizeChart{}, plainFile(idOrFile, err)
	}
	return c, nil
}

func chartIDs() string {
	var ids []string
	for _, c := range Charts() {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, ", ")
}
