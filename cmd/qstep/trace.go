package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"

	"quarterstep/app"
	"quarterstep/app/trace"
)

// traceClicks traces pieces off a flat picture by files of clicks.
func traceClicks(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("trace", flag.ContinueOnError)
	var from many
	fs.Var(&from, "clicks", "")
	chart := fs.String("chart", "", "")
	noLinks := fs.Bool("no-links", false, "")
	to := fs.String("o", "", "")
	files, err := parse(fs, args, 1, "clicks", "chart", "o")
	if err != nil {
		return err
	}
	c, err := app.Chart(*chart)
	if err != nil {
		return err
	}
	var clicks []trace.Clicks
	for _, path := range from {
		one, err := readClicks(path)
		if err != nil {
			return err
		}
		clicks = append(clicks, one)
	}
	got, err := app.TraceClicks(context.Background(), files[0], c, clicks)
	if err != nil {
		return err
	}
	said := app.Understood(got.File.Pattern)
	for _, d := range got.Doubts {
		said = append(said, "Look at "+d)
	}
	if !*noLinks {
		linked, words, err := app.LinkUp(got.File.Pattern)
		if err != nil {
			return err
		}
		got.File.Pattern, said = linked, append(said, words...)
	}
	if err := app.SaveFile(*to, got.File); err != nil {
		return err
	}
	for _, s := range said {
		fmt.Fprintln(out, s)
	}
	return nil
}

func readClicks(path string) (trace.Clicks, error) {
	f, err := os.Open(path)
	if err != nil {
		return trace.Clicks{}, fmt.Errorf("%s is not there, or may not be read", path)
	}
	defer f.Close()
	c, err := trace.ReadClicks(f)
	if err != nil {
		return trace.Clicks{}, fmt.Errorf("%s: %w", path, err)
	}
	return c, nil
}
