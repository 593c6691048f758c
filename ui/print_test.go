package ui

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/model/measure"
	"quarterstep/printing/spool"
)

// atPrint is the window on the demo at the Print step, with printers of the
// test's own.
func atPrint(t *testing.T, printers ...string) *Window {
	t.Helper()
	was := listPrinters
	t.Cleanup(func() { listPrinters = was })
	listPrinters = func(context.Context, spool.System, settings.Settings) ([]app.Printer, error) {
		var out []app.Printer
		for _, name := range printers {
			out = append(out, app.Printer{Printer: spool.Printer{Name: name, Words: "The " + name}})
		}
		if len(out) == 0 {
			return nil, spool.ErrNoPrinter
		}
		return out, nil
	}
	w := open(t)
	w.enter(stepPrint)
	if w.print.why != "" {
		t.Fatal(w.print.why)
	}
	return w
}

// testLengths are the lengths to measure on the test page, mm.
func testLengths(t *testing.T, w *Window) (across, down float64) {
	t.Helper()
	x, y, err := w.scaleCheck().Lengths()
	if err != nil {
		t.Fatal(err)
	}
	for text, to := range map[string]*float64{x: &across, y: &down} {
		l, err := measure.Parse(text, measure.Centimetres)
		if err != nil {
			t.Fatal(err)
		}
		*to = l.MM()
	}
	return across, down
}

// A printer that is half a per cent narrow is corrected from its scale check on,
// and no other printer is; typing the same figures again changes nothing.
func TestScaleCheckCorrectsItsPrinter(t *testing.T) {
	w := atPrint(t, "kitchen", "library")
	x, y := testLengths(t, w)
	readIt := func() {
		t.Helper()
		if err := w.pages.OnAcross(fmt.Sprintf("%.2f mm", 0.995*x)); err != nil {
			t.Fatal(err)
		}
		if err := w.pages.OnDown(fmt.Sprintf("%.2f mm", y)); err != nil {
			t.Fatal(err)
		}
	}
	readIt()
	got := w.print.job.Plan.Setup.Printer
	if math.Abs(got.Across-1/0.995) > 1e-3 || math.Abs(got.Down-1) > 1e-3 {
		t.Fatalf("pages are corrected by %.4f across and %.4f down; it says %q", got.Across, got.Down, w.scale.say)
	}
	readIt()
	if again := w.print.job.Plan.Setup.Printer; again != got {
		t.Errorf("typed again it is %v, was %v", again, got)
	}
	w.pages.OnPrinter(1)
	if other := w.print.job.Plan.Setup.Printer; other.Across != 0 && other.Across != 1 {
		t.Errorf("the other printer is corrected too: %v", other)
	}
	w.pages.OnPrinter(0)
	if back := w.print.job.Plan.Setup.Printer; back != got {
		t.Errorf("the first printer is now corrected by %v", back)
	}
	w.pages.OnForget()
	if none := w.print.job.Plan.Setup.Printer; none.Across != 0 && none.Across != 1 {
		t.Errorf("forgotten, and corrected by %v", none)
	}
}

// A page shrunk to fit is told as a print setting and corrects nothing.
func TestAWrongPrintSettingCorrectsNothing(t *testing.T) {
	w := atPrint(t)
	x, y := testLengths(t, w)
	_ = w.pages.OnAcross(fmt.Sprintf("%.1f mm", 0.96*x))
	_ = w.pages.OnDown(fmt.Sprintf("%.1f mm", 0.96*y))
	if got := w.print.job.Plan.Setup.Printer; got.Across != 0 && got.Across != 1 || !w.scale.look || w.scale.verdict == nil {
		t.Errorf("corrected by %v, says %q", got, w.scale.say)
	}
}

// After a print only the pages that changed are offered.
func TestOnlyChangedPagesAreOffered(t *testing.T) {
	w := atPrint(t, "kitchen")
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	w.rememberPrinted(w.print.now(), nil, func() {})
	w.refresh()
	if len(w.print.changed) != 0 {
		t.Fatalf("just printed, and %v changed", w.print.changed)
	}
	w.hand.Piece = w.print.ids[len(w.print.ids)-1]
	w.tools.OnTool(3) // the piece the other way up
	if n := len(w.print.changed); n == 0 || n == w.print.now().Pages() {
		t.Errorf("one piece turned: %d of %d pages changed", n, w.print.now().Pages())
	}
	w.pages.OnChanged(true)
	if got := w.wanted(); len(got) != len(w.print.changed) {
		t.Errorf("%d pages would be printed, %d changed", len(got), len(w.print.changed))
	}
}

// The status bar says which page is in hand and what lies beside it.
func TestStatusNamesThePage(t *testing.T) {
	w := open(t)
	w.goTo(stepPrint)
	w.settle()
	plan := w.print.now().Plan
	if len(plan.Sheets) == 0 {
		t.Fatal("no pages")
	}
	sheet := plan.Sheets[0]
	w.print.page = sheet.Name
	w.showStatus()
	if said := w.status.Text(); !strings.Contains(said, "Page "+sheet.Name+", joins ") || !strings.Contains(said, sheet.Beside[1]) {
		t.Errorf("of page %s, beside %q: %q", sheet.Name, sheet.Beside, said)
	}
	w.print.page = ""
	w.showStatus()
	if said := w.status.Text(); strings.Contains(said, "joins") {
		t.Errorf("with no page in hand: %q", said)
	}
}
