package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
)

// EN 13402-3, women: 122 cm of bust are size 52 (published); a waist of 44 1/2
// in is 113.03 cm, between 112 at 54 and 118 at 56 (from memory).
func TestGradeForOwnMeasures(t *testing.T) {
	folder := t.TempDir()
	p, q := cleanBlouse(t, folder), filepath.Join(folder, "q.qstep")
	for _, args := range [][]string{
		{"grade", p, "--bust", "122cm", "--waist", "44 1/2in", "-o", q},
		{"grade", "--bust=122cm", p, "-waist=44 1/2in", "-o", q},
		{"grade", "--bust", `122`, "--waist", `44 1/2"`, "--by", "chart", "-o", q, p},
	} {
		out := done(t, args...)
		for _, want := range []string{
			"Graded to own measures by chart.\nBust 122 cm: size 52.\nWaist 113 cm: size 54 + 0.2.\nThe rest goes by size 52.\n",
			"By steps the bust would be 60 mm short: the chart grows 260 mm from 42 to 122 cm, the printed steps 200 mm.",
		} {
			if !strings.Contains(out, want) {
				t.Errorf("%v: no %q in\n%s", args[1:], want, out)
			}
		}
		got, err := app.Open(q)
		if err != nil || got.Target.Body["bust"] != 1220 || math.Abs(got.Target.Body["waist"]-1130.3) > 1e-9 {
			t.Errorf("%v keeps %v, %v", args[1:], got.Target.Body, err)
		}
	}
	out := done(t, "grade", p, "--to", "48", "--hip", "130cm", "-o", q)
	if !strings.Contains(out, "The rest goes by size 48.\n") {
		t.Errorf("with a size too: %s", out)
	}
	if out := done(t, "grade", q, "--to", "42", "-o", q); out != "Graded to 42 by chart.\n" {
		t.Errorf("a size alone keeps the measurements: %s", out)
	}
}

// Measurements of one size are that size, whichever way they are given; and
// what was graded is what is exported.
func TestOwnMeasuresOfOneSizeAreThatSize(t *testing.T) {
	folder := t.TempDir()
	p, q := cleanBlouse(t, folder), filepath.Join(folder, "q.qstep")
	own := []string{"--bust", "110cm", "--waist", "94cm", "--hip", "117cm"} // size 48 of EN 13402-3
	done(t, append([]string{"grade", p, "-o", q}, own...)...)
	want := asJSON(t, p, "48")
	to := filepath.Join(folder, "own.json")
	for _, args := range [][]string{
		{"export", q, "--as", "json", "-o", to},
		append([]string{"export", p, "--as", "json", "-o", to}, own...),
	} {
		done(t, args...)
		var got outlines
		if err := json.Unmarshal(read(t, to), &got); err != nil {
			t.Fatal(err)
		}
		if d := worst(t, want, got); d > 1e-6 || got.Size != "own measures" {
			t.Errorf("%v: %.7f mm off, size %q", args[2:], d, got.Size)
		}
	}
	done(t, "export", p, "--bust", "128cm", "--as", "json", "-o", to)
	var wider outlines
	if err := json.Unmarshal(read(t, to), &wider); err != nil {
		t.Fatal(err)
	}
	if d := worst(t, want, wider); d < 10 {
		t.Errorf("18 cm more of bust move the line %.1f mm", d)
	}
}

func TestPrintAndCheckForOwnMeasures(t *testing.T) {
	folder := t.TempDir()
	p, pdf := cleanBlouse(t, folder), filepath.Join(folder, "o.pdf")
	pages := func(args ...string) []byte {
		done(t, append([]string{"print", p, "--paper", "a0", "-o", pdf}, args...)...)
		defer os.Remove(pdf)
		return read(t, pdf)
	}
	plain, own, both := pages("--size", "52"), pages("--bust", "122cm", "--waist", "100cm"), pages("--size", "52", "--bust", "122cm", "--waist", "100cm")
	if string(plain) == string(own) || len(both) <= len(own) {
		t.Errorf("files of %d, %d and %d bytes", len(plain), len(own), len(both))
	}
	if s := qstep("check", p, "--to", "52"); s.errs != "" || !strings.Contains(s.out, "size 52 by chart") {
		t.Errorf("%+v", s)
	}
	if s := qstep("check", p, "--bust", "122cm"); s.errs != "" || !strings.Contains(s.out, ", own measures by chart") {
		t.Errorf("%+v", s)
	}
}

func TestMeasuresThatCannotBeTaken(t *testing.T) {
	folder, file := refusals(t)
	p := file("p.qstep")
	graded := func(more ...string) []string { return append([]string{"grade", p, "-o", "OUT"}, more...) }
	for _, c := range []struct {
		code int
		want string
		args []string
	}{
		{exitUsage, `there is no flag -shoe; the chart EN 13402-3 women has no measure "shoe"; it has bust, waist, hip`, graded("--shoe", "38")},
		{exitUsage, "-bust needs a length", graded("--bust")},
		{exitUsage, "-bust needs a length", graded("--bust", "--to", "48")},
		{exitInput, "type bust as cm or inches, for example ", graded("--bust", "wide")},
		{exitInput, "type bust as cm or inches, for example ", graded("--bust", "12mm")},
		{exitInput, "type bust as cm or inches, for example ", graded("--bust", "-122cm")},
		{exitInput, "type waist as cm or inches, for example ", graded("--bust", "122cm", "--waist=")},
		{exitInput, "type hip as cm or inches, for example ", []string{"export", p, "--hip", "9", "--as", "svg", "-o", "OUT"}},
		{exitInput, "type hip as cm or inches, for example ", []string{"print", p, "--hip", "9", "--paper", "a4", "-o", "OUT"}},
		{exitUsage, "no flag -wide", []string{"check", p, "--wide", "3"}},
	} {
		refused(t, folder, c.code, c.want, c.args...)
	}
}
