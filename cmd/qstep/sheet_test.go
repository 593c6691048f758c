package main

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// One page at least for each piece, on the paper asked for: A4 by ISO 216,
// letter by ANSI/ASME Y14.1.
func TestSheetsForEveryPiece(t *testing.T) {
	folder := t.TempDir()
	p := cleanBlouse(t, folder)
	to := filepath.Join(folder, "o.pdf")
	for _, c := range []struct {
		paper string
		w, h  float64
	}{{"a4", 210, 297}, {"letter", 215.9, 279.4}} {
		out := done(t, "sheet", p, "--size", "48", "--paper", c.paper, "-o", to)
		if want := fmt.Sprintf("%s: how to draw 4 of 4 pieces by hand.\n", to); out != want {
			t.Errorf("%s: says %q, want %q", c.paper, out, want)
		}
		pdf := read(t, to)
		n, boxes := pages(t, pdf)
		if n < 4 || len(boxes) == 0 {
			t.Fatalf("%s: %d pages, %d sizes", c.paper, n, len(boxes))
		}
		for _, b := range boxes {
			if math.Abs(b[0]-c.w) > 0.01 || math.Abs(b[1]-c.h) > 0.01 {
				t.Errorf("%s: a page of %.3f x %.3f mm", c.paper, b[0], b[1])
			}
		}
		done(t, "sheet", "--paper="+c.paper, "-o", to, p, "--size", "48")
		if !bytes.Equal(pdf, read(t, to)) {
			t.Errorf("%s: the second time gives other bytes", c.paper)
		}
	}
}

// A piece by its name, a wearer by her measurements, and a date.
func TestSheetChoices(t *testing.T) {
	folder := t.TempDir()
	p := cleanBlouse(t, folder)
	to := filepath.Join(folder, "o.pdf")
	sheet := func(args ...string) []byte {
		out := done(t, append([]string{"sheet", p, "--piece", "SLEEVE ", "-o", to}, args...)...)
		if want := to + ": how to draw 1 of 4 pieces by hand.\n"; out != want {
			t.Errorf("%v: says %q, want %q", args, out, want)
		}
		return read(t, to)
	}
	plain := sheet("--size", "48")
	for _, args := range [][]string{
		{"--size", "50"},
		{"--size", "48", "--bust", "118cm"},
		{"--size", "48", "--date", "1 March 2026"},
	} {
		if bytes.Equal(plain, sheet(args...)) {
			t.Errorf("%v changes nothing", args)
		}
	}
}

func TestSheetRefusals(t *testing.T) {
	folder, file := refusals(t)
	p := file("p.qstep")
	refused(t, folder, exitInput, `no piece "hat"; there are `, "sheet", p, "--piece", "hat", "-o", "OUT")
	refused(t, folder, exitInput, `has no size "99"`, "sheet", p, "--size", "99", "-o", "OUT")
	refused(t, folder, exitInput, "too small", "sheet", p, "--paper", "100x100mm", "-o", "OUT")
	refused(t, folder, exitInput, "no paper known here", "sheet", p, "--paper", "napkin", "-o", "OUT")
	refused(t, folder, exitUsage, "-o is missing", "sheet", p)
	if s := qstep("help"); !strings.Contains(s.out, "qstep sheet Q.qstep") {
		t.Error("help does not name sheet")
	}
}
