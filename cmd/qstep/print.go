package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"quarterstep/app"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
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
	printer := fs.String("printer", "", "")
	on := fs.String("to", "", "")
	to := fs.String("o", "", "")
	var longer, pieces many
	fs.Var(&longer, "longer", "")
	fs.Var(&pieces, "piece", "")
	files, typed, err := parseMeasured(fs, args, 1, "paper")
	if err != nil {
		return err
	}
	if *to == "" && *on == "" {
		return fmt.Errorf("%w: --o is missing, or --to and a printer", errUsage)
	}
	setup, err := app.PrintSetup(*paper, *margin, *overlap)
	if err != nil {
		return err
	}
	setup.Landscape = *wide
	if setup, err = app.ProjectorSetup(setup, *dark, *line, *square); err != nil {
		return err
	}
	device, setup, err := printerFor(*printer, *on, setup)
	if err != nil {
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
	return handPages(job, where{file: *to, last: *last, printer: device}, before, out)
}

// lastPrint reads what a file keeps of the last print; nothing without a file.
func lastPrint(file string) (app.Printed, error) {
	if file == "" {
		return app.Printed{}, nil
	}
	return app.LoadPrinted(file)
}

// where pages go: to a file, to a printer, or to both.
type where struct {
	file    string
	last    string // the file that keeps what was printed last
	printer app.Printer
}

// handPages hands on a job's pages: all of them, or with a file that keeps what
// was printed last those that changed since.
func handPages(job app.Job, to where, before app.Printed, out io.Writer) error {
	if to.last == "" {
		return to.hand(job, nil, out)
	}
	pages, err := job.ChangedPages(before)
	if err != nil {
		return err
	}
	if len(pages) == 0 {
		undone := to.file + " was not written"
		if to.file == "" {
			undone = "nothing was printed"
		}
		fmt.Fprintf(out, "No page has changed since the last print; %s.\n", undone)
		return nil
	}
	now, err := job.Printed()
	if err != nil {
		return err
	}
	if len(pages) < job.Pages() {
		fmt.Fprintf(out, "Changed since the last print: %s.\n", strings.Join(pages, ", "))
	}
	if err := to.hand(job, pages, out); err != nil {
		return err
	}
	return app.SavePrinted(to.last, now)
}

// hand writes the pages named, or all, and prints them.
func (to where) hand(job app.Job, pages []string, out io.Writer) error {
	write, n := job.WritePDF, job.Pages()
	if pages != nil {
		write, n = func(w io.Writer) error { return job.WritePages(w, pages) }, len(pages)
	}
	switch {
	case strings.EqualFold(filepath.Ext(to.file), ".svg"):
		if err := app.WriteFile(to.file, job.WriteSVG); err != nil {
			return err
		}
		fmt.Fprintf(out, "%s: all pieces in one drawing, true to scale.\n", to.file)
	case to.file != "":
		if err := app.WriteFile(to.file, write); err != nil {
			return err
		}
		if err := sayPages(out, to.file, n); err != nil {
			return err
		}
	}
	if to.printer.Name == "" {
		return nil
	}
	if says := app.MarginCaution(to.printer, job.Plan.Setup); says != "" {
		fmt.Fprintln(out, says)
	}
	return watched(out, to.printer, func(ctx context.Context, tell func(spool.Progress)) error {
		return app.PrintPages(ctx, spool.System{}, to.printer, spool.Job{Title: job.Title(), Paper: job.Plan.Setup.Paper}, write, tell)
	})
}

func sayPages(out io.Writer, to string, n int) error {
	_, err := fmt.Fprintf(out, "%s: %d pages. Print at 100 %%, measure the test square before you cut.\n", to, n)
	return err
}

// printerFor is the printer that the pages go to, where they go to one, and the
// setup corrected for it, or for the one that is named. A printer that nothing
// is sent to need not be there.
func printerFor(named, to string, setup tile.Setup) (app.Printer, tile.Setup, error) {
	s, _ := kept()
	if to == "" {
		return app.Printer{}, app.SetupFor(s, named, setup), nil
	}
	p, err := thePrinter(s, to)
	return p, app.SetupFor(s, p.Name, setup), err
}
