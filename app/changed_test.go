package app

import (
	"bytes"
	"slices"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model/geom"
)

// Printed again tomorrow nothing has changed; with one piece changed by hand some
// pages have and others have not, and only those are written.
func TestOnlyThePagesThatChanged(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	setup, err := PrintSetup("a4", "", "")
	if err != nil {
		t.Fatal(err)
	}
	job := func(c PrintChoice) Job {
		t.Helper()
		j, err := Plan(p, c, setup)
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	first := job(PrintChoice{Marks: true, Date: "2026-03-01"})
	printed, err := first.Marks()
	if err != nil || len(printed) != first.Pages() {
		t.Fatalf("%d marks of %d pages, %v", len(printed), first.Pages(), err)
	}
	if got, err := job(PrintChoice{Marks: true, Date: "2026-12-18"}).Changed(printed); err != nil || len(got) != 0 {
		t.Errorf("the next day %v changed, %v", got, err)
	}
	moved, err := first.Relay(0, geom.Vec{X: 3})
	if err != nil {
		t.Fatal(err)
	}
	got, err := moved.Changed(printed)
	if err != nil || len(got) == 0 || len(got) == moved.Pages() {
		t.Fatalf("one piece moved: %d of %d pages changed, %v", len(got), moved.Pages(), err)
	}
	if p, err = edit.MovePoint(p.Pieces[0].ID, p.Pieces[0].Points[0].ID, geom.Vec{Y: 0.4})(p); err != nil {
		t.Fatal(err)
	}
	if got, err := job(PrintChoice{Marks: true, Date: "2026-03-01"}).Changed(printed); err != nil || len(got) == 0 {
		t.Errorf("a corner moved, and no page changed, %v", err)
	}
	var some, all bytes.Buffer
	if err := moved.WritePages(&some, got); err != nil {
		t.Fatal(err)
	}
	if err := moved.WritePDF(&all); err != nil {
		t.Fatal(err)
	}
	if a, b := bytes.Count(some.Bytes(), []byte("/Type /Page\n")), bytes.Count(all.Bytes(), []byte("/Type /Page\n")); b > 0 && a != len(got) {
		t.Errorf("%d pages written, want %d", a, len(got))
	}
	if some.Len() >= all.Len() {
		t.Errorf("%d bytes for some pages, %d for all", some.Len(), all.Len())
	}
	if err := moved.WritePages(&some, []string{"Z99"}); err == nil || slices.Contains(got, "Z99") {
		t.Error("a page that is not there is written")
	}
}
