package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"time"

	"quarterstep/app"
	"quarterstep/assets"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/store"
	"quarterstep/printing/tile"
	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

// The pieces and sizes that are tried.
var (
	somePieces = []int{1, 10, 100}
	someSizes  = []int{4, 10, 30}
)

// bench is one wardrobe with what the works need of it, made beforehand and not
// timed.
type bench struct {
	p      model.Pattern
	grader *grading.Grader
	table  *table
	file   []byte // the project file
	svg    string // its nest as a drawing
}

// work is a row of the table: what is timed, on a bench.
type work struct {
	name string
	do   func(b *bench, i int) error
}

var works = []work{
	{"grade for the first time", func(b *bench, _ int) error {
		_, err := new(grading.Grader).Grade(b.p)
		return err
	}},
	{"grade again, links followed", func(b *bench, i int) error {
		_, err := b.grader.Grade(moved(b.p, i))
		return err
	}},
	{"the same without links", func(b *bench, i int) error {
		p := b.p
		p.Links = nil
		_, err := b.grader.Grade(moved(p, i))
		return err
	}},
	{"one frame of a drag", func(b *bench, i int) error { return b.table.drag(b, i) }},
	{"what the Table shows", func(b *bench, _ int) error {
		scene.Static(b.table.in, nil)
		return nil
	}},
	{"paint the Table", func(b *bench, _ int) error {
		b.table.whole()
		return nil
	}},
	{"save", func(b *bench, _ int) error { return store.Write(io.Discard, store.File{Pattern: b.p}) }},
	{"open", func(b *bench, _ int) error {
		_, err := store.Read(bytes.NewReader(b.file), int64(len(b.file)))
		return err
	}},
	{"bring in a drawing", func(b *bench, _ int) error {
		_, err := app.BringIn(b.svg, b.p.Chart)
		return err
	}},
	{"lay on pages and print", func(b *bench, _ int) error {
		job, err := app.Plan(b.p, app.PrintChoice{Nest: true, Stitching: true, Marks: true}, tile.Setup{Paper: tile.Papers()[0], Margin: 10, Overlap: 10})
		if err != nil {
			return err
		}
		return job.WritePDF(io.Discard)
	}},
}

func newBench(pieces, sizes int, dir string) (*bench, error) {
	p, err := wardrobe(pieces, sizes)
	if err != nil {
		return nil, err
	}
	b := &bench{p: p, grader: new(grading.Grader)}
	if b.table, err = newTable(b); err != nil {
		return nil, err
	}
	var file bytes.Buffer
	if err := store.Write(&file, store.File{Pattern: p}); err != nil {
		return nil, err
	}
	b.file = file.Bytes()
	var names []string
	for _, s := range p.Chart.Sizes[:sizes] {
		names = append(names, s.Name)
	}
	var svg bytes.Buffer
	if err := app.Export(&svg, p, app.PrintChoice{Sizes: names}, "svg"); err != nil {
		return nil, err
	}
	b.svg = filepath.Join(dir, fmt.Sprintf("nest-%d-%d.svg", pieces, sizes))
	return b, os.WriteFile(b.svg, svg.Bytes(), 0o600)
}

// newPainter is a painter of the light look.
func newPainter() (*paint.Painter, error) {
	fonts, err := paint.NewFonts(assets.LatoRegular, assets.LatoBold)
	if err != nil {
		return nil, err
	}
	return paint.New(fonts, palette.Light), nil
}

// cells are the times of one work by pieces and sizes.
type cells map[[2]int]time.Duration

// growth times every work at every count of pieces and sizes.
func growth(runs int, dir string, told io.Writer) (map[string]cells, error) {
	all := map[string]cells{}
	for _, w := range works {
		all[w.name] = cells{}
	}
	for _, n := range somePieces {
		for _, k := range someSizes {
			b, err := newBench(n, k, dir)
			if err != nil {
				return nil, fmt.Errorf("making %d pieces in %d sizes: %w", n, k, err)
			}
			for _, w := range works {
				fmt.Fprintf(told, "\r%-70s", fmt.Sprintf("%d pieces, %d sizes: %s", n, k, w.name))
				t, err := median(runs, func(i int) error { return w.do(b, i) })
				if err != nil {
					return nil, fmt.Errorf("%s, %d pieces, %d sizes: %w", w.name, n, k, err)
				}
				all[w.name][[2]int{n, k}] = t
			}
		}
	}
	fmt.Fprintf(told, "\r%70s\r", "")
	return all, nil
}

// power is e in time = c * count^e between two counts.
func power(from, to time.Duration, a, b int) float64 {
	return math.Log(float64(to)/float64(from)) / math.Log(float64(b)/float64(a))
}

// sayGrowth prints the table of works. The last two columns say how the time
// grows from 10 to 100 pieces in 10 sizes, and from 10 to 30 sizes of 10 pieces:
// 0 is not at all, 1 in proportion, 2 with its square.
func sayGrowth(w io.Writer, all map[string]cells) {
	fmt.Fprintf(w, "%-28s", "ms, by pieces x sizes")
	for _, n := range somePieces {
		for _, k := range someSizes {
			fmt.Fprintf(w, "%9s", fmt.Sprintf("%dx%d", n, k))
		}
	}
	fmt.Fprintf(w, "%9s%9s\n%s\n", "pieces^", "sizes^", strings.Repeat("-", 28+9*11))
	for _, row := range works {
		c := all[row.name]
		fmt.Fprintf(w, "%-28s", row.name)
		for _, n := range somePieces {
			for _, k := range someSizes {
				fmt.Fprintf(w, "%9s", ms(c[[2]int{n, k}]))
			}
		}
		fmt.Fprintf(w, "%9.2f%9.2f\n",
			power(c[[2]int{10, 10}], c[[2]int{100, 10}], 10, 100),
			power(c[[2]int{10, 10}], c[[2]int{10, 30}], 10, 30))
	}
}

// ms is a time in ms with three digits that count.
func ms(t time.Duration) string {
	v := float64(t) / float64(time.Millisecond)
	switch {
	case v >= 100:
		return fmt.Sprintf("%.0f", v)
	case v >= 10:
		return fmt.Sprintf("%.1f", v)
	case v >= 1:
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.3f", v)
}
