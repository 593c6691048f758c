package pdf_test

import (
	"bytes"
	"testing"
	"time"

	"quarterstep/model/geom"
	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// cloak is one nest of eight sizes, two lines each of 60 curves, that spreads
// over 40 sheets of A4.
func cloak(t testing.TB) tile.Plan {
	q := nest("Cloak", 1560, 1640, len(sizes))
	s := setup(t, "A4")
	at := geom.Vec{X: -q.Outline.Bounds().Min.X + 1, Y: -q.Outline.Bounds().Min.Y + 1}
	plan, err := tile.Layout([]tile.Placed{{Piece: q, At: geom.Translate(at)}}, s)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// A nest of eight sizes on 40 sheets is written in 100 ms, at 2.5 KB a page
// beside the fonts.
func TestCost(t *testing.T) {
	plan := cloak(t)
	if n := len(plan.Sheets); n != 40 {
		t.Fatalf("%d sheets, want 40", n)
	}
	best := time.Hour
	var data []byte
	// The least of a few runs: the machine has other things to do.
	for i := 0; i < 20 && (i < 3 || best > 100*time.Millisecond); i++ {
		start := time.Now()
		data = written(t, plan, options())
		best = min(best, time.Since(start))
	}
	fonts := 0
	f := openPDF(t, data)
	for n := range f.at {
		if o := f.object(n); bytes.Contains(o, []byte("/Length1 ")) || bytes.Contains(o, []byte("131072")) {
			fonts += len(o)
		}
	}
	perPage := float64(len(data)-fonts) / float64(plan.Pages())
	t.Logf("40 sheets: %v, %d bytes, fonts %d, %.0f bytes a page", best, len(data), fonts, perPage)
	if best > 100*time.Millisecond {
		t.Errorf("writing took %v", best)
	}
	if perPage > 2.5*1024 {
		t.Errorf("%.0f bytes a page", perPage)
	}
}

func BenchmarkWrite40Sheets(b *testing.B) {
	plan := cloak(b)
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		if err := pdf.Write(&out, plan, options()); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len()), "bytes/file")
	}
}
