package sizechart

import (
	"bytes"
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"

	"quarterstep/assets"
	"quarterstep/model"
)

// Builtin is the charts that travel inside the program, by ID, their names and
// sources in the language in use.
func Builtin() []model.SizeChart {
	out := slices.Clone(builtin())
	for i, c := range out {
		out[i] = said(c)
	}
	return out
}

// ByID is the built-in chart with that ID, such as "us-misses"; false when
// there is none.
func ByID(id string) (model.SizeChart, bool) {
	for _, c := range builtin() {
		if c.ID == id {
			return said(c), true
		}
	}
	return model.SizeChart{}, false
}

// builtin reads the charts once. A chart of ours that cannot be read is a
// fault of the program, not of its user.
var builtin = sync.OnceValue(func() []model.SizeChart {
	var out []model.SizeChart
	files, err := assets.Charts.ReadDir("charts")
	for _, f := range files {
		var data []byte
		if data, err = assets.Charts.ReadFile(path.Join("charts", f.Name())); err != nil {
			break
		}
		var c model.SizeChart
		if c, err = Read(bytes.NewReader(data), strings.TrimSuffix(f.Name(), ".csv")); err != nil {
			break
		}
		out = append(out, c)
	}
	if err != nil {
		panic(fmt.Sprintf("a built-in size chart: %v", err))
	}
	return out
})
