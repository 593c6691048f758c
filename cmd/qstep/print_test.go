package main

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)

// pages lists the page sizes of a PDF in mm; a page without its own has the
// first one given, the tree's. 1 unit is 1/72 in (ISO 32000-1, 8.3.2.3).
func pages(t *testing.T, pdf []byte) (count int, boxes [][2]float64) {
	t.Helper()
	for _, m := range mediaBox.FindAllSubmatch(pdf, -1) {
		w, err1 := strconv.ParseFloat(string(m[1]), 64)
		h, err2 := strconv.ParseFloat(string(m[2]), 64)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		boxes = append(boxes, [2]float64{w / 72 * 25.4, h / 72 * 25.4})
	}
	return len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(pdf, -1)), boxes
}

// Papers: A4, A3 and A0 by ISO 216, letter 8.5 x 11 in by ANSI/ASME Y14.1, and
// a roll of the size given.
func TestPagesAreAsLargeAsTheirPaper(t *testing.T) {
	folder := t.TempDir()
	p, q := cleanBlouse(t, folder), filepath.Join(folder, "q.qstep")
	done(t, "grade", p, "--to", "48", "-o", q)
	for _, c := range []struct {
		paper string
		w, h  float64
	}{
		{"a4", 210, 297},
		{"letter", 215.9, 279.4},
		{"a3", 297, 420},
		{"a0", 841, 1189},
		{"914x3000mm", 914, 3000},
		{"36x100in", 914.4, 2540},
	} {
		to := filepath.Join(folder, "o.pdf")
		out := done(t, "print", q, "--paper", c.paper, "-o", to)
		pdf := read(t, to)
		if !bytes.HasPrefix(pdf, []byte("%PDF-1.")) || !bytes.HasSuffix(bytes.TrimSpace(pdf), []byte("%%EOF")) {
			t.Errorf("%s: not a whole PDF", c.paper)
		}
		n, boxes := pages(t, pdf)
		if want := fmt.Sprintf("%s: %d pages.", to, n); n < 1 || !strings.HasPrefix(out, want) {
			t.Errorf("%s: says %q, has %d pages", c.paper, out, n)
		}
		if len(boxes) == 0 {
			t.Fatalf("%s: no page says how large it is", c.paper)
		}
		for _, b := range boxes {
			// A sheet may lie on its side; points are written to 0.01, 0.004 mm.
			upright := math.Abs(b[0]-c.w) < 0.01 && math.Abs(b[1]-c.h) < 0.01
			aside := math.Abs(b[1]-c.w) < 0.01 && math.Abs(b[0]-c.h) < 0.01
			if !upright && !aside {
				t.Errorf("%s: a page of %.3f x %.3f mm", c.paper, b[0], b[1])
			}
		}
		done(t, "print", "-o", to, "--paper="+c.paper, q)
		if !bytes.Equal(pdf, read(t, to)) {
			t.Errorf("%s: the second time gives other bytes", c.paper)
		}
	}
}

// Lengths of margin and overlap with units: the same length is the same print,
// whatever it is written in (1 in = 25.4 mm).
func TestMarginAndOverlapTakeUnits(t *testing.T) {
	folder := t.TempDir()
	p := cleanBlouse(t, folder)
	pdf := func(margin, overlap string) []byte {
		to := filepath.Join(folder, "o.pdf")
		done(t, "print", p, "--paper", "a4", "--margin", margin, "--overlap", overlap, "-o", to)
		return read(t, to)
	}
	usual := pdf("8mm", "10mm")
	for _, same := range [][2]string{{"8", "10"}, {"0.8cm", "1 cm"}, {"0,8 cm", "10 mm"}} {
		if !bytes.Equal(usual, pdf(same[0], same[1])) {
			t.Errorf("%v is another print than 8mm, 10mm", same)
		}
	}
	if !bytes.Equal(pdf("9.525mm", "12.7mm"), pdf("3/8in", `1/2"`)) {
		t.Error("3/8 in and 1/2 in are not 9.525 and 12.7 mm")
	}
	if bytes.Equal(usual, pdf("9mm", "10mm")) || bytes.Equal(usual, pdf("8mm", "12mm")) {
		t.Error("margin or overlap makes no difference")
	}
}

// Several sizes are so many layers, named after them, in one print.
func TestSizesArePrintedAsLayers(t *testing.T) {
	folder := t.TempDir()
	p, to := cleanBlouse(t, folder), filepath.Join(folder, "o.pdf")
	done(t, "print", p, "--paper", "a0", "--size", "44,46, 48", "-o", to)
	pdf := read(t, to)
	if n := bytes.Count(pdf, []byte("/Type /OCG")); n != 3 {
		t.Errorf("%d layers of 3", n)
	}
	for _, size := range []string{"44", "46", "48"} {
		if !bytes.Contains(pdf, []byte("Size "+size)) && !bytes.Contains(pdf, utf16("Size "+size)) {
			t.Errorf("no layer is named Size %s", size)
		}
	}
	if done(t, "print", p, "--paper", "a0", "-o", to); bytes.Contains(read(t, to), []byte("/Type /OCG")) {
		t.Error("a print of one size has layers")
	}
}

// utf16 is text as a PDF text string has it, without its mark (ISO 32000-1,
// 7.9.2.2).
func utf16(s string) []byte {
	var out []byte
	for _, r := range s {
		out = append(out, byte(r>>8), byte(r))
	}
	return out
}

// The demo does the whole job and its project checks and prints.
func TestDemoDoesTheWholeJob(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "new")
	out := done(t, "demo", "-o", folder)
	if !strings.Contains(out, "graded it to 48") || !strings.Contains(out, "20 mm short") {
		t.Error(out)
	}
	project := filepath.Join(folder, "blouse.qstep")
	if s := qstep("check", project); s.code == exitInput || s.code == exitUsage || !strings.Contains(s.out, "size 48 by chart") {
		t.Errorf("check says %+v", s)
	}
	if !bytes.HasPrefix(read(t, filepath.Join(folder, "blouse-48.png")), []byte("\x89PNG\r\n\x1a\n")) {
		t.Error("the picture is no PNG")
	}
	n, _ := pages(t, read(t, filepath.Join(folder, "blouse-48-a4.pdf")))
	if !strings.Contains(out, fmt.Sprintf("The PDF, %d pages of A4", n)) {
		t.Errorf("%d pages, said\n%s", n, out)
	}
}
