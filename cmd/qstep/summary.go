package main

import (
	"flag"
	"fmt"
	"io"

	"quarterstep/app"
	"quarterstep/printing/tile"
)

// summarize writes the summary of a pattern.
func summarize(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("summary", flag.ContinueOnError)
	size := fs.String("size", "", "")
	paper := fs.String("paper", "a4", "")
	date := fs.String("date", "", "")
	to := fs.String("o", "", "")
	var longer many
	fs.Var(&longer, "longer", "")
	files, typed, err := parseMeasured(fs, args, 1, "o")
	if err != nil {
		return err
	}
	on, err := tile.ParsePaper(*paper)
	if err != nil {
		return err
	}
	p, err := app.Open(files[0])
	if err != nil {
		return err
	}
	if p, err = aim(p, *size, typed, longer); err != nil {
		return err
	}
	if err := app.WriteFile(*to, func(w io.Writer) error { return app.WriteSummary(w, p, *date, on) }); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: the summary of %s.\n", *to, p.Name)
	return nil
}
