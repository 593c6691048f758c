package propose

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
)

// inGerman is what the pieces and edges of the garments are called on German
// patterns (trade usage, from memory).
var inGerman = map[string]string{
	"Front bodice": "Vorderes Oberteil", "Back bodice": "Rückenteil", "front skirt": "Vorderrock", "back skirt": "Rückwärtiger Rock",
	"Front": "Vorderteil", "Back": "Rückenteil", "Side front": "Seitliches Vorderteil", "Back yoke": "Rückenpasse",
	"Waistband": "Rockbund", "Collar": "Kragen", "Collar stand": "Kragensteg", "Trouser front": "Vorderhose", "Trouser back": "Hosenrückenteil",
	"Front lining": "Vorderteilfutter", "Front interfacing": "Vorderteil, Einlage", "Pocket": "Aufgesetzte Tasche", "Belt loop": "Gürtelschlaufe",
	"A": "Teil 1", "B": "Teil 2",
	"waistline": "Taillenlinie", "side seam": "Seitennaht", "hem": "Saum", "centre front": "vordere Mitte", "centre back": "hintere Mitte",
	"neckline": "Halsausschnitt", "shoulder": "Schulter", "armhole": "Armausschnitt", "waist seam": "Taillennaht", "princess seam": "Wiener Naht",
	"yoke seam": "Passennaht", "neck edge": "Halskante", "outer edge": "Außenkante", "upper edge": "obere Kante", "lower edge": "untere Kante",
	"waist edge": "Taillenkante", "fold line": "Bruchlinie", "stand edge": "Stegkante", "right end": "rechtes Ende", "left end": "linkes Ende",
	"outseam": "äußere Beinnaht", "inseam": "innere Beinnaht", "crotch": "Schrittnaht",
	"side seam 2": "Seitennaht 2", "side seam 3": "Seitennaht 3", "side seam 4": "Seitennaht 4",
	"edge 1": "Kante 1", "edge 2": "Kante 2", "edge 3": "Kante 3", "edge 4": "Kante 4", "": "",
}

// A garment whose parts have German names is put together as one in English,
// umlauts written as such or written out.
func TestGermanGarments(t *testing.T) {
	written := strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss")
	for name, g := range garments() {
		for _, as := range []func(string) string{strings.Clone, written.Replace, strings.ToUpper} {
			other := garment{want: slices.Clone(g.want)}
			for _, q := range g.pieces {
				other.pieces = append(other.pieces, german(t, q, as))
			}
			other.check(t, name+", in German")
		}
	}
}

// german is a piece with German names, the IDs kept.
func german(t *testing.T, q model.Piece, as func(string) string) model.Piece {
	t.Helper()
	say := func(name string) string {
		said, ok := inGerman[name]
		if !ok {
			t.Fatalf("no German for %q", name)
		}
		return as(said)
	}
	q.Name, q.Edges = say(q.Name), slices.Clone(q.Edges)
	for j := range q.Edges {
		q.Edges[j].Name = say(q.Edges[j].Name)
	}
	return q
}

// German names are read as the English ones of TestNamesAreRead.
func TestGermanNamesAreRead(t *testing.T) {
	for name, want := range map[string]struct {
		sort  sort
		layer layer
		half  string
	}{
		"Vorderteil":                     {body, cloth, "front"},
		"Vorderes Oberteil":              {body, cloth, "front"},
		"Rückenteil, 1x zuschneiden":     {body, cloth, "back"},
		"SEITLICHES RÜCKENTEIL":          {body, cloth, "back"},
		"Vorderer Halsausschnittbeleg":   {odd, facing, "front"},
		"Kragen, Einlage":                {collar, inside, ""},
		"Ärmelfutter":                    {sleeve, lining, ""},
		"Oberärmel":                      {sleeve, cloth, ""},
		"Unteraermel":                    {sleeve, cloth, ""},
		"Ärmelmanschette":                {cuff, cloth, ""},
		"Ärmelbündchen":                  {cuff, cloth, ""},
		"Manschette":                     {cuff, cloth, ""},
		"Stehkragen":                     {collar, cloth, ""},
		"Halsbündchen":                   {collar, cloth, ""},
		"Hosenbund":                      {waistband, cloth, ""},
		"Bund":                           {waistband, cloth, ""},
		"Rückenpasse":                    {yokePiece, cloth, "back"},
		"Rückwärtige Hose":               {lower, cloth, "back"},
		"Vordere Rockbahn":               {lower, cloth, "front"},
		"Aufgesetzte Tasche":             {odd, cloth, ""},
		"Gürtelschlaufen":                {odd, cloth, ""},
		"Vorder- und Rückenteil":         {body, cloth, ""},
		"Vorderteil im Stoffbruch":       {body, cloth, "front"},
		"Beleg für den Halsausschnitt":   {odd, facing, ""},
		"Teil 4":                         {odd, cloth, ""},
		"Vorderer und hinterer Rockbund": {waistband, cloth, ""},
	} {
		if s, l, h := sortOf(name), layerOf(name), half(name); l != want.layer || h != want.half || s != want.sort && want.layer != facing {
			t.Errorf("%s: %q, %q, %q; want %v", name, s, l, h, want)
		}
	}
	for name, e := range map[string]struct {
		on   sort
		want role
	}{
		"Schulternaht":               {body, shoulder},
		"Halslinie":                  {body, neck},
		"Halsausschnitt":             {body, neck},
		"Armloch":                    {body, armhole},
		"Seitennaht 4":               {body, side},
		"Seitennaht über der Taille": {body, side},
		"Taillenkante":               {body, waist},
		"Rückenmitte":                {body, fold},
		"Stoffbruch":                 {body, fold},
		"Außenkante":                 {body, free},
		"Ärmelkugel":                 {sleeve, sleeveCap},
		"vordere Armkugel":           {sleeve, sleeveCap},
		"linke Ärmelnaht":            {sleeve, armSeam},
		"Unterarmnaht":               {sleeve, armSeam},
		"Ärmelsaum":                  {sleeve, hem},
		"Handgelenk":                 {sleeve, hem},
		"Beinaußennaht":              {lower, side},
		"Wiener Naht":                {body, unknown},
		"Abnäherkappe":               {body, dartCap},
	} {
		if got := roleOf(model.Edge{Name: name}, e.on); got != e.want {
			t.Errorf("%s on a %s: %q, want %q", name, e.on, got, e.want)
		}
	}
}
