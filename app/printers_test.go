package app_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// hall puts scripts in the place of the printing system's programs: one printer,
// Hall, whose lp keeps what it is given. The real CUPS is in printing/spool.
func hall(t *testing.T) (folder string) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the programs are shell scripts here")
	}
	folder = t.TempDir()
	for name, script := range map[string]string{
		"lp":     `d=$(dirname "$0"); echo "$*" > "$d/args"; cat > "$d/in"; echo "request id is Hall-3 (1 file(s))"`,
		"lpstat": `case "$1" in -e) echo Hall;; -H) echo 127.0.0.1:1;; *) echo scheduler is running;; esac`,
		"cancel": `echo "$*" > "$(dirname "$0")/cancelled"`,
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("#!/bin/sh\n"+script+"\n"), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", folder+":/usr/bin:/bin")
	return folder
}

// The pages that go to a printer are those of the PDF, on their paper, under
// the pattern's name; that their progress cannot be seen is said, and no
// failure.
func TestPrintPages(t *testing.T) {
	folder := hall(t)
	s := settings.Settings{}.WithPrinter(settings.Printer{Name: "Hall", Across: 1.004, Down: 1, Date: "2026-03-01", Margin: 9})
	all, err := app.Printers(t.Context(), spool.System{}, s)
	if err != nil || len(all) != 1 || all[0].Scale.Across != 1.004 || all[0].Checked != "2026-03-01" || all[0].Margin != 9 {
		t.Fatalf("%+v, %v", all, err)
	}
	setup, err := app.PrintSetup("a4", "", "")
	if err != nil {
		t.Fatal(err)
	}
	if says := app.MarginCaution(all[0], setup); !strings.Contains(says, "Hall leaves up to 9.0 mm white") || !strings.Contains(says, "to 9 mm,") {
		t.Errorf("margins: %q", says)
	}
	if setup.Margin = 9; app.MarginCaution(all[0], setup) != "" {
		t.Error("a margin wide enough is cautioned about")
	}
	setup = app.SetupFor(s, "Hall", setup)
	blouse, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	job, err := app.Plan(blouse, app.PrintChoice{WithTarget: true}, setup)
	if err != nil {
		t.Fatal(err)
	}
	var told []spool.Progress
	send := func(tell func(spool.Progress)) error {
		return app.PrintPages(t.Context(), spool.System{}, all[0], spool.Job{Title: job.Title(), Paper: job.Plan.Setup.Paper}, job.WritePDF, tell)
	}
	err = send(func(p spool.Progress) { told = append(told, p) })
	if !errors.Is(err, spool.ErrUnseen) || len(told) != 1 || told[0].Ticket.ID != 3 || told[0].State != spool.Waiting {
		t.Fatalf("%v, told %v", err, told)
	}
	var want bytes.Buffer
	if err := job.WritePDF(&want); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(folder, "in"))
	if err != nil || !bytes.Equal(got, want.Bytes()) {
		t.Errorf("lp reads %d bytes of %d, %v", len(got), want.Len(), err)
	}
	args, _ := os.ReadFile(filepath.Join(folder, "args"))
	if !strings.Contains(string(args), "-d Hall -n 1 -t "+job.Title()) || !strings.Contains(string(args), "media=iso_a4_210x297mm -o print-scaling=none") {
		t.Errorf("lp is given %s", args)
	}
	if err := app.TakeBack(t.Context(), spool.System{}, spool.Ticket{Printer: "Hall", ID: 3}); err != nil {
		t.Error(err)
	}
	if said, _ := os.ReadFile(filepath.Join(folder, "cancelled")); strings.TrimSpace(string(said)) != "Hall-3" {
		t.Errorf("taken back: %q", said)
	}
	job.Plan.Setup.Paper = tile.Paper{Name: "Projector", Free: true, Screen: true}
	if err := send(nil); err == nil || !strings.Contains(err.Error(), "not for paper") {
		t.Errorf("a projector's page: %v", err)
	}
}
