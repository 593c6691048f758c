package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// said is what one command gave.
type said struct {
	code      int
	out, errs string
}

func qstep(args ...string) said {
	var out, errs bytes.Buffer
	code := run(args, &out, &errs)
	return said{code, out.String(), errs.String()}
}

// done runs a command that must succeed without a word on standard error.
func done(t *testing.T, args ...string) string {
	t.Helper()
	s := qstep(args...)
	if s.code != exitDone || s.errs != "" {
		t.Fatalf("qstep %s: exit %d, %s", strings.Join(args, " "), s.code, s.errs)
	}
	return s.out
}

const (
	women  = "en13402-women"
	misses = "us-misses"
)

func nestFile(name string) string { return filepath.Join("..", "..", "testdata", "nests", name) }

// brought imports a nest into folder and returns the project's path.
func brought(t *testing.T, folder, nest, chart string) string {
	t.Helper()
	to := filepath.Join(folder, strings.TrimSuffix(filepath.Base(nest), ".svg")+".qstep")
	done(t, "import", nest, "--chart", chart, "-o", to)
	return to
}

func cleanBlouse(t *testing.T, folder string) string {
	t.Helper()
	return brought(t, folder, nestFile("blouse-eu-36-42.svg"), women)
}

// withoutSizes writes the nest less the layers of some sizes.
func withoutSizes(t *testing.T, folder, nest string, sizes ...string) string {
	t.Helper()
	text := string(read(t, nest))
	for _, s := range sizes {
		layer := regexp.MustCompile(`(?s)<g id="layer-` + s + `".*?</g>\n`)
		if len(layer.FindAllString(text, -1)) != 1 {
			t.Fatalf("%s has not one layer %s", nest, s)
		}
		text = layer.ReplaceAllString(text, "")
	}
	to := filepath.Join(folder, "less-"+strings.Join(sizes, "-")+".svg")
	write(t, to, text)
	return to
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// listing is every file under folder with a sum of what it holds.
func listing(t *testing.T, folder string) string {
	t.Helper()
	var b strings.Builder
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			fmt.Fprintf(&b, "%s/\n", path)
			return nil
		}
		fmt.Fprintf(&b, "%s %x\n", path, sha256.Sum256(read(t, path)))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestChartsAreListedWithTheirSources(t *testing.T) {
	out := done(t, "charts")
	for _, want := range []string{women, misses, "source: ", "status: ", "sizes 32 34 36 "} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
}

func TestHelpIsTheUsage(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"--help"}, {"-h"}, {"grade", "-h"}} {
		if got := done(t, args...); got != usage {
			t.Errorf("%v says %q", args, got)
		}
	}
	if s := qstep(); s.code != exitUsage || s.errs != usage || s.out != "" {
		t.Errorf("without a command: %+v", s)
	}
}

func TestEveryNestComesIn(t *testing.T) {
	folder := t.TempDir()
	own := filepath.Join(folder, "own.csv")
	// The girths of EN 13402-3 women, bust as published, waist and hip from memory.
	write(t, own, "# name: Own\n# unit: cm\nsize,bust,waist,hip\n36,84,68,92\n38,88,72,96\n40,92,76,100\n42,96,80,104\n44,100,84,108\n")
	inches := filepath.Join(folder, "inches.csv")
	write(t, inches, "# unit: in\nsize;bust;waist;hip\n12;34;26 1/2;36\n14;36;28;38\n16;38;30;40\n18;40;32;42\n")
	for _, c := range []struct {
		nest, chart string
		want        []string
	}{
		{"blouse-eu-36-42.svg", women, []string{"Back: printed in sizes 36, 38, 40, 42;", "Front: printed in sizes 36, 38, 40, 42;", "Front facing: printed in sizes 36, 38, 40, 42;", "Sleeve: printed in sizes 36, 38, 40, 42;"}},
		{"blouse-traced-eu-36-42.svg", women, []string{"Back: printed in sizes 36, 38, 40, 42;", "Front: printed in sizes 36, 38, 40, 42;", "Front facing: printed in sizes 36, 38, 40, 42;", "Sleeve: printed in sizes 36, 38, 40, 42;"}},
		{"blouse-polygons-eu-38-42.svg", women, []string{"Back: printed in sizes 38, 40, 42;", "Front: printed in sizes 38, 40, 42;", "Front facing: printed in sizes 38, 40, 42;", "Sleeve: printed in sizes 38, 40, 42;"}},
		{"waistcoat-us-12-18.svg", misses, []string{"Back: printed in sizes 12, 14, 16, 18;", "Front: printed in sizes 12, 14, 16, 18;", "Front facing: printed in sizes 12, 14, 16, 18;"}},
		{"blouse-eu-36-42.svg", own, []string{"Back: printed in sizes 36, 38, 40, 42;", "Sleeve: printed in sizes 36, 38, 40, 42;"}},
		{"waistcoat-us-12-18.svg", inches, []string{"Back: printed in sizes 12, 14, 16, 18;", "Front facing: printed in sizes 12, 14, 16, 18;"}},
	} {
		to := filepath.Join(folder, "p.qstep")
		out := done(t, "import", nestFile(c.nest), "--chart", c.chart, "-o", to)
		for _, w := range c.want {
			if !strings.Contains(out, w) {
				t.Errorf("%s by %s: no %q in\n%s", c.nest, filepath.Base(c.chart), w, out)
			}
		}
	}
}

func TestTheSameNestGivesTheSameProject(t *testing.T) {
	folder := t.TempDir()
	for nest, chart := range map[string]string{"blouse-eu-36-42.svg": women, "waistcoat-us-12-18.svg": misses} {
		first := read(t, brought(t, folder, nestFile(nest), chart))
		if !bytes.Equal(first, read(t, brought(t, folder, nestFile(nest), chart))) {
			t.Errorf("%s comes in differently the second time", nest)
		}
	}
}

// From 36-42 to 48 the bust of EN 13402-3 grows 4 + 4 + 6 cm, three printed
// steps only 12.
func TestGradeSaysWhatStepsLeaveShort(t *testing.T) {
	folder := t.TempDir()
	p, q := cleanBlouse(t, folder), filepath.Join(folder, "q.qstep")
	const short = "By steps the bust would be 20 mm short: the chart grows 140 mm from 42 to 48, the printed steps 120 mm."
	for by, args := range map[string][]string{
		"chart": {"grade", p, "--to", "48", "-o", q},
		"steps": {"grade", "--to=48", "-by", "steps", p, "-o", q},
	} {
		out := done(t, args...)
		if !strings.HasPrefix(out, "Graded to 48 by "+by+".\n") || !strings.Contains(out, short) {
			t.Errorf("by %s: %s", by, out)
		}
	}
	for _, size := range []string{"40", "34"} {
		if out := done(t, "grade", p, "--to", size, "-o", q); out != "Graded to "+size+" by chart.\n" {
			t.Errorf("to %s: %s", size, out)
		}
	}
}

// Flags may stand before and after the file; the project is the same.
func TestFlagsStandAnywhere(t *testing.T) {
	folder := t.TempDir()
	p := cleanBlouse(t, folder)
	var first []byte
	for _, args := range [][]string{
		{"grade", p, "--to", "48", "--by", "chart", "-o", "TO"},
		{"grade", "--to", "48", p, "-o", "TO"},
		{"grade", "-o", "TO", "-to=48", p},
		{"grade", "-o=TO", p, "--to=48"},
	} {
		to := filepath.Join(folder, "q.qstep")
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "TO", to)
		}
		done(t, args...)
		got := read(t, to)
		if first == nil {
			first = got
		}
		if !bytes.Equal(got, first) {
			t.Errorf("%v gives another project", args[:3])
		}
		if err := os.Remove(to); err != nil {
			t.Fatal(err)
		}
	}
}
