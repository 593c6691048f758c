package main

import (
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
)

// drawn is a sheet with those layers. The pieces are invented.
func drawn(layers ...string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400">` + strings.Join(layers, "") + `</svg>`
}

func layer(title string, paths ...string) string {
	return `<g><title>` + title + `</title>` + strings.Join(paths, "") + `</g>`
}

func closed(title, d string) string {
	return `<path d="` + d + `z"><title>` + title + `</title></path>`
}

// Import says which sizes a piece is printed in, which share a line, what is
// the same for all, and where it laid sizes on each other.
func TestImportSaysWhatItUnderstood(t *testing.T) {
	folder := t.TempDir()
	svg := filepath.Join(folder, "nest.svg")
	back := func(x, more string) string { return closed("Back on the fold", "M"+x+" 20H"+more+"V220H"+x) }
	write(t, svg, drawn(
		layer("36", back("20", "120"), closed("Cuff", "M20 300H120V330H20")),
		layer("38/40", back("15", "125")),
		layer("42", back("10", "130"), closed("Cuff", "M20 300H126V330H20")),
		closed("Pocket", "M300 300H360V370H300"),
	))
	out := done(t, "import", svg, "--chart", women, "-o", filepath.Join(folder, "p.qstep"))
	for _, want := range []string{
		"Back on the fold: printed in sizes 36, 38/40, 42 (joined by a stroke: on one line); 4 grade points.",
		"Cuff: printed in sizes 36, 42; 4 grade points.",
		"Pocket: the same in all sizes; 4 grade points.",
	} {
		if !strings.Contains(out, want+"\n") {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestImportOfOneSize(t *testing.T) {
	folder := t.TempDir()
	svg, to := filepath.Join(folder, "one.svg"), filepath.Join(folder, "p.qstep")
	write(t, svg, drawn(closed("Cuff", "M20 300H120V330H20")))
	if s := qstep("import", svg, "--chart", women, "-o", to); s.code != exitInput || !strings.Contains(s.errs, "named after a size") {
		t.Errorf("without a size: %+v", s)
	}
	if s := qstep("import", svg, "--chart", women, "--size", "39", "-o", to); s.code != exitInput || !strings.Contains(s.errs, "has no size 39") {
		t.Errorf("a size off the chart: %+v", s)
	}
	if out := done(t, "import", svg, "--chart", women, "--size", "38", "-o", to); out != "Cuff: printed in size 38 only; 4 grade points.\n" {
		t.Errorf("import says %q", out)
	}
}

// Import links what is surely one seam or one line and says so, leaves out
// what is a guess, and links nothing when told so.
func TestImportLinks(t *testing.T) {
	folder := t.TempDir()
	nest := filepath.Join("..", "..", "testdata", "nests", "blouse-eu-36-42.svg")
	for _, e := range []struct {
		more  []string
		links int
		says  []string
	}{
		{nil, 5, []string{
			"Linked: Front facing follows the neckline of Front, within 0.1 mm in print.",
			"Linked: The shoulder of Back is sewn to that of Front, 2 mm shorter on the cutting line.",
			"Not linked, look whether it is so: The cap of Sleeve is sewn to the armhole of Back and the armhole of Front",
		}},
		{[]string{"--no-links"}, 0, nil},
	} {
		to := filepath.Join(folder, "p.qstep")
		out := done(t, append([]string{"import", nest, "--chart", women, "-o", to}, e.more...)...)
		for _, want := range e.says {
			if !strings.Contains(out, want) {
				t.Errorf("no %q in\n%s", want, out)
			}
		}
		if p, err := app.Open(to); err != nil || len(p.Links) != e.links || strings.Count(out, "Linked: ") != e.links {
			t.Errorf("with %v: %d links, want %d (%v)", e.more, len(p.Links), e.links, err)
		}
	}
}
