package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"

	"quarterstep/app"
)

// checkFields is what help says of check --json.
const checkFields = `
check --json writes one object; its names stay, lengths are in mm:
  pattern, size, method, look   what was checked; how many findings want looking at
  target    size, place on the chart (its first size is 0), method, wearer,
            body: measure, mm, own (the wearer's own), says (its place by name)
  girths    for bust, waist and hip, where they can be measured:
            girth; printed, one for each printed size, and target: size,
            finished_mm, body_mm, ease_mm; carried_ease_mm, the ease the
            printed sizes would have here; lost_mm, how much less the target
            has (both null with no printed size to compare); pieces: piece,
            width_mm, allowances_mm, darts_mm, times, both_halves
  no_girth  what could not be measured: girth, piece, size (of print), why
  by_steps  past the printed sizes, for each girth of the chart: girth, from (the
            printed size), chart_mm, steps_mm, short_mm
  findings  code, look (true: look at it; false: for information), girth,
            piece, edge, x, y (where, on the piece), by_mm (how much), say, help
`

func lookOver(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	asJSON := fs.Bool("json", false, "")
	size := fs.String("to", "", "")
	files, typed, err := parseMeasured(fs, args, 1)
	if err != nil {
		return err
	}
	p, err := app.Open(files[0])
	if err != nil {
		return err
	}
	if p, err = aim(p, *size, typed); err != nil {
		return err
	}
	report, err := app.CheckFully(p)
	if err != nil {
		return err
	}
	if *asJSON {
		enc := json.NewEncoder(out)
		enc.SetIndent("", "  ")
		if err := enc.Encode(report); err != nil {
			return err
		}
	} else {
		fmt.Fprint(out, report.Text(p.Unit))
	}
	if report.Look > 0 {
		return errLook
	}
	return nil
}
