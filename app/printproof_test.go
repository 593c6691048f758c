package app

import (
	"bytes"
	"math"
	"testing"

	"quarterstep/printing/proof"
	"quarterstep/printing/tile"
)

// demoJobs are both demos as they are printed on A4.
func demoJobs(t *testing.T, paper string, wide bool) map[string]Job {
	t.Helper()
	jobs := map[string]Job{}
	for _, demo := range demos(t) {
		setup, err := PrintSetup(paper, "", "")
		if err != nil {
			t.Fatal(err)
		}
		setup.Landscape = wide
		job, err := Plan(demo, PrintChoice{Marks: true, Stitching: true}, setup)
		if err != nil {
			t.Fatal(err)
		}
		jobs[demo.Name] = job
	}
	return jobs
}

// The pages of both demos, rendered by an outside program and glued by nothing
// but their joining buttons, hold together within 0.10 mm over the whole
// pattern, with every button found; at 99.5 % they do not.
func TestDemoPagesAreGluedByTheirButtons(t *testing.T) {
	renderer := proof.Renderers()[2] // the one that does not shift fine lines to whole dots
	for name, job := range demoJobs(t, "a4", false) {
		var b bytes.Buffer
		if err := job.WritePDF(&b); err != nil {
			t.Fatal(err)
		}
		pages := renderer.Pages(t, b.Bytes(), 600)
		pages = pages[len(pages)-len(job.Plan.Sheets):]
		c := proof.Assemble(job.Plan, pages, 1)
		t.Logf("%s: %d pages, %d of %d buttons, %.3f mm at worst", name, len(pages), c.Found, c.Wanted, c.Worst)
		if c.Found != c.Wanted || c.Worst > 0.10 {
			t.Errorf("%s: %d of %d buttons found, %.3f mm at worst", name, c.Found, c.Wanted, c.Worst)
		}
		if c := proof.Assemble(job.Plan, pages, 0.995); c.Worst < 0.5 {
			t.Errorf("%s: at 99.5 %% the pages hold together within %.3f mm", name, c.Worst)
		}
	}
}

// How many pages the demos take, beside the least that their area and their
// largest piece leave: a page shows no more than what the printer prints, and a
// piece needs as many pages as lie side by side over its width or height.
func TestDemoPageCounts(t *testing.T) {
	most := map[string]map[string]int{ // as measured
		"Lantern blouse":    {"a4": 16, "letter": 17, "a4 or letter": 18, "a3": 8, "a0": 2},
		"Lantern waistcoat": {"a4": 11, "letter": 11, "a4 or letter": 11, "a3": 5, "a0": 1},
	}
	for _, paper := range []string{"a4", "letter", "a4 or letter", "a3", "a0"} {
		for name, job := range demoJobs(t, paper, false) {
			s := job.Plan.Setup
			w, h := s.Size()
			w, h = w-2*s.Margin, h-2*s.Margin
			area, least := 0.0, 1
			for _, q := range job.Plan.Pieces {
				o := q.Piece.Outline.Transform(q.At)
				area += math.Abs(o.Area())
				b := o.Bounds()
				least = max(least, tile.Count(b.Width(), w, s.Overlap), tile.Count(b.Height(), h, s.Overlap))
			}
			least = max(least, int(math.Ceil(area/(w*h))))
			got := len(job.Plan.Sheets)
			t.Logf("%s on %s: %d sheets, at least %d", name, paper, got, least)
			if got < least || got > most[name][paper] {
				t.Errorf("%s on %s: %d sheets, want %d to %d", name, paper, got, least, most[name][paper])
			}
		}
	}
}
