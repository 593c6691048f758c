package main

import (
	"bytes"
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// One page of the paper asked for: A4 by ISO 216, letter by ANSI/ASME Y14.1.
// Strips are what comes unasked.
func TestTargetsOnOnePage(t *testing.T) {
	to := filepath.Join(t.TempDir(), "t.pdf")
	var first []byte
	for _, c := range []struct {
		args []string
		w, h float64
	}{
		{nil, 210, 297},
		{[]string{"--kind", "strips", "--paper", "a4"}, 210, 297},
		{[]string{"--kind=Corners"}, 210, 297},
		{[]string{"--paper", "letter"}, 215.9, 279.4},
	} {
		out := done(t, append([]string{"targets", "-o", to}, c.args...)...)
		if want := to + ": targets to print at 100 %, cut apart and lay round a piece before you photograph it.\n"; out != want {
			t.Errorf("%v: says %q", c.args, out)
		}
		pdf := read(t, to)
		n, boxes := pages(t, pdf)
		if n != 1 || len(boxes) != 1 || math.Abs(boxes[0][0]-c.w) > 0.01 || math.Abs(boxes[0][1]-c.h) > 0.01 {
			t.Errorf("%v: %d pages of %v", c.args, n, boxes)
		}
		switch {
		case first == nil:
			first = pdf
		case bytes.Equal(first, pdf) != (len(c.args) == 4):
			t.Errorf("%v: the same as strips on a4: %v", c.args, bytes.Equal(first, pdf))
		}
	}
}

func TestTargetsRefusals(t *testing.T) {
	folder, _ := refusals(t)
	refused(t, folder, exitUsage, "--kind is strips or corners", "targets", "--kind", "stars", "-o", "OUT")
	refused(t, folder, exitInput, "too small", "targets", "--paper", "100x100mm", "-o", "OUT")
	refused(t, folder, exitInput, "no paper known here", "targets", "--paper", "napkin", "-o", "OUT")
	refused(t, folder, exitUsage, "-o is missing", "targets")
	refused(t, folder, exitUsage, "wants 0 file(s)", "targets", "a.qstep", "-o", "OUT")
	if s := qstep("help"); !strings.Contains(s.out, "qstep targets") {
		t.Error("help does not name targets")
	}
}
