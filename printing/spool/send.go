package spool

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"quarterstep/assets/words"
	"quarterstep/printing/tile"
)

// Job is what is to be printed.
type Job struct {
	Title string     // shown in the printer's queue
	Paper tile.Paper // of every page of the PDF; pages may lie on their side
	PDF   []byte
}

// Ticket is a job that was sent.
type Ticket struct {
	Printer string // the printer's name
	Words   string // what its owner calls it
	ID      int
}

// options hold the size and the paper against all defaults of the printer, the
// computer and the user. What they come to was measured with CUPS 2.4.2; see
// the test of a real queue.
func options(media string) []string {
	return []string{"media=" + media, "print-scaling=none", "sides=one-sided", "number-up=1"}
}

// Send sends the job to a printer. It fails, with nothing sent, on a printer
// that is stopped, refuses jobs or does not have the paper.
func (s System) Send(ctx context.Context, p Printer, j Job) (Ticket, error) {
	if !nameShape.MatchString(p.Name) {
		return Ticket{}, words.Errorf("%q cannot be the name of a printer", p.Name)
	}
	if len(j.PDF) == 0 {
		return Ticket{}, words.Error("there is no page to print")
	}
	if p.Words == "" {
		p.Words = p.Name
	}
	p = s.wake(ctx, p)
	if err := p.Ready(); err != nil {
		return Ticket{}, err
	}
	media, err := p.MediaFor(j.Paper)
	if err != nil {
		return Ticket{}, err
	}
	args := []string{"-d", p.Name, "-n", "1", "-t", title(j.Title)}
	for _, o := range options(media) {
		args = append(args, "-o", o)
	}
	out, err := s.program(ctx, j.PDF, "lp", args...)
	if err != nil {
		if why := s.running(ctx); why != nil {
			return Ticket{}, why
		}
		return Ticket{}, words.Errorf("%s did not take the pages: %w", p.Words, err)
	}
	id, err := idIn(out)
	if err != nil {
		return Ticket{}, fmt.Errorf("%s: %w", p.Words, err)
	}
	return Ticket{Printer: p.Name, Words: p.Words, ID: id}, nil
}

var requestID = regexp.MustCompile(`request id is \S+-(\d+) `) // words: none

// idIn reads the number of the job out of what lp says.
func idIn(out string) (int, error) {
	m := requestID.FindStringSubmatch(out + " ")
	if m == nil {
		return 0, words.Error("the pages were sent, but not under which number")
	}
	return strconv.Atoi(m[1])
}

// title is a title without what a queue cannot show, and no longer than a queue
// shows.
func title(s string) string {
	const most = 100
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if s == "" {
		return words.T("Pattern")
	}
	if letters := []rune(s); len(letters) > most {
		s = string(letters[:most])
	}
	return s
}

// Cancel takes a job back. A job that is done already is no error.
func (s System) Cancel(ctx context.Context, t Ticket) error {
	_, err := s.program(ctx, nil, "cancel", fmt.Sprintf("%s-%d", t.Printer, t.ID))
	var f failed
	if errors.As(err, &f) && (strings.Contains(f.says, "already") || strings.Contains(f.says, "can't cancel")) {
		return nil
	}
	if err != nil {
		return words.Errorf("taking the pages back from %s: %w", t.Words, err)
	}
	return nil
}
