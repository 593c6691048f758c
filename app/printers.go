package app

import (
	"bytes"
	"context"
	"io"
	"math"

	"quarterstep/app/settings"
	"quarterstep/assets/words"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// Printer is a printer of this computer with what is remembered of it.
type Printer struct {
	spool.Printer
	Scale   tile.Printer // its correction, for upright paper
	Checked string       // the day its scale was checked, 2026-03-01; empty where it was not
}

// Printers lists the printers of this computer, the usual one first, with what
// the scale check found of them. Where there is none, the error is a sentence
// that says what to do instead.
func Printers(ctx context.Context, sys spool.System, s settings.Settings) ([]Printer, error) {
	all, err := sys.Printers(ctx)
	if err != nil {
		return nil, err
	}
	out := make([]Printer, len(all))
	for i, p := range all {
		out[i] = remembered(s, p)
	}
	return out, nil
}

// PrinterNamed is the printer of that name, the usual one where it is empty.
func PrinterNamed(ctx context.Context, sys spool.System, s settings.Settings, name string) (Printer, error) {
	p, err := sys.Printer(ctx, name)
	if err != nil {
		return Printer{}, err
	}
	return remembered(s, p), nil
}

func remembered(s settings.Settings, p spool.Printer) Printer {
	out := Printer{Printer: p}
	if known, ok := s.PrinterNamed(p.Name); ok {
		out.Scale, out.Checked = PrinterScale(s, p.Name), known.Date
		if known.Margin > 0 {
			out.Margin = known.Margin
		}
	}
	return out
}

// Title is what the job is called: the pattern with its size or wearer.
func (j Job) Title() string {
	if j.drawing.Note == "" {
		return j.drawing.Title
	}
	return j.drawing.Title + ", " + j.drawing.Note
}

// PrintPages prints the PDF that write writes on a printer and tells how it fares
// until it is done; one made for another printer's correction is made anew by its
// caller: see SetupFor. It fails with a sentence, with nothing sent where the
// printer cannot print it; with spool.ErrUnseen where all was sent and only its
// progress is unknown; with the context's error where the watch was ended, which
// does not take the pages back: TakeBack does.
func PrintPages(ctx context.Context, sys spool.System, p Printer, job spool.Job, write func(io.Writer) error, tell func(spool.Progress)) error {
	if job.Paper.Projected() {
		return words.Error("a page for a projector is not for paper: save the PDF, or choose other paper")
	}
	var pdf bytes.Buffer
	if err := write(&pdf); err != nil {
		return err
	}
	job.PDF = pdf.Bytes()
	ticket, err := sys.Send(ctx, p.Printer, job)
	if err != nil {
		return err
	}
	// Told at once: whoever ends the watch now can take the pages back.
	last := spool.Progress{Ticket: ticket}
	if tell == nil {
		return sys.Watch(ctx, ticket, nil)
	}
	tell(last)
	return sys.Watch(ctx, ticket, func(p spool.Progress) {
		if p != last {
			tell(p)
		}
		last = p
	})
}

// TakeBack takes pages back that were sent to a printer and are not done.
func TakeBack(ctx context.Context, sys spool.System, t spool.Ticket) error { return sys.Cancel(ctx, t) }

// MarginCaution is a sentence where a printer leaves more white than the pages
// reckon with, so that lines at their edges would be lost; else it is empty.
func MarginCaution(p Printer, s tile.Setup) string {
	if p.Margin <= s.Margin+0.05 || s.Paper.Projected() {
		return ""
	}
	return words.F("%s leaves up to %s mm white at an edge, and the pages are drawn up to %s mm from it. Set the printer's own margin to %.0f mm, or lines may be lost.",
		p.Words, words.Figure(p.Margin, 1), words.Figure(s.Margin, 1), math.Ceil(p.Margin))
}

// ViewPDF opens a saved PDF in the system's viewer, to be printed from there;
// the steps say what to choose in it.
func ViewPDF(ctx context.Context, path, paper string) (steps []string, err error) {
	return spool.Advice(paper), spool.View(ctx, path)
}
