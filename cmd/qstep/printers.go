package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/printing/spool"
)

// kept is what the window and the command remember between days; the folder is
// empty where the system has none.
func kept() (s settings.Settings, folder string) {
	folder, err := settings.Dir()
	if err != nil {
		return settings.Settings{}, ""
	}
	return settings.Load(folder), folder
}

// keep writes what is remembered from now on.
func keep(s settings.Settings, folder string) error {
	if folder == "" {
		return errors.New("this computer has no place for settings, so nothing is remembered")
	}
	return s.Save(folder)
}

// printers lists the system's printers and what the scale check found of them.
func printers(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("printers", flag.ContinueOnError)
	forget := fs.String("forget", "", "")
	if _, err := parse(fs, args, 0); err != nil {
		return err
	}
	s, folder := kept()
	if *forget != "" {
		if _, ok := s.PrinterNamed(*forget); !ok {
			return fmt.Errorf("nothing is remembered of a printer %q", *forget)
		}
		if err := keep(s.WithoutPrinter(*forget), folder); err != nil {
			return err
		}
		fmt.Fprintf(out, "Forgot what the scale check found of %s.\n", *forget)
		return nil
	}
	all, err := app.Printers(context.Background(), spool.System{}, s)
	if err != nil {
		return err
	}
	for _, p := range all {
		fmt.Fprintln(out, p.Name)
		for _, line := range printerLines(p) {
			fmt.Fprintln(out, "  "+line)
		}
	}
	return nil
}

// printerLines is what there is to know of a printer.
func printerLines(p app.Printer) []string {
	var out []string
	if p.Words != p.Name {
		out = append(out, p.Words)
	}
	if p.Default {
		out = append(out, "the usual printer")
	}
	if err := p.Ready(); err != nil {
		out = append(out, err.Error())
	}
	if papers := p.Papers(); len(papers) > 0 {
		out = append(out, "papers: "+strings.Join(papers, ", "))
	}
	if p.Margin > 0 {
		out = append(out, fmt.Sprintf("leaves up to %.1f mm white at an edge", p.Margin))
	}
	if p.Checked == "" {
		return append(out, "scale not checked yet: see qstep testpage")
	}
	across, down := p.Scale.Scale()
	return append(out, fmt.Sprintf("scale checked on %s: corrected to %.2f %% across, %.2f %% down", p.Checked, across*100, down*100))
}

// thePrinter is the printer of that name, or the usual one.
func thePrinter(s settings.Settings, name string) (app.Printer, error) {
	if name == "usual" {
		name = ""
	}
	return app.PrinterNamed(context.Background(), spool.System{}, s, name)
}

// watched prints and says how it fares. Interrupted, it takes the pages back.
func watched(out io.Writer, p app.Printer, print func(context.Context, func(spool.Progress)) error) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	var ticket spool.Ticket
	err := print(ctx, func(q spool.Progress) {
		ticket = q.Ticket
		fmt.Fprintln(out, progressLine(q))
	})
	switch {
	case errors.Is(err, spool.ErrUnseen):
		fmt.Fprintf(out, "Sent to %s; look there how the pages come out.\n", p.Words)
		return nil
	case ctx.Err() != nil && ticket.ID != 0:
		if err := app.TakeBack(context.WithoutCancel(ctx), spool.System{}, ticket); err != nil {
			return err
		}
		return errors.New("the pages were taken back")
	}
	return err
}

func progressLine(q spool.Progress) string {
	line := map[spool.State]string{
		spool.Waiting: "Waiting for ", spool.Printing: "Printing on ", spool.Done: "Printed on ",
	}[q.State] + q.Ticket.Words
	if q.State == spool.Printing && q.Pages > 0 {
		line += fmt.Sprintf(", %d done", q.Pages)
	}
	if q.Says != "" {
		line += ": " + q.Says
	}
	return line
}
