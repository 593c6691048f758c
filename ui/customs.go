package ui

import (
	"slices"
	"strings"

	"github.com/jeandeaual/go-locale"

	"quarterstep/model"
)

// customs are what is usual where she is, as long as she has chosen nothing else.
type customs struct {
	paper string     // the sheet of home printers
	unit  model.Unit // of a new pattern
}

// atHome is A4 and centimetres until GoByRegion is told otherwise.
var atHome = customs{paper: "A4", unit: model.Centimetres}

// letterRegions are those whose home printers hold US Letter, by the Unicode CLDR's
// supplemental data (paperSize "US-Letter").
const letterRegions = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"

// inchRegions are those that measure in inches, by the same (measurementSystem "US").
const inchRegions = "LR US"

// GoByRegion has new patterns begin with what is usual in the system's region.
func GoByRegion() {
	if region, err := locale.GetRegion(); err == nil {
		atHome = customsOf(region)
	}
}

func customsOf(region string) customs {
	c := customs{paper: "A4", unit: model.Centimetres}
	region = strings.ToUpper(region)
	if slices.Contains(strings.Fields(letterRegions), region) {
		c.paper = "Letter"
	}
	if slices.Contains(strings.Fields(inchRegions), region) {
		c.unit = model.Inches
	}
	return c
}
