package sizechart

import (
	"reflect"
	"strings"
	"testing"
)

// A chart with German names of columns, saved as German table programs do it
// (semicolons, decimal commas), is the chart that the English names make.
func TestGermanChart(t *testing.T) {
	english := "# name: Wardrobe\n# source: own\n# status: checked\n# unit: cm\nsize,code,bust,waist,hip,back waist length,upper arm,neck,shoulder,inside leg\n36,S,84,68,92.5,41,27,36,12,78\n38,M,88,72,96.5,41.5,28,37,12.5,79\n"
	german := "# Name: Wardrobe\n# Quelle: own\n# Stand: checked\n# Einheit: cm\nGröße;Kürzel;Oberweite;Taille;Hüfte;Rückenlänge;Oberarm;Hals;Schulter;inside leg\n36;S;84;68;92,5;41;27;36;12;78\n38;M;88;72;96,5;41,5;28;37;12,5;79\n"
	want, err := Read(strings.NewReader(english), "own")
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{
		german,
		strings.NewReplacer("ö", "oe", "ü", "ue", "ß", "ss").Replace(german),
		strings.ToUpper(german[strings.Index(german, "Größe"):strings.Index(german, "36;")]),
	} {
		if !strings.HasPrefix(text, "#") {
			text = german[:strings.Index(german, "Größe")] + text + german[strings.Index(german, "36;"):]
		}
		got, err := Read(strings.NewReader(text), "own")
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s\nreads %+v\nwant %+v", text, got, want)
		}
	}
	if _, err := Read(strings.NewReader("# Einheit: Zoll\nGröße;Brust\n36;33\n"), "own"); err != nil {
		t.Error(err)
	}
	if _, err := Read(strings.NewReader("# unit: cm\nsize;Brust;bust\n36;84;84\n"), "own"); err == nil {
		t.Error("one measure in two columns is taken")
	}
}
