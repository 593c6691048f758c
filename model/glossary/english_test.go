package glossary

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Names as German patterns have them (trade usage, from memory) and what they
// say.
func TestGermanNames(t *testing.T) {
	for name, want := range map[string]string{
		"Vorderteil":                    "front",
		"Vorderes Oberteil":             "front bodice",
		"Rückenteil":                    "back",
		"Rueckenteil":                   "back",
		"RÜCKENTEIL":                    "back",
		"Ru\u0308ckenteil":              "back",
		"Hinteres Oberteil":             "back bodice",
		"Vorderrock":                    "front skirt",
		"Rockvorderteil":                "skirt front",
		"Rückwärtiger Rock":             "back skirt",
		"Vorderhose":                    "front trouser",
		"Hosenrückenteil":               "trouser back",
		"Seitliches Vorderteil":         "side front",
		"Vorderes Seitenteil":           "front side",
		"Ärmel":                         "sleeve",
		"Aermel":                        "sleeve",
		"Oberärmel":                     "upper sleeve",
		"Ärmelmanschette":               "sleeve cuff",
		"Manschetten":                   "cuffs",
		"Ärmelbündchen":                 "sleeve band",
		"Kragen":                        "collar",
		"Bubikragen":                    "bubi collar",
		"Unterkragen":                   "undercollar",
		"Kragensteg":                    "collar stand",
		"Stehkragen":                    "collar",
		"Rückenpasse":                   "back yoke",
		"Hosenbund":                     "trouser waistband",
		"Rockbund":                      "skirt waistband",
		"Vorderer Beleg":                "front facing",
		"Halsausschnittbeleg":           "neckline facing",
		"Vorderteilfutter":              "front lining",
		"Futter Rückenteil":             "lining back",
		"Kragen, Einlage":               "collar, interfacing",
		"Aufgesetzte Tasche":            "aufgesetzte pocket",
		"Taschenklappe":                 "pocket flap",
		"Gürtelschlaufen":               "belt loop",
		"Rückenteil im Stoffbruch":      "back on the fold",
		"Vordere Mitte":                 "centre front",
		"hintere Mitte":                 "centre back",
		"Rückenmitte":                   "centre back",
		"Hintere Mittelnaht":            "centre back seam",
		"Seitennaht 2":                  "side seam 2",
		"Seitennaht über der Taille":    "side seam above waist",
		"Seitennaht unter der Taille":   "side seam below waist",
		"Schulternaht":                  "shoulder seam",
		"Armausschnitt":                 "armhole",
		"Halsausschnitt":                "neckline",
		"Teil 1":                        "piece 1",
		"Kante 3":                       "edge 3",
		"vordere Kugel":                 "front cap",
		"linke Ärmelnaht":               "left sleeve seam",
		"Ärmelsaum":                     "sleeve hem",
		"Innere Beinnaht":               "inseam",
		"Wiener Naht":                   "princess seam",
		"Taille Mitte":                  "centre waist",
		"Saum Seite":                    "hem side",
		"Saum Mitte":                    "centre hem",
		"Fuß des V-Ausschnitts":         "foot of the v",
		"V-Ausschnitt":                  "v neckline",
		"Schulter außen":                "outer shoulder",
		"Übertritt oben":                "stand top",
		"Achsel vorn":                   "front underarm",
		"vordere Mitte am Hals":         "centre front neck",
		"Seite über dem Abnäher":        "side above dart",
		"obere Hälfte der Abnäherkappe": "upper half dart cap",
		"Halspunkt":                     "neck point",
		"Schulterpunkt":                 "shoulder tip",
		"vorderer Unterarmpunkt":        "front underarm",
		"linkes Handgelenk":             "left wrist",
		"Taillenabnäher":                "waist dart",
		"Brustabnaeher":                 "bust dart",
		"Fadenlauf":                     "grain",
		"Hier verlängern oder kürzen":   "here lengthen or shorten",
		"Vorder- und Rückenteil":        "front- and back",
		"Front und Rücken":              "front and back",
	} {
		if got := English(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// English names are only put in lower case: no English sewing word reads as a
// German one.
func TestEnglishNamesStay(t *testing.T) {
	for _, name := range []string{
		"Front", "Back bodice, cut 1", "SIDE-FRONT", "Front neck facing", "Collar interfacing", "Sleeve lining", "Under sleeve", "Top sleeve",
		"Waistband", "Back yoke", "Trouser back", "Patch pocket", "Belt loops", "Fly facing", "Tabard front", "Piece 4", "Cummerbund", "Pantyhose",
		"Bow tie", "Frill", "Hood", "Gusset", "Placket", "Binding", "Culottes", "Shorts", "Leg", "Panel", "Gore", "Lapel", "Apron bib",
		"Shoulder by the neck", "Armscye", "lower half of the dart cap", "centre front", "front centre", "centre neck", "neck point", "shoulder tip",
		"underarm", "side waist", "side hem", "crown", "left underarm seam 2", "wrist", "outseam", "inseam", "princess seam", "crotch", "rise",
		"waistline", "hipline", "bust line", "grainline", "notch", "lengthen or shorten here", "fold", "sleeve head", "stand top", "Foot of the V",
		"in the seam", "Die cut", "an edge", "Raglan sleeve", "Kimono", "Bust dart", "Insert", "Ease line", "Interlining", "Passementerie",
	} {
		if got := English(name); got != strings.ToLower(name) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// Whatever is read is read to the end, and a name read once reads the same
// again when it has no German word left.
func TestAnyName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringOf(rapid.RuneFrom([]rune("abdeikmnorstuäöüÄÖÜß -,3"))).Draw(t, "name")
		got := English(name)
		if strings.ToLower(got) != got {
			t.Fatalf("%q: %q is not in lower case", name, got)
		}
		if folded := English(umlauts.Replace(strings.ToLower(name))); Plain(folded) != Plain(got) {
			t.Fatalf("%q reads %q, with umlauts written out %q", name, got, folded)
		}
	})
}
