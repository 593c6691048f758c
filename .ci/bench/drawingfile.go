package main

import (
	"bufio"
	"fmt"
	"image/color"
	"os"

	"quarterstep/model/geom"
)

// drawingFile writes what peers/cairo.c reads; the form is said there.
type drawingFile struct {
	f *os.File
	w *bufio.Writer
}

func newDrawingFile(name string) (*drawingFile, error) {
	f, err := os.Create(name)
	if err != nil {
		return nil, err
	}
	return &drawingFile{f, bufio.NewWriter(f)}, nil
}

// page begins a page on which nothing is drawn outside b.
func (d *drawingFile) page(b geom.Box) {
	fmt.Fprintln(d.w, "P\nC", b.Min.X, b.Min.Y, b.Width(), b.Height())
}

func (d *drawingFile) stroke(p geom.Path, width float64, round bool, alpha float64, dash []float64, offset float64) {
	end := 0
	if round {
		end = 1
	}
	fmt.Fprint(d.w, "S ", width, " ", end, " ", alpha, " ", len(dash))
	for _, v := range dash {
		fmt.Fprint(d.w, " ", v)
	}
	fmt.Fprintln(d.w, "", offset)
	d.path(p)
}

func (d *drawingFile) fill(p geom.Path, alpha float64) {
	fmt.Fprintln(d.w, "F", alpha)
	d.path(p)
}

func (d *drawingFile) path(p geom.Path) {
	if len(p) > 0 {
		fmt.Fprintln(d.w, "M", p[0].P0.X, p[0].P0.Y)
	}
	for _, c := range p {
		fmt.Fprintln(d.w, "B", c.P1.X, c.P1.Y, c.P2.X, c.P2.Y, c.P3.X, c.P3.Y)
	}
	fmt.Fprintln(d.w, "E")
}

func (d *drawingFile) close() error {
	if err := d.w.Flush(); err != nil {
		return err
	}
	return d.f.Close()
}

// numbers is a colour as three numbers, 0 to 1.
func numbers(c color.NRGBA) string {
	return fmt.Sprintf("%g,%g,%g", float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}
