package sizechart

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"quarterstep/model"
)

const small = "# name: Street wardrobe\n# source: invented\n# status: invented\n# unit: cm\nsize,code,bust,back waist length\n36,S,84,\n38,M,88,41.5\n"

func TestFormsOfTheSameChart(t *testing.T) {
	for say, text := range map[string]string{
		"plain":           small,
		"marked as UTF-8": "\ufeff" + small,
		"Windows lines":   strings.ReplaceAll(small, "\n", "\r\n"),
		"semicolons":      "# name: Street wardrobe;;;\n# source: invented;;;\n# status: invented\n# unit: cm;;;\nSize;Code;Bust;Back_waist length\n36;S;84;\n;;;\n38;M;88;41,5\n",
		"tabs":            "#name:Street wardrobe\n#source: invented\n#status:invented\n# Unit: CM\nsize\tcode\tbust\tback waist length\n36\tS\t84\n38\tM\t88\t41.5\n",
		"quotes":          "# name: Street wardrobe\n# source: invented\n# status: invented\n# unit: cm\n\nsize,code,bust,\"back waist length\"\n36,S,\"84,0\",\n38 , M,88 cm,415 mm\n",
		"inches":          "# name: Street wardrobe\n# source: invented\n# status: invented\n# unit: in\nsize,code,bust,back waist length\n36,S,840mm\n38,M,880mm,\"41,5cm\"\n",
	} {
		c, err := Read(strings.NewReader(text), "street")
		if err != nil {
			t.Errorf("%s: %v", say, err)
			continue
		}
		if c.ID != "street" || c.Name != "Street wardrobe" || c.Source != "invented" || c.Status != "invented" {
			t.Errorf("%s: head %q %q %q", say, c.Name, c.Source, c.Status)
		}
		if len(c.Sizes) != 2 || c.Sizes[1].Name != "38" || c.Sizes[1].Alt != "M" || c.Sizes[1].Body[model.BackWaist] != 415 || c.Sizes[0].Body[model.Bust] != 840 {
			t.Errorf("%s: sizes %v", say, c.Sizes)
		}
		if _, has := c.Sizes[0].Body[model.BackWaist]; has || c.Has(model.BackWaist) {
			t.Errorf("%s: an empty cell was read as a measure", say)
		}
	}
}

func TestInchFractionsInCells(t *testing.T) {
	c, err := Read(strings.NewReader("# unit: in\nsize;bust\n8;31 1/2\n10;32½\"\n12;34.0\n"), "x")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{800.1, 825.5, 863.6} {
		if got := c.Sizes[i].Body[model.Bust]; math.Abs(got-want) > 1e-9 {
			t.Errorf("size %s: %v mm, want %v", c.Sizes[i].Name, got, want)
		}
	}
	if c.Name != "x" {
		t.Errorf("a chart without a name is called %q", c.Name)
	}
}

func TestErrorsSayTheRowAndColumn(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "does not say its unit"},
		{"size,bust\n36,84\n", "does not say its unit"},
		{"# unit: ell\nsize,bust\n36,84\n", `"ell"`},
		{"# unit: cm\n", "no sizes"},
		{"# unit: cm\nsize,bust\n", "no sizes"},
		{"# unit: cm\nname,bust\n36,84\n", "row 2: one column must be named \"size\""},
		{"# unit: cm\nsize,code\n36,84\n", "row 2: it names no body measures"},
		{"# unit: cm\nsize,bust,Bust\n36,84,84\n", "row 2, column 3: there are two columns \"bust\""},
		{"# unit: cm\nsize,,bust\n36,84,84\n", "row 2, column 2: the column has no name"},
		{"# unit: cm\nsize,steps\n36,84\n", "row 2, column 2: \"steps\""},
		{"# unit: cm\nsize,bust\n36,84\n\n38,eighty\n", "row 5, column bust: \"eighty\""},
		{"# unit: cm\nsize,bust\n36,-84\n", "row 3, column bust: -84"},
		{"# unit: cm\nsize,bust\n36,0\n", "row 3, column bust: 0"},
		{"# unit: cm\nsize,bust\n36,84000\n", "row 3, column bust: 84000"},
		{"# unit: cm\nsize,bust\n36,84,92\n", "row 3: it has 3 cells"},
		{"# unit: cm\nsize,bust\n,84\n", "row 3: the size has no name"},
		{"# unit: cm\nsize,bust\n36,84\n36,88\n", "row 4: the size 36 is in row 3 already"},
		{"# unit: cm\nsize,code,bust\ns,36,84\nm,S,88\n", "row 4: the size S is in row 3 already"},
		{"# unit: cm\nsize,bust\n\xff,84\n", "not plain text"},
		{strings.Repeat("# a long line of words that say nothing\n", 30_000), "too long"},
	} {
		_, err := Read(strings.NewReader(c.text), "mine")
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "reading size chart mine: ") {
			t.Errorf("%.60q: %v, want %s", c.text, err, c.want)
		}
	}
}

func TestLimits(t *testing.T) {
	var b strings.Builder
	b.WriteString("# unit: cm\nsize,bust\n")
	for i := range maxSizes + 1 {
		b.WriteString(strings.Repeat("x", i+1) + ",84\n")
	}
	if _, err := Read(strings.NewReader(b.String()), "x"); err == nil || !strings.Contains(err.Error(), "at most 200 sizes") {
		t.Errorf("too many sizes: %v", err)
	}
	wide := "# unit: cm\nsize" + strings.Repeat(",a", maxCols) + "\n"
	if _, err := Read(strings.NewReader(wide), "x"); err == nil || !strings.Contains(err.Error(), "at most 60 columns") {
		t.Errorf("too many columns: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(small))
	f.Add([]byte("\ufeff# unit: in\nsize;bust\n8;31 1/2\n10;32½\"\n"))
	f.Add([]byte("# unit: mm\nsize\tbust\n\"8\t1\n"))
	f.Add([]byte("# unit: cm\nsize,bust\n8,\"1\n2\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := Read(bytes.NewReader(data), "x")
		if err != nil {
			return
		}
		if len(c.Sizes) == 0 || len(c.Measures) == 0 {
			t.Fatalf("a chart without sizes or measures")
		}
		for i, s := range c.Sizes {
			if at, ok := c.Place(s.Name); !ok || at != i {
				t.Fatalf("size %q is found at %d, not %d", s.Name, at, i)
			}
			for m, mm := range s.Body {
				if !(mm > 0 && mm <= longestMM) {
					t.Fatalf("size %q %s is %v mm", s.Name, m, mm)
				}
			}
		}
	})
}
