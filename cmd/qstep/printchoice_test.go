package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Each choice makes another print, and a piece by name fewer pages.
func TestPrintChoices(t *testing.T) {
	folder := t.TempDir()
	p, to := cleanBlouse(t, folder), filepath.Join(folder, "o.pdf")
	print := func(args ...string) ([]byte, int) {
		t.Helper()
		done(t, append([]string{"print", p, "--paper", "a4", "--size", "44", "-o", to}, args...)...)
		n, _ := pages(t, read(t, to))
		return read(t, to), n
	}
	all, n := print()
	for _, args := range [][]string{
		{"--nest"}, {"--date", "1 March 2026"}, {"--wide"}, {"--overlap", "0"}, {"--piece", "SLEEVE"}, {"--piece", "Sleeve", "--piece", "back"},
	} {
		got, k := print(args...)
		if bytes.Equal(all, got) {
			t.Errorf("%v changes nothing", args)
		}
		if args[0] == "--piece" && (k >= n || k < 2) {
			t.Errorf("%v: %d pages of %d", args, k, n)
		}
	}
	nest, _ := print("--nest")
	if layers := bytes.Count(nest, []byte("/Type /OCG")); layers != 4 {
		t.Errorf("%d layers of the 4 printed sizes", layers)
	}
	for _, args := range [][]string{{"--paper", "projector", "--dark", "--line", "2mm", "--square", "50mm"}, {"--paper", "roll 914 mm"}} {
		if _, k := print(args...); k != 1 {
			t.Errorf("%v: %d pages", args, k)
		}
	}
}

// The second time there is nothing to print, and nothing is written.
func TestPrintWhatChanged(t *testing.T) {
	folder := t.TempDir()
	p, to, last := cleanBlouse(t, folder), filepath.Join(folder, "o.pdf"), filepath.Join(folder, "last.json")
	args := []string{"print", p, "--paper", "a4", "--size", "44", "--changed", last, "-o", to}
	out := done(t, args...)
	n, _ := pages(t, read(t, to))
	if !strings.HasPrefix(out, fmt.Sprintf("%s: %d pages.", to, n)) {
		t.Errorf("says %q", out)
	}
	if err := os.Remove(to); err != nil {
		t.Fatal(err)
	}
	if out = done(t, args...); !strings.HasPrefix(out, "No page has changed") {
		t.Errorf("says %q", out)
	}
	if _, err := os.Stat(to); err == nil {
		t.Error("a file is written all the same")
	}
}

func TestPrintRefusals(t *testing.T) {
	folder, file := refusals(t)
	p := file("p.qstep")
	printed := func(more ...string) []string {
		return append([]string{"print", p, "--paper", "projector", "-o", "OUT"}, more...)
	}
	refused(t, folder, exitInput, "for a projector", printed("--line", "90mm")...)
	refused(t, folder, exitInput, "line: ", printed("--line", "thick")...)
	refused(t, folder, exitInput, "cannot be measured well", printed("--square", "1mm")...)
	refused(t, folder, exitInput, `no piece "hat"`, printed("--piece", "hat")...)
	refused(t, folder, exitInput, "does not say what was printed", printed("--changed", file("nest.svg"))...)
	refused(t, folder, exitInput, `no piece "hat"`, "export", p, "--size", "48", "--as", "svg", "--piece", "hat", "-o", "OUT")
	refused(t, folder, exitInput, "json holds one size", "export", p, "--size", "46,48", "--as", "json", "-o", "OUT")
}

// A name that ends in .svg takes one drawing, a millimetre a unit.
func TestPrintAsADrawing(t *testing.T) {
	folder := t.TempDir()
	p, to := cleanBlouse(t, folder), filepath.Join(folder, "o.svg")
	out := done(t, "print", p, "--paper", "roll 914 mm", "--size", "44,46", "-o", to)
	if svg := string(read(t, to)); !strings.HasPrefix(svg, "<?xml") || strings.Count(svg, "<title>Sleeve</title>") != 2 || !strings.Contains(out, "true to scale") {
		t.Errorf("says %q of %d bytes", out, len(svg))
	}
}
