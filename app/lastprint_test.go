package app

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// After a correction at the neck only the pages it lies on are printed again;
// with another date none is; after the next print none is.
func TestOnlyPagesThatChanged(t *testing.T) {
	p := demos(t)[0]
	setup, err := PrintSetup("a4", "", "")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "last.json")
	printOf := func(p model.Pattern, date string) (Job, []string) {
		t.Helper()
		last, err := LoadPrinted(path)
		if err != nil {
			t.Fatal(err)
		}
		job, err := PlanLike(p, PrintChoice{Marks: true, Stitching: true, Date: date}, setup, last)
		if err != nil {
			t.Fatal(err)
		}
		pages, err := job.ChangedPages(last)
		if err != nil {
			t.Fatal(err)
		}
		now, err := job.Printed()
		if err != nil {
			t.Fatal(err)
		}
		if err := SavePrinted(path, now); err != nil {
			t.Fatal(err)
		}
		return job, pages
	}
	job, pages := printOf(p, "1 May 2026")
	if !slices.Equal(pages, job.Plan.PageNames()) {
		t.Errorf("the first time: %v of %v", pages, job.Plan.PageNames())
	}
	if _, pages := printOf(p, "2 May 2026"); len(pages) > 0 {
		t.Errorf("another date alone: %v", pages)
	}
	q := p.Pieces[0]
	neck := slices.IndexFunc(q.Points, func(g model.GradePoint) bool { return g.Name == "centre front neck" })
	changed, err := edit.MovePoint(q.ID, q.Points[neck].ID, geom.Vec{Y: 4})(p)
	if err != nil {
		t.Fatal(err)
	}
	again, pages := printOf(changed, "2 May 2026")
	if len(pages) == 0 || len(pages) > 6 || again.Pages() != job.Pages() {
		t.Errorf("a neck 4 mm lower changes %v of %d pages", pages, again.Pages())
	}
	var some, all bytes.Buffer
	if err := again.WritePages(&some, pages); err != nil {
		t.Fatal(err)
	}
	if err := again.WritePDF(&all); err != nil {
		t.Fatal(err)
	}
	count := func(b *bytes.Buffer) int { return bytes.Count(b.Bytes(), []byte("/Type /Page\n")) }
	if count(&some) != len(pages) || count(&all) != again.Pages() {
		t.Errorf("%d pages of %d, all %d of %d", count(&some), len(pages), count(&all), again.Pages())
	}
	if _, pages := printOf(changed, "3 May 2026"); len(pages) > 0 {
		t.Errorf("the next time: %v", pages)
	}
	// On other paper all is new.
	if setup, err = PrintSetup("a3", "", ""); err != nil {
		t.Fatal(err)
	}
	if job, pages := printOf(changed, ""); len(pages) != job.Pages() {
		t.Errorf("on other paper: %d of %d", len(pages), job.Pages())
	}
}

// Pieces keep their places only where they do not come too close.
func TestPiecesThatGrewTooCloseAreLaidAnew(t *testing.T) {
	p := demos(t)[1]
	setup, err := PrintSetup("a3", "", "")
	if err != nil {
		t.Fatal(err)
	}
	job, err := Plan(p, PrintChoice{}, setup)
	if err != nil {
		t.Fatal(err)
	}
	last, err := job.Printed()
	if err != nil {
		t.Fatal(err)
	}
	if p, err = Retarget(p, "24", ""); err != nil {
		t.Fatal(err)
	}
	for _, chosen := range [][]string{nil, {p.Pieces[1].ID}} {
		next, err := PlanLike(p, PrintChoice{Pieces: chosen}, setup, last)
		if err != nil {
			t.Fatal(err)
		}
		if tooClose(next.Plan.Pieces) {
			t.Error("pieces lie over each other")
		}
		if want, err := PrintedPieces(p, PrintChoice{Pieces: chosen}); err != nil || !slices.Equal(next.Pieces(), want) {
			t.Errorf("pieces %v, want %v, %v", next.Pieces(), want, err)
		}
	}
}

func TestWhatWasPrintedMustBeReadable(t *testing.T) {
	path := filepath.Join(t.TempDir(), "last.json")
	for _, text := range []string{"", "{", `{"format":"knitting"}`, `[1]`} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := LoadPrinted(path); err == nil || !strings.Contains(err.Error(), "does not say what was printed") {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, err := LoadPrinted(filepath.Dir(path)); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("a folder: %v", err)
	}
}
