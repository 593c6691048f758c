package main

import (
	"cmp"
	"encoding/json"
	"io"

	"quarterstep/app/paper"
)

// The fields of straighten --json; see straightenHelp.
type (
	flatOut struct {
		Pictures []pictureOut `json:"pictures"`
		From     [2]float64   `json:"from"`
		PerMM    float64      `json:"per_mm"`
		SizeMM   [2]float64   `json:"size_mm"`
	}
	pictureOut struct {
		Name   string     `json:"name"`
		Says   []string   `json:"says"`
		Points int        `json:"points"`
		Lens   lensOut    `json:"lens"`
		H      [9]float64 `json:"h"`
	}
	lensOut struct {
		K1     float64    `json:"k1"`
		Centre [2]float64 `json:"centre"`
		Scale  float64    `json:"scale"`
	}
)

func flatJSON(out io.Writer, parts []paper.Part, says [][]string, flat paper.Flat) error {
	w, h := flat.Size()
	o := flatOut{From: [2]float64{flat.From.X, flat.From.Y}, PerMM: flat.PerMM, SizeMM: [2]float64{w, h}}
	for i, p := range parts {
		m := p.Straight.Map
		o.Pictures = append(o.Pictures, pictureOut{
			Name: p.Photo.Name, Says: says[i], Points: p.Straight.Points, H: m.H,
			Lens: lensOut{m.Lens.K1, [2]float64{m.Lens.Centre.X, m.Lens.Centre.Y}, cmp.Or(m.Lens.Scale, 1)},
		})
	}
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	return enc.Encode(o)
}
