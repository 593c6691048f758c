package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// refusals is a folder with a project and things that cannot be used.
func refusals(t *testing.T) (folder string, file func(string) string) {
	t.Helper()
	folder = t.TempDir()
	file = func(name string) string { return filepath.Join(folder, name) }
	p := cleanBlouse(t, folder)
	if err := os.Rename(p, file("p.qstep")); err != nil {
		t.Fatal(err)
	}
	whole := read(t, file("p.qstep"))
	svg := read(t, nestFile("blouse-eu-36-42.svg"))
	write(t, file("nest.svg"), string(svg))
	write(t, file("cut.svg"), string(svg[:len(svg)/2]))
	write(t, file("words.svg"), "two metres of linen\n")
	write(t, file("page.svg"), "<html><body/></html>")
	write(t, file("empty.svg"), "")
	write(t, file("cut.qstep"), string(whole[:len(whole)/2]))
	write(t, file("tail.qstep"), string(whole[len(whole)/2:]))
	write(t, file("empty.qstep"), "")
	write(t, file("nounit.csv"), "size,bust\n36,84\n")
	if err := os.Mkdir(file("folder"), 0o700); err != nil {
		t.Fatal(err)
	}
	return folder, file
}

// refused holds a command to its exit code, to one line that names the
// command and holds the words wanted, and to leaving the folder as it is:
// with OUT not there, and with an older file there.
func refused(t *testing.T, folder string, code int, want string, args ...string) {
	t.Helper()
	to := filepath.Join(folder, "out.file")
	line := make([]string, len(args))
	for i, a := range args {
		line[i] = strings.ReplaceAll(a, "OUT", to)
	}
	for _, older := range []bool{false, true} {
		if older {
			write(t, to, "older")
		}
		before := listing(t, folder)
		s := qstep(line...)
		name := fmt.Sprintf("qstep %s, older file %v", strings.ReplaceAll(strings.Join(line, " "), folder, "."), older)
		if s.code != code {
			t.Errorf("%s: exit %d, want %d", name, s.code, code)
		}
		if strings.Count(s.errs, "\n") != 1 || !strings.HasSuffix(s.errs, "\n") || !strings.HasPrefix(s.errs, "qstep") || !strings.Contains(s.errs, want) {
			t.Errorf("%s: said %q, want one line with %q", name, s.errs, want)
		}
		for _, inner := range []string{"quarterstep-", "rename ", "%!", "<nil>", "qstep-"} {
			if strings.Contains(s.errs, inner) {
				t.Errorf("%s: says %q: %s", name, inner, s.errs)
			}
		}
		if s.out != "" {
			t.Errorf("%s: wrote %q to standard output", name, s.out)
		}
		if after := listing(t, folder); after != before {
			t.Errorf("%s: the folder was\n%sand is\n%s", name, before, after)
		}
	}
	if err := os.Remove(to); err != nil {
		t.Fatal(err)
	}
}

func TestWrongUsageIsOneLineAndExit2(t *testing.T) {
	folder, file := refusals(t)
	nest, p := file("nest.svg"), file("p.qstep")
	for _, c := range []struct {
		want string
		args []string
	}{
		{`no command "sew"`, []string{"sew", p}},
		{"--chart is missing", []string{"import", nest, "-o", "OUT"}},
		{"--o is missing", []string{"import", nest, "--chart", women}},
		{"1 file(s), got 0", []string{"import", "--chart", women, "-o", "OUT"}},
		{"1 file(s), got 2", []string{"import", nest, nest, "--chart", women, "-o", "OUT"}},
		{"--to is missing", []string{"grade", p, "-o", "OUT"}},
		{"--o is missing", []string{"grade", p, "--to", "48"}},
		{"--by is chart or steps", []string{"grade", p, "--to", "48", "--by", "eye", "-o", "OUT"}},
		{"-wide", []string{"grade", p, "--to", "48", "--wide", "3", "-o", "OUT"}},
		{"-to", []string{"grade", p, "-o", "OUT", "--to"}},
		{"1 file(s), got 0", []string{"check", "--json"}},
		{"--size is missing", []string{"export", p, "--as", "svg", "-o", "OUT"}},
		{"--as is missing", []string{"export", p, "--size", "48", "-o", "OUT"}},
		{"--as is svg, json, csv or measures", []string{"export", p, "--size", "48", "--as", "pdf", "-o", "OUT"}},
		{"--o is missing", []string{"export", p, "--size", "48", "--as", "svg"}},
		{"--paper is missing", []string{"print", p, "-o", "OUT"}},
		{"--o is missing", []string{"print", p, "--paper", "a4"}},
		{"0 file(s), got 1", []string{"charts", p}},
		{"--o is missing", []string{"demo"}},
	} {
		refused(t, folder, exitUsage, c.want, c.args...)
	}
}

func TestInputThatCannotBeUsedIsOneLineAndExit3(t *testing.T) {
	folder, file := refusals(t)
	nest, p, gone := file("nest.svg"), file("p.qstep"), file("gone/out")
	imported := func(svg, chart string) []string { return []string{"import", svg, "--chart", chart, "-o", "OUT"} }
	graded := func(p, size string) []string { return []string{"grade", p, "--to", size, "-o", "OUT"} }
	printed := func(more ...string) []string { return append([]string{"print", p, "-o", "OUT"}, more...) }
	for _, c := range []struct {
		want string
		args []string
	}{
		{"gone.svg is not there", imported(file("gone.svg"), women)},
		{"is a folder", imported(file("folder"), women)},
		{"not an SVG drawing", imported(file("words.svg"), women)},
		{"not an SVG drawing", imported(file("page.svg"), women)},
		{"SVG", imported(file("empty.svg"), women)},
		{"damaged", imported(file("cut.svg"), women)},
		{"not an SVG drawing", imported(p, women)},
		{`no size chart "ladies"`, imported(nest, "ladies")},
		{"gone.csv is not there", imported(nest, file("gone.csv"))},
		{"unit", imported(nest, file("nounit.csv"))},
		{"is a folder", imported(nest, file("folder"))},
		{"US misses", imported(nest, misses)},
		{"is not there", []string{"import", nest, "--chart", women, "-o", gone}},
		{"is a folder", []string{"import", nest, "--chart", women, "-o", file("folder")}},

		{"gone.qstep is not there", graded(file("gone.qstep"), "48")},
		{"is a folder", graded(file("folder"), "48")},
		{"not a Quarterstep file", graded(nest, "48")},
		{"not a Quarterstep file", graded(file("cut.qstep"), "48")},
		{"tail.qstep", graded(file("tail.qstep"), "48")},
		{"not a Quarterstep file", graded(file("empty.qstep"), "48")},
		{`no size "47"`, graded(p, "47")},
		{"is not there", []string{"grade", p, "--to", "48", "-o", gone}},
		{"is a folder", []string{"grade", p, "--to", "48", "-o", file("folder")}},

		{"gone.qstep is not there", []string{"check", file("gone.qstep")}},
		{"not a Quarterstep file", []string{"check", "--json", file("cut.qstep")}},

		{`no size "47"`, []string{"export", p, "--size", "47", "--as", "json", "-o", "OUT"}},
		{"is not there", []string{"export", p, "--size", "48", "--as", "csv", "-o", gone}},
		{"is a folder", []string{"export", p, "--size", "48", "--as", "svg", "-o", file("folder")}},

		{`"a9" is no paper`, printed("--paper", "a9")},
		{"cannot be printed", printed("--paper", "0x100mm")},
		{"5080 mm", printed("--paper", "914x30000mm")},
		{"smaller margin", printed("--paper", "a4", "--margin", "60mm")},
		{"smaller margin", printed("--paper", "letter", "--margin", "2in")},
		{"less than nothing", printed("--paper", "a4", "--margin", "-3mm")},
		{"margin", printed("--paper", "a4", "--margin", "wide")},
		{"overlap", printed("--paper", "a4", "--overlap", "wide")},
		{"overlap", printed("--paper", "a4", "--overlap", "90mm")},
		{`no size "47"`, printed("--paper", "a4", "--size", "48,47")},
		{`no size ""`, printed("--paper", "a4", "--size", "48,")},
		{"is not there", []string{"print", p, "--paper", "a4", "-o", gone}},
		{"is a folder", []string{"print", p, "--paper", "a4", "-o", file("folder")}},
		{"cannot be made", []string{"demo", "-o", filepath.Join(nest, "x")}},
	} {
		refused(t, folder, exitInput, c.want, c.args...)
	}
}
