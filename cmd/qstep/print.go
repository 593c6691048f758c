package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"quarterstep/app"
)

// printPDF writes a pattern as pages to print.
func printPDF(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("print", flag.ContinueOnError)
	paper := fs.String("paper", "", "")
	sizes := fs.String("size", "", "")
	margin := fs.String("margin", "", "")
	overlap := fs.String("overlap", "", "")
	date := fs.String("date", "", "")
	nest := fs.Bool("nest", false, "")
	noMarks := fs.Bool("no-marks", false, "")
	noStitching := fs.Bool("no-stitching", false, "")
	wide := fs.Bool("wide", false, "")
	dark := fs.Bool("dark", false, "")
	line := fs.String("line", "", "")
	square := fs.String("square", "", "")
	last := fs.String("changed", "", "")
	to := fs.String("o", "", "")
	var longer, pieces many
	fs.Var(&longer, "longer", "")
	fs.Var(&pieces, "piece", "")
	files, typed, err := parseMeasured(fs, args, 1, "paper", "o")
	if err != nil {
		return err
	}
	setup, err := app.PrintSetup(*paper, *margin, *overlap)
	if err != nil {
		return err
	}
	setup.Landscape = *wide
	if setup, err = app.ProjectorSetup(setup, *dark, *line, *square); err != nil {
		return err
	}
	p, err := app.Open(files[0])
	if err != nil {
		return err
	}
	if p, err = aim(p, "", typed, longer); err != nil {
		return err
	}
	choice := app.PrintChoice{
		Sizes: sizeList(*sizes), WithTarget: len(typed) > 0, Nest: *nest,
		Stitching: !*noStitching, Marks: !*noMarks, Date: *date,
	}
	if choice.Pieces, err = idsNamed(p, pieces); err != nil {
		return err
	}
	before, err := lastPrint(*last)
	if err != nil {
		return err
	}
	job, err := app.PlanLike(p, choice, setup, before)
	if err != nil {
		return err
	}
	return writePages(job, *to, *last, before, out)
}

// lastPrint reads what a file keeps of the last print; nothing without a file.
func lastPrint(file string) (app.Printed, error) {
	if file == "" {
		return app.Printed{}, nil
	}
	return app.LoadPrinted(file)
}

// writePages writes a job's pages to a file: all of them, or with a file that
// keeps what was printed last those that changed since.
func writePages(job app.Job, to, last string, before app.Printed, out io.Writer) error {
	if last == "" {
		if err := app.WriteFile(to, job.WritePDF); err != nil {
			return err
		}
		return sayPages(out, to, job.Pages())
	}
	pages, err := job.ChangedPages(before)
	if err != nil {
		return err
	}
	if len(pages) == 0 {
		fmt.Fprintf(out, "No page has changed since the last print; %s was not written.\n", to)
		return nil
	}
	now, err := job.Printed()
	if err != nil {
		return err
	}
	if err := app.WriteFile(to, func(w io.Writer) error { return job.WritePages(w, pages) }); err != nil {
		return err
	}
	if err := app.SavePrinted(last, now); err != nil {
		return err
	}
	if len(pages) < job.Pages() {
		fmt.Fprintf(out, "Changed since the last print: %s.\n", strings.Join(pages, ", "))
	}
	return sayPages(out, to, len(pages))
}

func sayPages(out io.Writer, to string, n int) error {
	_, err := fmt.Fprintf(out, "%s: %d pages. Print at 100 %%, measure the test square before you cut.\n", to, n)
	return err
}
