package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

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
            piece, edge, x, y (where, on the piece), by_mm (how much; for an
            angle in degrees), what, much, say, help, action: do ("show", or the
            name of an edit), label, and what it is done to: piece, edges,
            points, link, refit
  checks    every check, whether it found something or not: check, link, title,
            say, look

check --limit NAME=VALUE, such as --limit "seams=1mm", sets for this once how far
a check lets things go; check --limits lists every limit with where it is from.
`

// many is a flag that may be given several times.
type many []string

// String is what was given.
func (m *many) String() string { return strings.Join(*m, ", ") }

// Set takes one more.
func (m *many) Set(s string) error {
	*m = append(*m, s)
	return nil
}

func lookOver(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("check", flag.ContinueOnError)
	asJSON := fs.Bool("json", false, "")
	size := fs.String("to", "", "")
	list := fs.Bool("limits", false, "")
	var limits many
	fs.Var(&limits, "limit", "")
	var longer many
	fs.Var(&longer, "longer", "")
	files, typed, err := parseMeasured(fs, args, 1)
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
	if p, err = app.SetLimits(p, limits); err != nil {
		var none app.NoLimit
		if errors.As(err, &none) {
			return fmt.Errorf("%w: %w; qstep check --limits lists them", errUsage, err)
		}
		return err
	}
	if *list {
		fmt.Fprint(out, app.LimitsText(p))
		return nil
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
