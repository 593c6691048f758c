package sizechart

import (
	"quarterstep/assets/words"
	"quarterstep/model"
)

// chartTexts are the names, sources and states of the built-in charts as their
// files have them, for translating.
var chartTexts = []words.Text{
	"ASTM D5585 misses",
	"ASTM D5585-11e1, Table 1 (inch-pound), misses 00 to 20. Waist is that of the curvy figure; \"waist straight\" that of the straight one. Neck is at its base.",
	"published, seen in a stored copy; hip and lengths were cut off in that copy and are not given",
	"EN 13402-3 women",
	"EN 13402-3, women: bust, waist and hip girth of each code. The code is the bust girth in cm. The sizes 32 to 62 are the usual European numbers.",
	"bust: published, seen in a stored copy up to 131 cm; waist and hip, and bust above that: from memory, unverified; size numbers: common practice",
	"US misses, home sewing",
	"The sizing US home-sewing patterns have shared since 1968, misses, as printed in a sewing teacher's chart of 2011.",
	"sizes 6 to 20: published, seen in a stored copy; sizes 22 and 24: from memory, unverified",
}

// said is a built-in chart with its texts in the language in use.
func said(c model.SizeChart) model.SizeChart {
	c.Name, c.Source, c.Status = words.T(c.Name), words.T(c.Source), words.T(c.Status)
	return c
}
