package match

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// A nest brought in while the program speaks German is named in German, and
// each name says what the English one does. What the two languages part
// otherwise is listed.
func TestNamesInGerman(t *testing.T) {
	english := drawn(t)
	if err := words.Use("de"); err != nil {
		t.Fatal(err)
	}
	defer func() { _ = words.Use("en") }()
	german := drawn(t)
	same := map[string]string{"underarm seam": "sleeve seam"}
	told := 0
	check := func(piece, en, de string) {
		t.Helper()
		want, got := en, glossary.English(de)
		for a, b := range same {
			want = strings.Replace(want, a, b, 1)
		}
		sorted := func(s string) []string { return slices.Sorted(slices.Values(strings.Fields(s))) }
		if !slices.Equal(sorted(got), sorted(want)) {
			t.Errorf("%s: %q is named %q, which says %q", piece, en, de, got)
		}
		if en != "" && de == en {
			t.Errorf("%s: %q has no German name", piece, en)
		}
		told++
	}
	for i, q := range english {
		for k := range q.Edges {
			check(q.Name, q.Edges[k].Name, german[i].Edges[k].Name)
			check(q.Name, q.Points[k].Name, german[i].Points[k].Name)
		}
	}
	if told < 50 {
		t.Errorf("only %d names were looked at", told)
	}
	for _, half := range []sleeveHalf{frontHalf, backHalf, leftHalf, rightHalf} {
		for _, name := range []words.Text{half.cap, half.underarm, half.wrist, half.seam} {
			check("Sleeve", string(name), name.String())
		}
	}
	// These are looked for as they stand, word for word.
	for _, name := range []string{"neck point", "shoulder tip", "shoulder end", "centre neck", "underarm", "crown"} {
		if got := glossary.English(words.T(name)); got != name {
			t.Errorf("%q is named %q, which says %q", name, words.T(name), got)
		}
	}
	for _, kind := range []model.LineKind{model.BustLine, model.WaistLine, model.HipLine} {
		if got := glossary.English(levelName(kind)); got != string(kind)+" line" {
			t.Errorf("a point on the %s line is named %q, which says %q", kind, levelName(kind), got)
		}
	}
}

// drawn is the pieces of the drawn nests.
func drawn(t *testing.T) []model.Piece {
	t.Helper()
	var out []model.Piece
	for _, c := range []struct {
		file  string
		chart model.SizeChart
	}{{"blouse-eu-36-42.svg", euChart()}, {"waistcoat-us-12-18.svg", usChart()}} {
		pieces, _ := matched(t, readSheet(t, c.file, c.chart), c.chart)
		out = append(out, pieces...)
	}
	return out
}
