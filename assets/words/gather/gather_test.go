package gather

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const code = `package ui

import "quarterstep/assets/words"

type row struct {
	Name string ` + "`json:\"this is a tag\"`" + `
}

var steps = []words.Text{"Bring in", "Sizes"}

var byKind = map[int]words.Text{1: "Fold line"}

const lost words.Text = "The file " + "is gone."

// words: none
func draw() string { return "path to nowhere" }

func say(n int) {
	words.T("Save")
	words.C("of a print", "Copies")
	words.N(n, "%d page", "%d pages", n)
	words.Errorf("reading %s: %w", "x", nil)
	println("a forgotten sentence")
	println("an id") // words: none
	panic("cannot happen here")
}
`

func TestGathered(t *testing.T) {
	root := t.TempDir()
	for _, dir := range Roots {
		if err := os.MkdirAll(filepath.Join(root, dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(root, "ui/a.go"), []byte(code), 0o644); err != nil {
		t.Fatal(err)
	}
	ms, bare, err := In(root)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range ms {
		got = append(got, m.Context+"|"+m.ID+"|"+m.Plural)
	}
	want := []string{
		"|Bring in|", "|Sizes|", "|Fold line|", "|The file is gone.|", "|Save|", "of a print|Copies|",
		"|%d page|%d pages", "|reading %s: %w|",
	}
	if !slices.Equal(got, want) {
		t.Errorf("gathered %q, want %q", got, want)
	}
	if len(bare) != 1 || bare[0].Text != "a forgotten sentence" {
		t.Errorf("bare: %v, want the forgotten sentence alone", bare)
	}
}

func TestWrittenIsRead(t *testing.T) {
	ms := []Message{
		{ID: "Say \"yes\"\nor \\no\\", Files: []string{"a.go"}},
		{Context: "of a print", ID: "Copies", Files: []string{"a.go"}},
		{ID: "%d page", Plural: "%d pages", Files: []string{"a.go"}},
	}
	c := Catalogue{ms[0].Key(): {"Sag \"ja\"\noder \\nein\\"}, ms[1].Key(): {"Exemplare"}, ms[2].Key(): {"%d Seite", "%d Seiten"}}
	back := Read([]byte(Write("de", ms, c)))
	for _, m := range ms {
		for i, want := range c[m.Key()] {
			if got := at(back[m.Key()], i); got != want {
				t.Errorf("%s: read %q, written %q", m.ID, got, want)
			}
		}
	}
	if f := Faults(ms, back); len(f) != 0 {
		t.Errorf("faults in a whole catalogue: %q", f)
	}
}

func TestFaultsAreFound(t *testing.T) {
	ms := []Message{{ID: "%s is %d wide", Files: []string{"a.go"}}}
	for german, faults := range map[string]int{
		"%[2]d breit ist %[1]s": 0, "%s ist %d breit": 0, "%d breit ist %s": 1, "%s ist breit": 1, "": 1,
	} {
		c := Catalogue{}
		if german != "" {
			c[ms[0].Key()] = Translation{german}
		}
		if got := Faults(ms, c); len(got) != faults {
			t.Errorf("%q: %q, want %d faults", german, got, faults)
		}
	}
}
