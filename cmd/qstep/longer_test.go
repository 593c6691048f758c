package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
)

// What is made longer is said, kept in the file, and can be taken back; a name
// the pattern lacks is answered with those it has.
func TestLonger(t *testing.T) {
	folder := t.TempDir()
	p, q := filepath.Join(folder, "p.qstep"), filepath.Join(folder, "q.qstep")
	demo, err := app.DemoBlouse()
	if err == nil {
		err = app.Save(p, demo)
	}
	if err != nil {
		t.Fatal(err)
	}
	out := done(t, "grade", p, "--to", "44", "--longer", "Above the waist=20mm", "--longer=Hem=-1cm", "-o", q)
	for _, want := range []string{"Above the waist: 20 mm longer in Front bodice, Back bodice.\n", "Hem: 10 mm shorter in Front bodice, Back bodice.\n"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	got, err := app.Open(q)
	if err != nil || len(got.Lengths) != 2 || got.Lengths[0].By != 20 {
		t.Errorf("kept %+v, %v", got.Lengths, err)
	}
	if out := done(t, "grade", q, "--longer", "Above the waist=0", "--longer", "hem=0", "-o", q); out != "Graded to 44 by chart.\n" {
		t.Errorf("taken back: %s", out)
	}
	from, to := filepath.Join(folder, "from.json"), filepath.Join(folder, "to.json")
	done(t, "export", p, "--size", "44", "--as", "json", "-o", from)
	done(t, "export", p, "--size", "44", "--longer", "Sleeve=10mm", "--as", "json", "-o", to)
	if bytes.Equal(read(t, from), read(t, to)) {
		t.Error("the sleeve is exported as long as before")
	}
	done(t, "print", p, "--paper", "a0", "--longer", "Sleeve=10mm", "-o", filepath.Join(folder, "f.pdf"))
	refused(t, folder, exitUsage, `"Knee"; it has Above the waist, Below the waist, Sleeve, Hem`, "check", p, "--longer", "Knee=1cm")
	refused(t, folder, exitInput, "cannot be made 400 mm shorter", "check", p, "--longer", "Sleeve=-40cm")
}
