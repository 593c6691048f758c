package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"time"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/printing/scale"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// scaleFlags are those of testpage.
type scaleFlags struct {
	paper, printer, unit, date string
	across, down, white, file  string
	to                         string // a printer
	plain, insist              bool
}

// testPage writes or prints the test page, or judges and remembers what was
// measured on it.
func testPage(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("testpage", flag.ContinueOnError)
	var f scaleFlags
	fs.StringVar(&f.paper, "paper", "a4", "")
	fs.StringVar(&f.printer, "printer", "", "")
	fs.StringVar(&f.unit, "unit", "cm", "")
	fs.StringVar(&f.date, "date", "", "")
	fs.StringVar(&f.across, "across", "", "")
	fs.StringVar(&f.down, "down", "", "")
	fs.StringVar(&f.white, "white", "", "")
	fs.BoolVar(&f.plain, "plain", false, "")
	fs.BoolVar(&f.insist, "insist", false, "")
	fs.StringVar(&f.to, "to", "", "")
	fs.StringVar(&f.file, "o", "", "")
	if _, err := parse(fs, args, 0); err != nil {
		return err
	}
	judge := f.across != "" || f.down != ""
	switch {
	case model.Unit(f.unit) != model.Centimetres && model.Unit(f.unit) != model.Inches:
		return fmt.Errorf("%w: --unit is cm or in", errUsage)
	case judge && (f.across == "" || f.down == ""):
		return fmt.Errorf("%w: --across and --down belong together", errUsage)
	case !judge && f.white == "" && f.file == "" && f.to == "":
		return fmt.Errorf("%w: -o is missing, or --to and a printer, or --across and --down as measured", errUsage)
	}
	paper, err := tile.ParsePaper(f.paper)
	if err != nil {
		return err
	}
	s, folder := kept()
	c := app.ScaleCheck{Paper: paper, Unit: model.Unit(f.unit), Printer: f.printer, Date: f.date}
	if !f.plain {
		c.With = app.PrinterScale(s, f.printer)
	}
	if known, ok := s.PrinterNamed(f.printer); ok {
		c.Margin = known.Margin
	}
	if f.white != "" {
		if s, err = rememberWhite(out, s, folder, f); err != nil {
			return err
		}
	}
	if judge {
		return f.judge(out, c, s, folder)
	}
	if f.file == "" && f.to == "" {
		return nil
	}
	return f.hand(out, c, s)
}

// hand writes the test page, prints it, or both.
func (f scaleFlags) hand(out io.Writer, c app.ScaleCheck, s settings.Settings) error {
	across, down, err := c.Lengths()
	if err != nil {
		return err
	}
	if f.file != "" {
		if err := app.WriteFile(f.file, c.WritePDF); err != nil {
			return err
		}
		fmt.Fprintf(out, "%s: print at 100 %%, then measure. It should be %s across and %s down.\n", f.file, across, down)
	}
	if f.to == "" {
		return nil
	}
	p, err := thePrinter(s, f.to)
	if err != nil {
		return err
	}
	if c.Printer = p.Name; !f.plain {
		c.With = p.Scale
	}
	return watched(out, p, func(ctx context.Context, tell func(spool.Progress)) error {
		return app.PrintPages(ctx, spool.System{}, p, spool.Job{Title: "Scale check", Paper: c.Sheet()}, c.WritePDF, tell)
	})
}

// judge says what the lengths mean, and remembers them of a printer that is
// named.
func (f scaleFlags) judge(out io.Writer, c app.ScaleCheck, s settings.Settings, folder string) error {
	v, err := c.Judge(f.across, f.down)
	if err != nil {
		return err
	}
	for _, says := range v.Says {
		fmt.Fprintln(out, says)
	}
	if v.Kind == scale.Again || v.Kind == scale.Setting && !(f.insist && v.CanInsist) {
		return errLook
	}
	if f.printer == "" {
		fmt.Fprintln(out, "Nothing is remembered: name the printer with --printer.")
		return nil
	}
	if s, err = app.RememberScale(s, f.printer, v, f.insist, time.Now()); err != nil {
		return err
	}
	if err := keep(s, folder); err != nil {
		return err
	}
	fmt.Fprintf(out, "Remembered for %s.\n", f.printer)
	return nil
}

// rememberWhite keeps what the printer leaves white at an edge.
func rememberWhite(out io.Writer, s settings.Settings, folder string, f scaleFlags) (settings.Settings, error) {
	l, err := measure.Parse(f.white, measure.Millimetres)
	if err != nil {
		return s, fmt.Errorf("white: %w", err)
	}
	if s, err = app.RememberMargin(s, f.printer, l.MM()); err != nil {
		return s, err
	}
	if err := keep(s, folder); err != nil {
		return s, err
	}
	fmt.Fprintf(out, "Remembered that %s leaves %.1f mm white.\n", f.printer, l.MM())
	return s, nil
}
