// words: none
package proof

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// Renderer is a program that makes pictures of PDFs.
type Renderer struct {
	Name    string
	program string
	deb     string // the package that has it
	args    func(dpi int, in, out string) []string
}

// Renderers are the three, of three families that share no code.
func Renderers() []Renderer {
	return []Renderer{
		{"poppler", "pdftoppm", "poppler-utils", func(dpi int, in, out string) []string {
			return []string{"-r", strconv.Itoa(dpi), "-gray", in, filepath.Join(out, "page")}
		}},
		{"ghostscript", "gs", "ghostscript", func(dpi int, in, out string) []string {
			return []string{
				"-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=pgmraw", "-r" + strconv.Itoa(dpi),
				"-dTextAlphaBits=4", "-dGraphicsAlphaBits=4", "-sOutputFile=" + filepath.Join(out, "page-%03d.pgm"), in,
			}
		}},
		{"mupdf", "mutool", "mupdf-tools", func(dpi int, in, out string) []string {
			return []string{"draw", "-q", "-c", "gray", "-F", "pgm", "-r", strconv.Itoa(dpi), "-o", filepath.Join(out, "page-%03d.pgm"), in}
		}},
	}
}

// Picture is a page in grey, 0 black to 255 white.
type Picture struct {
	Wide, High int
	DPI        float64
	grey       []byte
}

// Pages are the pages of a PDF as r shows them.
func (r Renderer) Pages(t testing.TB, pdf []byte, dpi int) []Picture {
	t.Helper()
	dir := t.TempDir()
	in := filepath.Join(dir, "in.pdf")
	if err := os.WriteFile(in, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, r.program, r.deb, r.args(dpi, in, dir)...)
	names, err := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%s made no picture: %v", r.Name, err)
	}
	pages := make([]Picture, len(names))
	for i, name := range names { // Glob sorts, and the numbers are as long as each other
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		pages[i] = readPGM(t, data, float64(dpi))
	}
	return pages
}

// Check fails the test where qpdf finds the file wrong.
func Check(t testing.TB, pdf []byte) {
	t.Helper()
	in := filepath.Join(t.TempDir(), "in.pdf")
	if err := os.WriteFile(in, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, "qpdf", "qpdf", "--check", in)
}

func run(t testing.TB, program, deb string, args ...string) {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Fatalf("this check needs %s: install the package %s", program, deb)
	}
	if out, err := exec.Command(path, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v: %s", program, err, out)
	}
}

// readPGM reads a grey picture of 256 levels; poppler and mupdf write a
// comment or none.
func readPGM(t testing.TB, data []byte, dpi float64) Picture {
	t.Helper()
	p := Picture{DPI: dpi}
	var most int
	head := data[:min(len(data), 200)]
	for {
		from := bytes.IndexByte(head, '#')
		if from < 0 {
			break
		}
		end := bytes.IndexByte(head[from:], '\n')
		head = append(append([]byte(nil), head[:from]...), head[from+end+1:]...)
	}
	if _, err := fmt.Sscanf(string(head), "P5\n%d %d\n%d\n", &p.Wide, &p.High, &most); err != nil || most != 255 || len(data) < p.Wide*p.High {
		t.Fatalf("not a grey picture: %v", err)
	}
	p.grey = data[len(data)-p.Wide*p.High:]
	return p
}

// Dark is how dark a dot is: 0 white to 255 black; outside it is white.
func (p Picture) Dark(x, y int) float64 {
	if x < 0 || y < 0 || x >= p.Wide || y >= p.High {
		return 0
	}
	return float64(255 - p.grey[y*p.Wide+x])
}

// Ink is how many dots are darker than level, 0 to 255.
func (p Picture) Ink(level byte) int {
	n := 0
	for _, g := range p.grey {
		if 255-g > level {
			n++
		}
	}
	return n
}
