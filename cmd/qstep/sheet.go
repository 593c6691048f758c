package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"quarterstep/app"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/printing/tile"
)

// sheet writes the increment sheets of a pattern's pieces.
func sheet(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("sheet", flag.ContinueOnError)
	size := fs.String("size", "", "")
	piece := fs.String("piece", "", "")
	paper := fs.String("paper", "a4", "")
	date := fs.String("date", "", "")
	to := fs.String("o", "", "")
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
	if p, err = aim(p, *size, typed, nil); err != nil {
		return err
	}
	var pieces []string
	if *piece != "" {
		if pieces, err = piecesNamed(p, *piece); err != nil {
			return err
		}
	}
	var g grading.Grader
	sheets, err := app.HandSheets(&g, p, pieces, *date)
	if err != nil {
		return err
	}
	if err := app.WriteFile(*to, func(w io.Writer) error { return app.WriteHandSheets(w, sheets, on, p.Unit) }); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: how to draw %d of %d pieces by hand.\n", *to, len(sheets), len(p.Pieces))
	return nil
}

// piecesNamed gives the IDs of the pieces with that name. The error names those
// there are.
func piecesNamed(p model.Pattern, name string) ([]string, error) {
	var ids, names []string
	for _, q := range p.Pieces {
		if strings.EqualFold(q.Name, strings.TrimSpace(name)) {
			ids = append(ids, q.ID)
		}
		names = append(names, q.Name)
	}
	if len(ids) == 0 {
		return nil, fmt.Errorf("there is no piece %q; there are %s", name, strings.Join(names, ", "))
	}
	return ids, nil
}
