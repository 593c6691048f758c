package main

import (
	"flag"
	"fmt"
	"io"

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
	job, err := app.Plan(p, choice, setup)
	if err != nil {
		return err
	}
	if err := app.WriteFile(*to, job.WritePDF); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: %d pages. Print at 100 %%, measure the test square before you cut.\n", *to, job.Pages())
	return nil
}
