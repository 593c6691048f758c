package exchange

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// FuzzReadSVG: whatever the bytes, reading ends with a valid sheet or with one
// Unusable sentence.
func FuzzReadSVG(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "nests", "*-eu-36-42.svg"))
	if err != nil || len(files) == 0 {
		f.Fatalf("no nests to begin with: %v", err)
	}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		if len(b) < 20_000 {
			f.Add(string(b))
		}
	}
	f.Fuzz(func(t *testing.T, svg string) {
		s, err := ReadSVG(strings.NewReader(svg), euChart())
		if err != nil {
			if u := (Unusable{}); !errors.As(err, &u) || u.Say == "" {
				t.Fatalf("error of type %T: %v", err, err)
			}
			return
		}
		for _, p := range s.Pieces {
			if p.Name == "" || len(p.Outlines) == 0 {
				t.Fatalf("a piece without name or outline: %+v", p)
			}
			for _, o := range p.Outlines {
				if err := o.Ring.Validate(); err != nil || !o.Ring.Closed(0) {
					t.Fatalf("%s, size %s: open or broken: %v", p.Name, o.Size, err)
				}
			}
			for _, l := range p.Lines {
				if err := l.Path.Validate(); err != nil || len(l.Path) == 0 {
					t.Fatalf("line %s of %s: empty or broken: %v", l.Name, p.Name, err)
				}
			}
		}
	})
}

// FuzzParsePath: path data is either read to its end or refused.
func FuzzParsePath(f *testing.F) {
	f.Fuzz(func(t *testing.T, d string) {
		runs, trouble := parsePath(d, 1)
		if trouble != "" && runs != nil {
			t.Fatalf("%q is refused at %q and yet read", d, trouble)
		}
		for _, r := range runs {
			if len(r.path) == 0 {
				t.Fatalf("%q gives an empty run", d)
			}
		}
	})
}
