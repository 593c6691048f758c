package ui

import (
	"errors"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/safekeeping"
	"quarterstep/app/session"
	"quarterstep/app/settings"
)

// faultDir is set in the process that meets a fault of the program.
const faultDir = "QUARTERSTEP_FAULT_DIR"

// A fault of the program ends it, but not before the work is put by, so that the
// next start offers it.
func TestAFaultKeepsTheWork(t *testing.T) {
	if dir := os.Getenv(faultDir); dir != "" {
		meetFault(t, dir)
		return
	}
	dir := t.TempDir()
	child := exec.Command(os.Args[0], "-test.run=^TestAFaultKeepsTheWork$")
	child.Env = append(os.Environ(), faultDir+"="+dir)
	said, err := child.CombinedOutput()
	var ended *exec.ExitError
	if !errors.As(err, &ended) || ended.ExitCode() != 2 || !strings.Contains(string(said), "will be offered at the next start") {
		t.Fatalf("it ended with %v and said %s", err, said)
	}
	left := safekeeping.Left(dir)
	if len(left) != 1 || left[0].Changes != 1 || !strings.Contains(leftWords(left[0]), "choose another size") {
		t.Errorf("offered: %+v", left)
	}
}

func meetFault(t *testing.T, dir string) {
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := session.New(p)
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, dir)
	w.do("choose another size", edit.Place(2))
	defer w.rescue(time.Now())
	var nothing []int
	_ = nothing[len(p.Pieces)] // past its end
}
