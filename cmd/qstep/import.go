package main

import (
	"flag"
	"fmt"
	"io"

	"quarterstep/app"
)

// bringIn reads a nest, saves it as a pattern and says what it understood.
func bringIn(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("import", flag.ContinueOnError)
	chart := fs.String("chart", "", "")
	size := fs.String("size", "", "")
	to := fs.String("o", "", "")
	noLinks := fs.Bool("no-links", false, "")
	files, err := parse(fs, args, 1, "chart", "o")
	if err != nil {
		return err
	}
	c, err := app.Chart(*chart)
	if err != nil {
		return err
	}
	var got app.Brought
	if *size == "" {
		got, err = app.BringIn(files[0], c)
	} else {
		got, err = app.BringInOneSize(files[0], c, *size)
	}
	if err != nil {
		return err
	}
	said := append(app.Understood(got.Pattern), got.Remarks...)
	if !*noLinks {
		linked, words, err := app.LinkUp(got.Pattern)
		if err != nil {
			return err
		}
		got.Pattern, said = linked, append(said, words...)
	}
	if err := app.Save(*to, got.Pattern); err != nil {
		return err
	}
	for _, s := range said {
		fmt.Fprintln(out, s)
	}
	return nil
}
