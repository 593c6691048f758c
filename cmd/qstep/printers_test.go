package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// hall gives the command settings of its own and puts scripts in the place of
// the printing system's programs: one printer, Hall, whose lp keeps what it is
// given. The real CUPS is in printing/spool.
func hall(t *testing.T) (folder string) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the programs are shell scripts here")
	}
	folder = t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", folder)
	t.Setenv("HOME", folder)
	for name, script := range map[string]string{
		"lp":     `d=$(dirname "$0"); echo "$*" > "$d/args"; cat > "$d/in"; echo "request id is Hall-3 (1 file(s))"`,
		"lpstat": `case "$1" in -e) echo Hall;; -H) echo 127.0.0.1:1;; *) echo scheduler is running;; esac`,
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", folder+":/usr/bin:/bin")
	return folder
}

// From the test page to corrected pages: printed, measured, remembered, made up
// for, forgotten.
func TestAPrinterIsCheckedAndMadeUpFor(t *testing.T) {
	folder := hall(t)
	p := cleanBlouse(t, folder)
	pdf := filepath.Join(folder, "o.pdf")
	if out := done(t, "printers"); out != "Hall\n  scale not checked yet: see qstep testpage\n" {
		t.Errorf("printers: %q", out)
	}
	if out := done(t, "testpage", "--to", "usual"); out != "Waiting for Hall\nSent to Hall; look there how the pages come out.\n" {
		t.Errorf("sent: %q", out)
	}
	if args := string(read(t, filepath.Join(folder, "args"))); !strings.Contains(args, "-d Hall -n 1 -t Scale check -o media=iso_a4_210x297mm -o print-scaling=none") {
		t.Errorf("lp is given %s", args)
	}
	if out := done(t, "testpage", "--paper", "letter", "--unit", "in", "-o", pdf); !strings.Contains(out, "It should be 7 in across and 9 1/2 in down.") {
		t.Errorf("written: %q", out)
	}
	done(t, "print", p, "--paper", "a4", "-o", pdf)
	plain := read(t, pdf)
	out := done(t, "testpage", "--printer", "Hall", "--across", "17.91", "--down", "26", "--white", "9")
	if !strings.Contains(out, "99.5 % across and 100 % down") || !strings.HasSuffix(out, "Remembered for Hall.\n") {
		t.Errorf("measured: %q", out)
	}
	if out := done(t, "printers"); !regexp.MustCompile(`leaves up to 9.0 mm white at an edge\n  scale checked on \d{4}-\d\d-\d\d: corrected to 100.50 % across, 100.00 % down\n`).MatchString(out) {
		t.Errorf("printers: %q", out)
	}
	if done(t, "print", p, "--paper", "a4", "-o", pdf); !bytes.Equal(plain, read(t, pdf)) {
		t.Error("a PDF for no printer is corrected")
	}
	done(t, "print", p, "--paper", "a4", "--printer", "hall", "-o", pdf)
	corrected := read(t, pdf)
	if bytes.Equal(plain, corrected) {
		t.Error("a PDF for the printer is not corrected")
	}
	if out := done(t, "print", p, "--paper", "a4", "--to", "Hall"); !strings.Contains(out, "Hall leaves up to 9.0 mm white at an edge, and the pages are drawn up to 8.0 mm from it.") {
		t.Errorf("printed: %q", out)
	}
	if !bytes.Equal(corrected, read(t, filepath.Join(folder, "in"))) {
		t.Error("what is printed is not the corrected PDF")
	}
	done(t, "printers", "--forget", "HALL")
	if done(t, "print", p, "--paper", "a4", "--printer", "hall", "-o", pdf); !bytes.Equal(plain, read(t, pdf)) {
		t.Error("a printer that is forgotten is corrected")
	}
}

// Only what changed since the last print is sent, and a print that did not come
// about is no last print.
func TestChangedPagesArePrinted(t *testing.T) {
	folder := hall(t)
	p, last := cleanBlouse(t, folder), filepath.Join(folder, "last")
	if s := qstep("print", p, "--paper", "a4", "--to", "Attic", "--changed", last); s.code != exitInput {
		t.Errorf("%+v", s)
	}
	if _, err := os.Stat(last); err == nil {
		t.Fatal("a print that failed is kept as the last one")
	}
	done(t, "print", p, "--paper", "a4", "--to", "Hall", "--changed", last)
	if err := os.Remove(filepath.Join(folder, "in")); err != nil {
		t.Fatal(err)
	}
	if out := done(t, "print", p, "--paper", "a4", "--to", "Hall", "--changed", last); out != "No page has changed since the last print; nothing was printed.\n" {
		t.Errorf("again: %q", out)
	}
	if _, err := os.Stat(filepath.Join(folder, "in")); err == nil {
		t.Error("pages that have not changed were printed")
	}
}

// A wrong print setting is told, exit 1, and only remembered on insisting.
func TestAPrintSettingIsTold(t *testing.T) {
	hall(t)
	fit := []string{"testpage", "--printer", "Hall", "--across", "172.4mm", "--down", "24.9cm"}
	if s := qstep(fit...); s.code != exitLook || !strings.Contains(s.out, "shrunk to fit inside the printer's margins") || strings.Contains(s.out, "Remembered") {
		t.Errorf("%+v", s)
	}
	if out := done(t, append(fit, "--insist")...); !strings.HasSuffix(out, "Remembered for Hall.\n") {
		t.Errorf("insisted: %q", out)
	}
	if s := qstep("testpage", "--printer", "Hall", "--across", "18mm", "--down", "26mm"); s.code != exitLook || !strings.Contains(s.out, "centimetres were typed as millimetres") {
		t.Errorf("%+v", s)
	}
}

func TestPrinterRefusals(t *testing.T) {
	hall(t)
	folder, file := refusals(t)
	p := file("p.qstep")
	refused(t, folder, exitInput, `no printer "Attic" here; there are Hall`, "print", p, "--paper", "a4", "--to", "Attic", "-o", "OUT")
	refused(t, folder, exitInput, "not for paper", "print", p, "--paper", "projector", "--to", "Hall")
	refused(t, folder, exitUsage, "-o is missing, or --to and a printer", "print", p, "--paper", "a4")
	refused(t, folder, exitUsage, "-o is missing", "testpage")
	refused(t, folder, exitUsage, "belong together", "testpage", "--across", "18")
	refused(t, folder, exitUsage, "--unit is cm or in", "testpage", "--unit", "ell", "-o", "OUT")
	refused(t, folder, exitInput, "too small for the test page", "testpage", "--paper", "100x200mm", "-o", "OUT")
	refused(t, folder, exitInput, "set by the squares", "testpage", "--paper", "projector", "-o", "OUT")
	refused(t, folder, exitInput, "across: ", "testpage", "--printer", "Hall", "--across", "wide", "--down", "26")
	refused(t, folder, exitInput, "which printer this is", "testpage", "--white", "5mm")
	refused(t, folder, exitInput, `nothing is remembered of a printer "Attic"`, "printers", "--forget", "Attic")
	t.Setenv("PATH", t.TempDir())
	refused(t, folder, exitInput, "no printing system", "printers")
}
