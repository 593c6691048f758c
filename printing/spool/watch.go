package spool

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"quarterstep/assets/words"
	"quarterstep/printing/ipp"
)

// State is how far a job is.
type State int

// The states, in the order in which a job comes through them.
const (
	Waiting State = iota
	Printing
	Done
)

// Progress is how a job fares.
type Progress struct {
	Ticket Ticket
	State  State
	Pages  int    // printed so far, where the printer tells; else 0
	Says   string // what the printer says, if anything
}

// ErrUnseen says that the pages were sent and how they fare cannot be seen.
var ErrUnseen = words.Fault("the pages were sent; look at the printer to see how they come out")

// ErrTakenBack says that the job was taken back before it was done.
var ErrTakenBack = words.Fault("the pages were taken back before they were printed")

// how often the printing system is asked.
const every = 400 * time.Millisecond

// Watch tells how a job fares, whenever that changes, until it is done. It ends
// with nil when the job is done; with ErrUnseen when the printing system does
// not tell; with ErrTakenBack; with a sentence when the printer stops, or when
// the job fails, which is then taken out of the queue; with the context's error when that ends first. Ending the watch does
// not take the job back: Cancel does.
func (s System) Watch(ctx context.Context, t Ticket, tell func(Progress)) error {
	server, err := s.server(ctx)
	if err != nil {
		return errors.Join(ErrUnseen, ctx.Err())
	}
	var last Progress
	for first := true; ; first = false {
		p, err := look(ctx, server, t)
		var failed gaveUp
		if errors.As(err, &failed) {
			_ = s.Cancel(ctx, t) // nobody prints it any more
		}
		if err != nil {
			return err
		}
		if tell != nil && (first || p != last) {
			tell(p)
		}
		if last = p; p.State == Done {
			return nil
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(every):
		}
	}
}

// look asks how the job and its printer fare.
func look(ctx context.Context, server ipp.Server, t Ticket) (Progress, error) {
	m, err := server.Ask(ctx, ipp.GetJob, "job-uri", fmt.Sprintf("ipp://localhost/jobs/%d", t.ID),
		"job-state", "job-printer-state-message", "job-media-sheets-completed", "job-impressions-completed")
	var refused ipp.Refused
	switch {
	case ctx.Err() != nil:
		return Progress{}, ctx.Err()
	case errors.As(err, &refused) && refused.Status == ipp.NotFound:
		// Done jobs are forgotten at once where the system is told to.
		return Progress{Ticket: t, State: Done}, nil
	case err != nil:
		return Progress{}, ErrUnseen
	}
	p := Progress{Ticket: t}
	state := 0
	for _, g := range m.Groups {
		if g.Tag != ipp.JobGroup {
			continue
		}
		state = g.Int("job-state")
		p.Says = strings.Join(strings.Fields(g.Text("job-printer-state-message")), " ")
		p.Pages = max(g.Int("job-media-sheets-completed"), g.Int("job-impressions-completed"))
	}
	switch state {
	case ipp.JobCompleted:
		p.State, p.Says = Done, ""
		return p, nil
	case ipp.JobCanceled:
		return p, ErrTakenBack
	case ipp.JobAborted:
		return p, gaveUp{t, p.Says}
	case ipp.JobProcessing:
		p.State = Printing
		return p, nil
	case ipp.JobStopped:
		// The job stays in the queue for good; so it does when its printer
		// stopped over it, and then that is what to say.
		if err := stopped(ctx, server, t); err != nil {
			return p, err
		}
		return p, gaveUp{t, p.Says}
	case ipp.JobHeld:
		if p.Says == "" {
			p.Says = words.T("the pages are held back; let them go in the system's printer settings")
		}
		return p, stopped(ctx, server, t)
	case ipp.JobPending:
		return p, stopped(ctx, server, t)
	}
	return p, ErrUnseen
}

// gaveUp is a job that failed.
type gaveUp struct {
	ticket Ticket
	says   string
}

func (g gaveUp) Error() string {
	return words.F("%s gave the pages up%s. Print them again, or save the PDF and print it from a PDF viewer at 100 %%", g.ticket.Words, quoted(g.says))
}

// stopped says when the printer that a job waits for has stopped.
func stopped(ctx context.Context, server ipp.Server, t Ticket) error {
	queue, _, _ := strings.Cut(t.Printer, "/")
	m, err := server.Ask(ctx, ipp.GetPrinter, "printer-uri", "ipp://localhost/printers/"+queue, "printer-state", "printer-state-message")
	if err != nil {
		return ctx.Err()
	}
	for _, g := range m.Groups {
		if g.Tag == ipp.PrinterGroup && g.Int("printer-state") == ipp.PrinterStopped {
			why := quoted(strings.Join(strings.Fields(g.Text("printer-state-message")), " "))
			return words.Errorf("%s has stopped%s, and the pages wait in its queue. Let it go on in the system's printer settings, or take the pages back", t.Words, why)
		}
	}
	return nil
}

// quoted is what the system says, in brackets: the last thing it says, without
// the names of its own files, and no longer than can be read.
func quoted(says string) string {
	const most = 100
	if i := strings.LastIndex(says, ": "); i >= 0 {
		says = says[i+2:]
	}
	if letters := []rune(says); len(letters) > most {
		says = string(letters[:most]) + " ..."
	}
	if says == "" {
		return ""
	}
	return fmt.Sprintf(" (%q)", says)
}
