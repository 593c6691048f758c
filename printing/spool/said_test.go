package spool_test

import (
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"quarterstep/printing/ipp"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// programs puts shell scripts in the place of the printing system's programs.
func programs(t *testing.T, scripts map[string]string) string {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the programs are shell scripts here")
	}
	folder := t.TempDir()
	for name, script := range scripts {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", folder+":/usr/bin:/bin")
	return folder
}

// Names, titles and options go to lp as they are, one by one, and no shell sees
// them.
func TestNothingGoesThroughAShell(t *testing.T) {
	folder := programs(t, map[string]string{
		"lp":     `d=$(dirname "$0"); for a in "$@"; do printf '%s\n' "$a" >> "$d/args"; done; cat > "$d/in"; echo "request id is Hall-12 (1 file(s))"`,
		"lpstat": `echo scheduler is running`,
	})
	j := spool.Job{Title: "$(touch x) `id`; -o \n mirror\x1b", Paper: tile.Paper{Name: "A4", Width: 210, Height: 297}, PDF: []byte("%PDF-1.7 page")}
	ticket, err := spool.System{}.Send(t.Context(), spool.Printer{Name: "Hall", Words: "In the hall"}, j)
	if err != nil || ticket != (spool.Ticket{Printer: "Hall", Words: "In the hall", ID: 12}) {
		t.Fatalf("%+v, %v", ticket, err)
	}
	args, err := os.ReadFile(filepath.Join(folder, "args"))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"-d", "Hall", "-n", "1", "-t", "$(touch x) `id`; -o mirror", "-o", "media=iso_a4_210x297mm", "-o", "print-scaling=none", "-o", "sides=one-sided", "-o", "number-up=1"}
	if got := strings.Split(strings.TrimSpace(string(args)), "\n"); !slices.Equal(got, want) {
		t.Errorf("lp is given\n%q, want\n%q", got, want)
	}
	if in, _ := os.ReadFile(filepath.Join(folder, "in")); string(in) != string(j.PDF) {
		t.Errorf("lp reads %q", in)
	}
	for _, name := range []string{"", "-o", "two words", "a/b/c", "Hall\n", "a;b'c", "#", strings.Repeat("x", 200)} {
		if _, err := (spool.System{}).Send(t.Context(), spool.Printer{Name: name}, j); err == nil || !strings.Contains(err.Error(), "cannot be the name of a printer") {
			t.Errorf("%q is a printer: %v", name, err)
		}
	}
	j.PDF = nil
	if _, err := (spool.System{}).Send(t.Context(), spool.Printer{Name: "Hall"}, j); err == nil || !strings.Contains(err.Error(), "no page") {
		t.Errorf("nothing is printed: %v", err)
	}
}

// A printer that only its name is known of, as one found on the network, is
// printed on; the answer is read whatever language the sewist's computer has.
func TestAPrinterKnownByNameOnly(t *testing.T) {
	programs(t, map[string]string{"lpstat": `
[ "$LC_ALL" = C ] || exit 9
case "$1" in
-r) echo scheduler is running ;;
-e) echo Hall; echo Attic/draft; echo "no such name" ;;
-d) echo system default destination: Attic/draft ;;
-H) echo 127.0.0.1:1 ;;
esac`})
	all, err := spool.System{}.Printers(t.Context())
	if err != nil || len(all) != 2 || all[0].Name != "Attic/draft" || !all[0].Default || all[1].Told || all[1].Ready() != nil {
		t.Errorf("%+v, %v", all, err)
	}
}

// A printer found on the network is asked for its options before the first job,
// which makes a queue for it; then it is known like any other.
func TestAPrinterOnTheNetworkIsWoken(t *testing.T) {
	folder := programs(t, map[string]string{
		"lpoptions": `[ "$*" = "-p Hall -l" ] && : > "$(dirname "$0")/woken"`,
		"lp":        `: > "$(dirname "$0")/sent"`,
	})
	const enum, keyword, name = 0x23, 0x44, 0x42
	m := ipp.Message{ID: 1, Groups: []ipp.Group{{Tag: ipp.OperationGroup}, {Tag: ipp.PrinterGroup, Attributes: []ipp.Attribute{
		{Name: "printer-name", Values: []ipp.Value{{Tag: name, Data: []byte("Hall")}}},
		{Name: "printer-info", Values: []ipp.Value{{Tag: name, Data: []byte("In the hall")}}},
		{Name: "printer-state", Values: []ipp.Value{{Tag: enum, Data: []byte{0, 0, 0, 3}}}},
		{Name: "media-supported", Values: []ipp.Value{{Tag: keyword, Data: []byte("iso_a4_210x297mm")}}},
	}}}}
	printers, err := m.Encode()
	if err != nil {
		t.Fatal(err)
	}
	s := answering(t, nil, printers, http.StatusOK)
	job := spool.Job{Paper: paper(t, "letter"), PDF: []byte("%PDF-")}
	if _, err := s.Send(t.Context(), spool.Printer{Name: "Hall"}, job); err == nil || !strings.HasPrefix(err.Error(), "In the hall does not take Letter; it takes A4.") {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(filepath.Join(folder, "woken")); err != nil {
		t.Error("the printer was not asked for its options")
	}
	if _, err := os.Stat(filepath.Join(folder, "sent")); err == nil {
		t.Error("pages were sent on paper that is not there")
	}
}

// answering is a printing system that says one thing of jobs and another of
// printers.
func answering(t *testing.T, job, printer []byte, status int) spool.System {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		if err != nil || len(body) < 4 {
			t.Errorf("asked %x, %v", body, err)
			return
		}
		w.WriteHeader(status)
		if body[3] == ipp.GetJob {
			_, _ = w.Write(job)
			return
		}
		_, _ = w.Write(printer)
	}))
	t.Cleanup(s.Close)
	return spool.System{Server: strings.TrimPrefix(s.URL, "http://")}
}

func answer(t *testing.T, code, group int, state string, n byte, message string) []byte {
	t.Helper()
	const enum, text = 0x23, 0x41
	m := ipp.Message{Code: code, ID: 1, Groups: []ipp.Group{{Tag: ipp.OperationGroup}, {Tag: group, Attributes: []ipp.Attribute{
		{Name: state, Values: []ipp.Value{{Tag: enum, Data: []byte{0, 0, 0, n}}}},
		{Name: strings.Replace(state, "job-state", "job-printer-state", 1) + "-message", Values: []ipp.Value{{Tag: text, Data: []byte(message)}}},
	}}}}
	out, err := m.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What becomes of a job, state by state (RFC 8011, 5.3.7).
func TestWatch(t *testing.T) {
	programs(t, map[string]string{"cancel": "exit 0"})
	job := func(n byte, says string) []byte { return answer(t, 0, ipp.JobGroup, "job-state", n, says) }
	idle := answer(t, 0, ipp.PrinterGroup, "printer-state", 3, "")
	off := answer(t, 0, ipp.PrinterGroup, "printer-state", 5, "tray is open")
	for name, c := range map[string]struct {
		job, printer []byte
		status       int
		is           error
		says         string
	}{
		"done":       {job: job(ipp.JobCompleted, "")},
		"forgotten":  {job: answer(t, ipp.NotFound, ipp.JobGroup, "job-state", 0, "")},
		"taken back": {job: job(ipp.JobCanceled, ""), is: spool.ErrTakenBack},
		"aborted":    {job: job(ipp.JobAborted, "/a/b: "+strings.Repeat("no ", 60)), says: `Hall gave the pages up ("no no`},
		"stopped":    {job: job(ipp.JobStopped, "filter: broken"), printer: idle, says: `Hall gave the pages up ("broken")`},
		"printer":    {job: job(ipp.JobPending, ""), printer: off, says: `Hall has stopped ("tray is open"), and the pages wait in its queue`},
		"waits":      {job: job(ipp.JobHeld, ""), printer: idle, is: context.DeadlineExceeded},
		"prints":     {job: job(ipp.JobProcessing, ""), is: context.DeadlineExceeded},
		"garbage":    {job: []byte("<html>"), is: spool.ErrUnseen},
		"no page":    {job: nil, status: http.StatusForbidden, is: spool.ErrUnseen},
		"no state":   {job: job(99, ""), is: spool.ErrUnseen},
		"refused":    {job: answer(t, 0x0403, ipp.JobGroup, "job-state", 0, ""), is: spool.ErrUnseen},
	} {
		if c.status == 0 {
			c.status = http.StatusOK
		}
		s := answering(t, c.job, c.printer, c.status)
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		last := spool.State(-1)
		err := s.Watch(ctx, spool.Ticket{Printer: "Hall", Words: "Hall", ID: 3}, func(p spool.Progress) { last = p.State })
		cancel()
		switch {
		case c.is == nil && c.says == "" && (err != nil || last != spool.Done):
			t.Errorf("%s: %v, last %v", name, err, last)
		case c.is != nil && !errors.Is(err, c.is), c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says) || len(err.Error()) > 330):
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Names of papers by PWG 5101.1: iso_a4_210x297mm, na_letter_8.5x11in,
// na_ledger_11x17in; rolls by their ends.
func TestMediaFor(t *testing.T) {
	sheets := []spool.Media{{"om_a-4-fullbleed_209.9x297.04mm", 209.9, 297.04}, {"iso_a4_210x297mm", 210, 297}, {"iso_a5_148x210mm", 148, 210}}
	both := append(slices.Clone(sheets), spool.Media{Name: "na_letter_8.5x11in", Wide: 215.9, High: 279.4})
	roll := spool.Roll{LeastWide: 200, LeastHigh: 200, MostWide: 914.4, MostHigh: 5000}
	for _, c := range []struct {
		p           spool.Printer
		paper, want string
	}{
		{spool.Printer{}, "A4", "iso_a4_210x297mm"},
		{spool.Printer{}, "letter", "na_letter_8.5x11in"},
		{spool.Printer{}, "tabloid", "na_ledger_11x17in"},
		{spool.Printer{}, "914.4x3000mm", "Custom.914.4x3000mm"},
		{spool.Printer{Media: sheets}, "A4", "iso_a4_210x297mm"},
		{spool.Printer{Media: sheets[:1], Roll: roll}, "A4", "Custom.210x297mm"},
		{spool.Printer{Media: sheets}, "148x210mm", "iso_a5_148x210mm"},
		{spool.Printer{Media: sheets}, "A4 or Letter", "iso_a4_210x297mm"},
		{spool.Printer{Media: both}, "A4 or Letter", "iso_a4_210x297mm"},
		{spool.Printer{Media: both, Usual: "na_letter_8.5x11in"}, "A4 or Letter", "na_letter_8.5x11in"},
		{spool.Printer{}, "A4 or Letter", "Custom.210x279.4mm"},
		{spool.Printer{Media: sheets, Roll: roll}, "36x100in", "Custom.914.4x2540mm"},
		{spool.Printer{Words: "Hall", Media: sheets}, "letter", "! Hall does not take Letter; it takes A4."},
		{spool.Printer{Words: "Hall", Media: sheets[:1]}, "letter", "! Hall does not take Letter. Choose another paper"},
		{spool.Printer{Words: "Hall", Media: sheets, Roll: roll}, "1000x2000mm", "! Hall takes paper up to 914.4 mm wide, and 1000 x 2000 mm is wider"},
	} {
		got, err := c.p.MediaFor(paper(t, c.paper))
		if err != nil {
			got = "! " + err.Error()
		}
		if got != c.want && !(strings.HasPrefix(c.want, "!") && strings.HasPrefix(got, c.want)) {
			t.Errorf("%s: %q, want %q", c.paper, got, c.want)
		}
	}
	if _, err := (spool.Printer{}).MediaFor(tile.Paper{}); err == nil {
		t.Error("no paper has a name")
	}
}

// The viewer is the system's own, told the file and nothing else.
func TestView(t *testing.T) {
	const show = `printf '%s' "$#$1" > "$(dirname "$0")/shown"`
	folder := programs(t, map[string]string{"xdg-open": show, "open": show})
	name := filepath.Join(folder, "a $(b) c.pdf")
	if err := spool.View(t.Context(), name); err == nil || !strings.Contains(err.Error(), "not there any more") {
		t.Errorf("no file: %v", err)
	}
	if err := os.WriteFile(name, []byte("%PDF-"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := spool.View(t.Context(), name); err != nil {
		t.Fatal(err)
	}
	for range 100 {
		if shown, err := os.ReadFile(filepath.Join(folder, "shown")); err == nil && string(shown) == "1"+name {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("the viewer was not told the file")
}
