package main

import (
	"bytes"
	"math"
	"path/filepath"
	"testing"
)

// A4 by ISO 216, letter by ANSI/ASME Y14.1; the same bytes twice, others for
// another size or date.
func TestSummary(t *testing.T) {
	folder := t.TempDir()
	p, to := cleanBlouse(t, folder), filepath.Join(folder, "o.pdf")
	write := func(args ...string) []byte {
		done(t, append([]string{"summary", p, "-o", to}, args...)...)
		return read(t, to)
	}
	for _, c := range []struct {
		paper string
		w, h  float64
	}{{"a4", 210, 297}, {"letter", 215.9, 279.4}} {
		pdf := write("--size", "48", "--paper", c.paper)
		n, boxes := pages(t, pdf)
		if n < 2 || len(boxes) == 0 {
			t.Fatalf("%d pages", n)
		}
		for _, b := range boxes {
			if math.Abs(b[0]-c.w) > 0.01 || math.Abs(b[1]-c.h) > 0.01 {
				t.Errorf("%s: a page of %.3f x %.3f mm", c.paper, b[0], b[1])
			}
		}
		if !bytes.Equal(pdf, write("--paper", c.paper, "--size", "48")) {
			t.Error("other bytes the second time")
		}
		for _, args := range [][]string{{"--size", "50"}, {"--size", "48", "--date", "1 March 2026"}, {"--size", "48", "--bust", "118cm"}} {
			if bytes.Equal(pdf, write(append(args, "--paper", c.paper)...)) {
				t.Errorf("%v changes nothing", args)
			}
		}
	}
}

func TestSummaryRefusals(t *testing.T) {
	folder, file := refusals(t)
	p := file("p.qstep")
	refused(t, folder, exitUsage, "-o is missing", "summary", p)
	refused(t, folder, exitInput, `no size "99"`, "summary", p, "--size", "99", "-o", "OUT")
	refused(t, folder, exitInput, "too small", "summary", p, "--paper", "100x100mm", "-o", "OUT")
	refused(t, folder, exitInput, "is not there", "summary", file("gone.qstep"), "-o", "OUT")
	refused(t, folder, exitInput, "is a folder", "summary", p, "-o", file("folder"))
}
