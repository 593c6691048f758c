package sizechart

import "quarterstep/model/glossary"

// inGerman is what German charts call the columns and the lines at the top, umlauts written
// out: as in German size tables (trade usage, from memory).
//
// words: none
var inGerman = map[string]string{
	"groesse": sizeCol, "gr.": sizeCol, "gr": sizeCol, "konfektionsgroesse": sizeCol,
	"zweitname": codeCol, "kurzname": codeCol, "kuerzel": codeCol,
	"oberweite": "bust", "brustumfang": "bust", "brust": "bust", "brustweite": "bust",
	"taille": "waist", "taillenumfang": "waist", "taillenweite": "waist", "bundweite": "waist",
	"huefte": "hip", "hueftumfang": "hip", "hueftweite": "hip", "gesaessweite": "hip",
	"rueckenlaenge": "back waist length", "rueckenlaenge bis taille": "back waist length",
	"oberarm": "upper arm", "oberarmumfang": "upper arm", "oberarmweite": "upper arm",
	"hals": "neck", "halsumfang": "neck", "halsweite": "neck",
	"schulter": "shoulder", "schulterbreite": "shoulder", "schulterlaenge": "shoulder",

	"quelle": "source", "stand": "status", "einheit": "unit", "zoll": "in",
}

// english is the English name of a column or a line at the top, where the chart
// has its German one; else the name as it is, in lower case.
func english(name string) string {
	if known, ok := inGerman[glossary.Plain(name)]; ok {
		return known
	}
	return name
}
