package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app/paper"
	"quarterstep/model/geom"
)

// demoScan is a piece of the demo blouse in four sizes, as a scanner sees it at
// 150 pixels to the inch.
var demoScan = filepath.Join("..", "..", "testdata", "scans", "facing.png")

// drawPNG writes a picture of w by h px, its greys given by ink.
func drawPNG(t *testing.T, path string, w, h int, grey func(x, y float64) float64) {
	t.Helper()
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			g.SetGray(x, y, color.Gray{Y: uint8(grey(float64(x)+0.5, float64(y)+0.5))})
		}
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, g); err != nil {
		t.Fatal(err)
	}
}

func opened(t *testing.T, path string) *paper.Photo {
	t.Helper()
	p, err := paper.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func colours(t *testing.T, p *paper.Photo) *image.RGBA {
	t.Helper()
	c, err := p.Colours()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// A scan comes out to the scale of its file, which the flat picture says of
// itself; made flat again it stays as it is, to a grey of 255; turned it lies
// across.
func TestStraightenAScan(t *testing.T) {
	folder := t.TempDir()
	flat, again, turned := filepath.Join(folder, "f.png"), filepath.Join(folder, "g.png"), filepath.Join(folder, "t.png")
	out := done(t, "straighten", demoScan, "-o", flat)
	if !strings.Contains(out, "By the file's own scale") || !strings.Contains(out, "152 by 122 mm of paper") {
		t.Errorf("straighten says %q", out)
	}
	first := opened(t, flat)
	was, is := opened(t, demoScan).Picture, first.Picture
	for i, px := range []int{is.Size().X, is.Size().Y} {
		want := float64([]int{was.Size().X, was.Size().Y}[i]) / was.PerInch[i]
		if got := float64(px) / is.PerInch[i]; math.Abs(got-want) > 1/is.PerInch[i] {
			t.Errorf("it shows %.3f in of paper, not %.3f", got, want)
		}
	}
	done(t, "straighten", "--ref", "scan", flat, "-o", again)
	second := opened(t, again)
	same := second.Picture
	if same.Size() != is.Size() || same.PerInch != is.PerInch {
		t.Fatalf("made flat again it is %v px at %v to the inch, not %v at %v", same.Size(), same.PerInch, is.Size(), is.PerInch)
	}
	greys, greysAgain := colours(t, first), colours(t, second)
	for y := 2; y < is.Size().Y-2; y++ {
		for x := 2; x < is.Size().X-2; x++ {
			if a, b := greys.RGBAAt(x, y).G, greysAgain.RGBAAt(x, y).G; max(a, b)-min(a, b) > 1 {
				t.Fatalf("made flat again, pixel %d,%d is %d, not %d", x, y, b, a)
			}
		}
	}
	done(t, "straighten", demoScan, "--turn", "1", "-o", turned)
	if got := opened(t, turned).Picture.Size(); got != image.Pt(is.Size().Y, is.Size().X) {
		t.Errorf("turned it is %v px", got)
	}
}

// Known lengths put right a scan that lies about its scale across by 1 %.
func TestStraightenByKnownLengths(t *testing.T) {
	to := filepath.Join(t.TempDir(), "f.png")
	per := 150 / 25.4
	line := func(x0, y0, x1, y1 float64) string {
		return strings.Join([]string{num(x0 * per), num(y0 * per), num(x1 * per), num(y1 * per)}, ",")
	}
	out := done(t, "straighten", demoScan, "-o", to,
		"--known", line(10, 20, 130, 20)+"=121.2mm", "--known", "1:"+line(10, 20, 10, 100)+"=8 cm")
	if !strings.Contains(out, "The scan was 1.0 % off: put right.") || !strings.Contains(out, "154 by 122 mm") {
		t.Errorf("straighten says %q", out)
	}
}

func num(v float64) string {
	b, _ := json.Marshal(v)
	return string(b)
}

// A white page on a dark table, its corners clicked some pixels off, makes the
// picture flat: the page comes out 210 by 297 mm (ISO 216), and all is said as
// one object.
func TestStraightenByAPage(t *testing.T) {
	folder := t.TempDir()
	photo, to := filepath.Join(folder, "p.png"), filepath.Join(folder, "f.png")
	const x0, y0, per = 60.0, 80.0, 2.4
	const x1, y1 = x0 + 210*per, y0 + 297*per
	drawPNG(t, photo, 700, 900, func(x, y float64) float64 {
		in := func(v, lo, hi float64) float64 { return min(max(min(v-lo, hi-v)+0.5, 0), 1) }
		return 60 + 180*in(x, x0, x1)*in(y, y0, y1)
	})
	corners := strings.Join([]string{num(x1 - 2), num(y0 + 2), num(x0 + 3), num(y0 - 1), num(x0), num(y1 - 2), num(x1 + 2), num(y1)}, ",")
	var got flatOut
	if err := json.Unmarshal([]byte(done(t, "straighten", photo, "--ref", "a4", "--corners", corners, "--json", "-o", to)), &got); err != nil {
		t.Fatal(err)
	}
	h, lens := got.Pictures[0].H, got.Pictures[0].Lens
	mm := func(x, y float64) geom.Point {
		q := geom.Pt(x, y)
		for range 20 { // p = centre + (q - centre) (1 + k1 r²)
			v := q.Sub(geom.Pt(lens.Centre[0], lens.Centre[1]))
			r := v.Len() / lens.Scale
			q = geom.Pt(lens.Centre[0], lens.Centre[1]).Add(geom.Pt(x, y).Sub(geom.Pt(lens.Centre[0], lens.Centre[1])).Scale(1 / (1 + lens.K1*r*r)))
		}
		w := h[6]*q.X + h[7]*q.Y + h[8]
		return geom.Pt((h[0]*q.X+h[1]*q.Y+h[2])/w, (h[3]*q.X+h[4]*q.Y+h[5])/w)
	}
	const tol = 0.1 // mm
	if across, down := mm(x0, y0).Dist(mm(x1, y0)), mm(x0, y0).Dist(mm(x0, y1)); math.Abs(across-210) > tol || math.Abs(down-297) > tol {
		t.Errorf("the page is %.2f by %.2f mm", across, down)
	}
	if len(got.Pictures[0].Says) != 1 || !strings.Contains(got.Pictures[0].Says[0], "edges agree") || got.Pictures[0].Points < 100 {
		t.Errorf("it says %+v", got.Pictures[0])
	}
	at := mm(x0, y0).Sub(geom.Pt(got.From[0], got.From[1])).Scale(got.PerMM)
	flat := colours(t, opened(t, to))
	for _, c := range []struct {
		by   float64
		want uint8
	}{{-3, 60}, {3, 240}} {
		if g := flat.RGBAAt(int(at.X+c.by), int(at.Y+c.by)).G; math.Abs(float64(g)-float64(c.want)) > 8 {
			t.Errorf("%+v px from the page's corner the flat picture is %d, want %d", c.by, g, c.want)
		}
	}
}

// A scan cut into two parts that overlap becomes one again by two places seen in
// both.
func TestStraightenTwoParts(t *testing.T) {
	folder := t.TempDir()
	whole := opened(t, demoScan).Picture
	pixels := colours(t, opened(t, demoScan))
	const from, to = 380, 520 // px: the second begins before the first ends
	part := func(name string, x0, x1 int) string {
		flat := paper.Flat{Colour: image.NewRGBA(image.Rect(0, 0, x1-x0, whole.Size().Y)), PerMM: whole.PerInch[0] / 25.4}
		for y := range whole.Size().Y {
			copy(flat.Colour.Pix[y*flat.Colour.Stride:][:4*(x1-x0)], pixels.Pix[y*pixels.Stride+4*x0:])
		}
		var b bytes.Buffer
		if err := flat.WritePNG(&b); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(folder, name)
		write(t, path, b.String())
		return path
	}
	a, b := part("left.png", 0, to), part("right.png", from, whole.Size().X)
	both := filepath.Join(folder, "both.png")
	join := func(x, y float64) string { return num(x) + "," + num(y) + "=2:" + num(x-from+1) + "," + num(y-1) }
	out := done(t, "straighten", a, b, "--join", join(450, 92), "--join", join(480, 530), "-o", both)
	if !strings.Contains(out, "right.png: The parts agree to within 0.1 mm") || !strings.Contains(out, "152 by 12") {
		t.Errorf("straighten says %q", out)
	}
	refused(t, folder, exitUsage, "picture 2 wants two --join", "straighten", a, b, "--join", join(450, 92), "-o", "OUT")
}

func TestStraightenRefusals(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string { return filepath.Join(folder, name) }
	drawPNG(t, file("photo.png"), 300, 300, func(x, y float64) float64 { return 200 })
	write(t, file("words.jpg"), "two metres of linen\n")
	write(t, file("lenses.json"), `[{"camera":"","k1":3}]`)
	four := "10,10,90,10,90,90,10,90"
	for _, c := range []struct {
		code int
		want string
		args []string
	}{
		{exitUsage, "wants a file", []string{"-o", "OUT"}},
		{exitUsage, "-o is missing", []string{file("photo.png"), "--ref", "scan"}},
		{exitUsage, "is no scan; say by --ref", []string{file("photo.png"), "-o", "OUT"}},
		{exitUsage, "--ref is scan,", []string{file("photo.png"), "--ref", "napkin", "-o", "OUT"}},
		{exitUsage, "want their --corners", []string{file("photo.png"), "--ref", "a4", "-o", "OUT"}},
		{exitUsage, "wants four corners", []string{file("photo.png"), "--ref", "a4", "--corners", "1,2,3,4", "-o", "OUT"}},
		{exitUsage, "are no places", []string{file("photo.png"), "--ref", "a4", "--corners", "1,2,three,4", "-o", "OUT"}},
		{exitUsage, "are no places", []string{file("photo.png"), "--ref", "a4", "--corners", "1,2,NaN,4", "-o", "OUT"}},
		{exitUsage, "--squares is typed 3x2", []string{file("photo.png"), "--ref", "mat", "--corners", four, "--squares", "3", "-o", "OUT"}},
		{exitUsage, `--cell "wide" is no length`, []string{file("photo.png"), "--ref", "mat", "--corners", four, "--cell", "wide", "-o", "OUT"}},
		{exitUsage, "--apart is typed", []string{file("photo.png"), "--ref", "targets", "--apart", "41 cm", "-o", "OUT"}},
		{exitInput, "no targets are found", []string{file("photo.png"), "--ref", "targets", "-o", "OUT"}},
		{exitUsage, "--known is typed", []string{demoScan, "--known", "1,2=10 cm", "-o", "OUT"}},
		{exitUsage, "names no picture; there are 1", []string{demoScan, "--known", "2:1,2,3,4=10 cm", "-o", "OUT"}},
		{exitInput, "does not say how many pixels", []string{file("photo.png"), "--ref", "scan", "-o", "OUT"}},
		{exitInput, "photo.png: straightening by the A4 page", []string{file("photo.png"), "--ref", "a4", "--corners", four, "-o", "OUT"}},
		{exitInput, "is not there", []string{file("gone.jpg"), "-o", "OUT"}},
		{exitInput, "words.jpg", []string{file("words.jpg"), "-o", "OUT"}},
		{exitInput, "it has no camera", []string{demoScan, "--lens", file("lenses.json"), "-o", "OUT"}},
	} {
		refused(t, folder, c.code, c.want, append([]string{"straighten"}, c.args...)...)
	}
	if s := qstep("help", "straighten"); s.code != exitDone || !strings.Contains(s.out, "--corners") {
		t.Error("help says nothing of straighten")
	}
}
