package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"

	"quarterstep/app"
	"quarterstep/grading"
	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
	"quarterstep/printing/tile"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

// chordTol is how far, in px, ui/paint lets a chord depart from its curve; cairo
// is given the same.
const chordTol = 0.15

var (
	ink    = palette.Light.Ink
	ground = palette.Light.Table
)

// tableRival paints the lines and areas of a full Table, 12 pieces in 10 sizes,
// all in one ink; words and marks are left out of both.
func tableRival(made peerPrograms, dir string) (rival, error) {
	p, err := wardrobe(12, 10)
	if err != nil {
		return rival{}, err
	}
	t, err := newTable(&bench{p: p, grader: new(grading.Grader)})
	if err != nil {
		return rival{}, err
	}
	name, out := filepath.Join(dir, "table.txt"), filepath.Join(dir, "table.bgrx")
	d, err := newDrawingFile(name)
	if err != nil {
		return rival{}, err
	}
	layer := scene.Layer{}
	m := t.view.Affine()
	for _, f := range t.layer.Fills {
		f.Ink = scene.InkWords
		layer.Fills = append(layer.Fills, f)
		d.fill(f.Outline.Transform(m), f.Alpha)
	}
	for _, k := range t.layer.Lines {
		if k.Shift != 0 || k.Reach != 0 || k.Arrow {
			continue
		}
		k.Ink = scene.InkWords
		layer.Lines = append(layer.Lines, k)
		d.stroke(k.Path.Transform(m), k.Width, k.Round, k.Alpha, k.Dash, 0)
	}
	t.layer = layer
	return rival{
		name: "paint the Table, 12 pieces x 10", peer: "cairo", most: 0.3, times: 10,
		ours:    func() error { t.whole(); return nil },
		command: []string{made.cairo, "table", name, out, strconv.Itoa(tableWide), strconv.Itoa(tableHigh)}, at: 4,
		agree: func() (string, error) { return sameTable(t.img, out) },
	}, d.close()
}

// sameTable holds our picture against cairo's.
func sameTable(img *image.RGBA, file string) (string, error) {
	its, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	if len(its) != len(img.Pix) {
		return "", fmt.Errorf("%d bytes against %d", len(its), len(img.Pix))
	}
	var sum, inked float64
	for i := 0; i < len(its); i += 4 {
		for k := range 3 {
			v := float64(img.Pix[i+k]) - float64(its[i+2-k])
			sum += v * v
		}
		g := float64(its[i+1]) - float64(ground.G)
		inked += 3 * g * g
	}
	away := math.Sqrt(sum / inked)
	said := fmt.Sprintf("%.1f %% of the ink (rms)", 100*away)
	if away > 0.15 {
		return "", errors.New("pictures differ by " + said)
	}
	return said, nil
}

// pdfRival writes a nest on about 40 pages. Cairo is given, page by page, those
// curves of every line that reach the page, with their dashes, and none of the
// words, names, layers and joining marks that ours writes as well.
func pdfRival(made peerPrograms, dir string) (rival, error) {
	p, err := wardrobe(16, 8)
	if err != nil {
		return rival{}, err
	}
	var sizes []string
	for _, s := range p.Chart.Sizes[:8] {
		sizes = append(sizes, s.Name)
	}
	paper, err := tile.ParsePaper("A4")
	if err != nil {
		return rival{}, err
	}
	job, err := app.Plan(p, app.PrintChoice{Sizes: sizes, Stitching: true, Marks: true}, tile.Setup{Paper: paper, Margin: 10, Overlap: 10})
	if err != nil {
		return rival{}, err
	}
	name, out := filepath.Join(dir, "pages.txt"), filepath.Join(dir, "cairo.pdf")
	d, err := newDrawingFile(name)
	if err != nil {
		return rival{}, err
	}
	if err := d.sheets(job.Plan); err != nil {
		return rival{}, err
	}
	var written bytes.Buffer
	return rival{
		name: fmt.Sprintf("write a PDF of %d pages", job.Pages()), peer: "cairo", most: 1, times: 5,
		ours:    func() error { written.Reset(); return job.WritePDF(&written) },
		command: []string{made.cairo, "pdf", name, out, pt(paper.Width), pt(paper.Height)}, at: 4,
		agree: func() (string, error) { return samePages(job.Plan, written.Bytes(), out, dir) },
	}, d.close()
}

// pt is mm as PDF points.
func pt(mm float64) string { return fmt.Sprint(mm * 72 / 25.4) }

// sheets writes what each sheet of the plan shows.
func (d *drawingFile) sheets(plan tile.Plan) error {
	for _, s := range plan.Sheets {
		m := plan.OnPage(s)
		window := geom.BoxOf(m.Apply(s.Window.Min), m.Apply(s.Window.Max))
		d.page(window)
		for _, q := range plan.Pieces {
			for _, k := range q.Piece.Strokes {
				if err := d.within(k.Path.Transform(m.Mul(q.At)), window, k.Width, k.Dash); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// within writes the runs of curves of p that reach the window.
func (d *drawingFile) within(p geom.Path, window geom.Box, width float64, dash []float64) error {
	var run geom.Path
	var at, offset float64
	flush := func() {
		if len(run) > 0 {
			d.stroke(run, width, false, 1, dash, offset)
		}
		run = nil
	}
	for _, c := range p {
		b := geom.Path{c}.Bounds()
		long, err := geom.Path{c}.Length(1e-3)
		if err != nil {
			return err
		}
		if b.Min.X > window.Max.X || b.Max.X < window.Min.X || b.Min.Y > window.Max.Y || b.Max.Y < window.Min.Y {
			flush()
		} else {
			if len(run) == 0 {
				offset = at
			}
			run = append(run, c)
		}
		at += long
	}
	flush()
	return nil
}

// samePages holds a page in the middle of ours against cairo's: where cairo has
// ink, so have we.
func samePages(plan tile.Plan, ours []byte, cairo, dir string) (string, error) {
	mine := filepath.Join(dir, "ours.pdf")
	if err := os.WriteFile(mine, ours, 0o600); err != nil {
		return "", err
	}
	cover, n := plan.Pages()-len(plan.Sheets), len(plan.Sheets)/2
	a, err := grey(mine, cover+n+1)
	if err != nil {
		return "", err
	}
	b, err := grey(cairo, n+1)
	if err != nil {
		return "", err
	}
	if a.Rect != b.Rect {
		return "", fmt.Errorf("pages of %v and %v px", a.Rect, b.Rect)
	}
	inked, missing := 0, 0
	for y := 1; y < b.Rect.Dy()-1; y++ {
		for x := 1; x < b.Rect.Dx()-1; x++ {
			if b.GrayAt(x, y).Y >= 128 {
				continue
			}
			inked++
			if darkestBy(a, x, y) > 200 {
				missing++
			}
		}
	}
	said := fmt.Sprintf("%d of %d px of a page missing", missing, inked)
	if inked < 100 || missing*100 > inked {
		return "", errors.New(said)
	}
	return said, nil
}

func darkestBy(g *image.Gray, x, y int) uint8 {
	dark := uint8(255)
	for j := y - 1; j <= y+1; j++ {
		for i := x - 1; i <= x+1; i++ {
			dark = min(dark, g.GrayAt(i, j).Y)
		}
	}
	return dark
}

// grey is a page as poppler shows it, at 100 px to the inch.
func grey(file string, page int) (*image.Gray, error) {
	n := strconv.Itoa(page)
	said, err := exec.Command("pdftoppm", "-r", "100", "-gray", "-f", n, "-l", n, file).Output()
	if err != nil {
		return nil, fmt.Errorf("showing page %d of %s: %w", page, filepath.Base(file), err)
	}
	var w, h, most int
	if _, err := fmt.Sscanf(string(said[:min(len(said), 40)]), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil || len(said) < w*h {
		return nil, fmt.Errorf("showing page %d of %s: no picture", page, filepath.Base(file))
	}
	return &image.Gray{Pix: said[len(said)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}, nil
}

// offsetRival draws the line 15 mm outside the outlines of 10 pieces in 10
// sizes, to 0.005 mm as for print. GEOS is given them as chords that near.
func offsetRival(made peerPrograms, dir string) (rival, error) {
	const width, tol = 15, 0.005
	p, err := wardrobe(10, 10)
	if err != nil {
		return rival{}, err
	}
	var rings [][]geom.Path
	var chords bytes.Buffer
	for _, q := range p.Pieces {
		for _, o := range q.Nest {
			rings = append(rings, o.Edges)
			pts := geom.Join(o.Edges...).Flatten(tol)
			pts[len(pts)-1] = pts[0]
			fmt.Fprintln(&chords, len(pts))
			for _, v := range pts {
				fmt.Fprintln(&chords, v.X, v.Y)
			}
		}
	}
	name, out := filepath.Join(dir, "rings.txt"), filepath.Join(dir, "beside.txt")
	if err := os.WriteFile(name, chords.Bytes(), 0o600); err != nil {
		return rival{}, err
	}
	beside := make([]geom.Path, len(rings))
	return rival{
		name: fmt.Sprintf("lines beside %d outlines", len(rings)), peer: "GEOS", most: 1.5, times: 5,
		ours: func() error {
			for i, edges := range rings {
				widths := make([]float64, len(edges))
				for k := range widths {
					widths[k] = width
				}
				lines, err := geom.OffsetOutline(edges, widths, tol)
				if err != nil {
					return err
				}
				beside[i] = geom.Join(lines...)
			}
			return nil
		},
		command: []string{made.geos, name, out, strconv.Itoa(width)}, at: 3,
		agree: func() (string, error) { return sameLines(beside, out) },
	}, nil
}

// sameLines holds every point of GEOS's lines against ours. GEOS leaves out
// bends that are small against the width before it begins, and cuts sharp corners
// off at another place, so a few of its points are farther off.
func sameLines(ours []geom.Path, file string) (string, error) {
	const near, farthest = 0.02, 1 // mm
	f, err := os.Open(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	in := bufio.NewReader(f)
	worst, off, all := 0.0, 0, 0
	for i, p := range ours {
		var n int
		if _, err := fmt.Fscan(in, &n); err != nil {
			return "", fmt.Errorf("outline %d: %w", i, err)
		}
		for range n {
			var q geom.Point
			if _, err := fmt.Fscan(in, &q.X, &q.Y); err != nil {
				return "", fmt.Errorf("outline %d: %w", i, err)
			}
			_, _, d := p.Nearest(q, 1e-4)
			all++
			if !(d <= near) {
				off, worst = off+1, max(worst, d)
			}
		}
	}
	said := fmt.Sprintf("%.2f %% of its points over %g mm off, at most %.2f", 100*float64(off)/float64(all), near, worst)
	if off*20 > all || worst > farthest {
		return "", errors.New(said)
	}
	return said, nil
}

// flatRival makes a grey photo of 12 million px flat: lens, perspective, and the
// four pixels about each place weighed.
func flatRival(made peerPrograms, dir string) (rival, error) {
	photo, _ := nestOnPaper(12, 10)
	size := photo.Rect.Size()
	m, bounds := tilted(size), flatBounds(size)
	name, out := filepath.Join(dir, "photo.grey"), filepath.Join(dir, "flat.grey")
	if err := os.WriteFile(name, photo.Pix, 0o600); err != nil {
		return rival{}, err
	}
	var flat *image.Gray
	ours := func() (err error) {
		flat, err = straight.Flatten(context.Background(), photo, m, bounds, perMM, nil)
		return err
	}
	if err := ours(); err != nil {
		return rival{}, err
	}
	bare, err := unbent(m)
	if err != nil {
		return rival{}, err
	}
	command := []string{
		"/usr/bin/python3", made.remap, name, fmt.Sprint(size.X), fmt.Sprint(size.Y), out, fmt.Sprint(flat.Rect.Dx()), fmt.Sprint(flat.Rect.Dy()),
		fmt.Sprint(m.Lens.K1), fmt.Sprint(m.Lens.Scale), fmt.Sprint(m.Lens.Centre.X), fmt.Sprint(m.Lens.Centre.Y),
	}
	for _, v := range bare {
		command = append(command, fmt.Sprint(v))
	}
	return rival{
		name: "make 12 million px flat", peer: "OpenCV", most: 3, times: 2, ours: ours, command: command, at: 6,
		agree: func() (string, error) { return sameFlat(flat, out) },
	}, nil
}

// sameFlat holds our flat picture against OpenCV's.
func sameFlat(flat *image.Gray, file string) (string, error) {
	its, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	if len(its) != len(flat.Pix) {
		return "", fmt.Errorf("%d px against %d", len(its), len(flat.Pix))
	}
	far := 0
	for i, v := range its {
		if d := int(v) - int(flat.Pix[i]); d > 8 || d < -8 {
			far++
		}
	}
	said := fmt.Sprintf("%.3f %% of px off by over 8 of 255", 100*float64(far)/float64(len(its)))
	if float64(far) > 0.005*float64(len(its)) {
		return "", errors.New(said)
	}
	return said, nil
}

// unbent takes a pixel of the flat picture, counted from the middle of the
// first, to the photo as if its lens did not bend, row by row.
func unbent(m straight.Map) ([9]float64, error) {
	h := m.H
	c := func(i, j int) float64 { return h[i%3*3+j%3] }
	var inv, out [9]float64
	var det float64
	for i := range 3 {
		for j := range 3 {
			inv[j*3+i] = c(i+1, j+1)*c(i+2, j+2) - c(i+1, j+2)*c(i+2, j+1)
		}
		det += c(0, i) * (c(1, i+1)*c(2, i+2) - c(1, i+2)*c(2, i+1))
	}
	if det == 0 {
		return out, errors.New("the photo's perspective cannot be turned round")
	}
	for r := range 3 {
		a, b, k := inv[r*3]/det, inv[r*3+1]/det, inv[r*3+2]/det
		out[r*3], out[r*3+1], out[r*3+2] = a/perMM, b/perMM, k+(a+b)*0.5/perMM
	}
	return out, nil
}
