package spool_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// squarePDF is a page of that size with a square of 100 mm, its upper left
// corner at 50, 60.
func squarePDF(t *testing.T, wide, high float64) []byte {
	t.Helper()
	d, err := page.New(page.Options{Title: "Square", Wide: wide, High: high, Regular: assets.LatoRegular, Bold: assets.LatoBold})
	if err != nil {
		t.Fatal(err)
	}
	p := d.AddPage()
	p.Frame(geom.Box{Min: geom.Pt(50, 60), Max: geom.Pt(150, 160)}, 0.3, page.Black)
	p.Flush()
	var b bytes.Buffer
	if err := d.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// lines renders the first page that was printed, PDF or PostScript, and gives
// the page's size and the middles of the lines that a row and a column cross,
// mm. They run at 70 and 80 mm from the page's upper left corner.
func lines(t *testing.T, printed []byte, row, col float64) (wide, high float64, across, down []float64) {
	t.Helper()
	const dpi = 600
	name := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(name, printed, 0o600); err != nil {
		t.Fatal(err)
	}
	if bytes.HasPrefix(printed, []byte("%!PS")) {
		ps := name
		name += ".pdf"
		run(t, "gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=pdfwrite", "-o", name, ps)
	}
	info := string(run(t, "pdfinfo", name))
	_, size, _ := strings.Cut(info, "Page size:")
	if _, err := fmt.Sscanf(strings.TrimSpace(size), "%f x %f pts", &wide, &high); err != nil {
		t.Fatalf("%v in %s", err, info)
	}
	// The upper left corner, to 210 x 297 mm.
	side := func(mm float64) string { return fmt.Sprint(int(mm / 25.4 * float64(dpi))) }
	out := run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-f", "1", "-l", "1", "-x", "0", "-y", "0", "-W", side(210), "-H", side(297), name)
	var w, h int
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n255\n", &w, &h); err != nil {
		t.Fatalf("the printed file shows no page: %v", err)
	}
	grey, px := out[len(out)-w*h:], 25.4/float64(dpi)
	r, c := int(row/px), int(col/px)
	across = crossings(w, px, func(i int) byte { return grey[r*w+i] })
	down = crossings(h, px, func(i int) byte { return grey[i*w+c] })
	return wide / 72 * 25.4, high / 72 * 25.4, across, down
}

func crossings(n int, px float64, at func(int) byte) []float64 {
	var out []float64
	for i := 0; i < n; i++ {
		sum, weight := 0.0, 0.0
		for ; i < n && at(i) < 230; i++ {
			w := float64(255 - at(i))
			sum += w * (float64(i) + 0.5)
			weight += w
		}
		if weight > 0 {
			out = append(out, sum/weight*px)
		}
	}
	return out
}

func run(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Fatalf("this check needs %s: install the packages poppler-utils and ghostscript", program)
	}
	var out, errs bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v: %s", program, err, &errs)
	}
	return out.Bytes()
}

func paper(t *testing.T, name string) tile.Paper {
	t.Helper()
	p, err := tile.ParsePaper(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What comes out of a real queue is 100 mm within 0.05 mm, where it was put on
// the paper within 0.2 mm across and 0.5 mm down (the models round papers to
// whole points), on A4, on
// Letter, on A4 lying on its side and on a roll; though the queue's own
// defaults shrink pages, put two on a sheet and choose other paper. The same
// page sent without options comes out millimetres off, so the check can fail.
func TestARealQueuePrintsTrueToScale(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a printing system")
	}
	const near = 0.05
	c := startCUPS(t)
	hostile := []string{"PageSize=Letter", "number-up-default=2", "fit-to-page-default=true", "print-scaling-default=fit", "sides-default=two-sided-long-edge"}
	sheet := c.queue("Wardrobe", sheetModel, "Laser in the wardrobe", hostile...)
	roll := c.queue("Roll", rollModel, "Roll printer")
	printers := map[string]spool.Printer{"Wardrobe": c.printer("Wardrobe"), "Roll": c.printer("Roll")}
	jobs := []struct {
		printer, paper string
		side           bool
	}{
		{"Wardrobe", "A4", false},
		{"Wardrobe", "Letter", false},
		{"Wardrobe", "A4", true},
		{"Wardrobe", "A4 or Letter", false},
		{"Roll", "A4", false},
		{"Roll", "914.4x1200mm", false},
	}
	var printed [][]byte
	for _, k := range jobs {
		on := paper(t, k.paper)
		wide, high := on.Width, on.Height
		if k.side {
			wide, high = high, wide
		}
		out := map[string]string{"Wardrobe": sheet, "Roll": roll}[k.printer]
		printed = append(printed, c.printed(printers[k.printer], spool.Job{Title: "Square", Paper: on, PDF: squarePDF(t, wide, high)}, out))
	}
	c.admin("lpadmin", "-p", "Wardrobe", "-o", "number-up-default=1")
	plain := c.without(sheet, squarePDF(t, 210, 297))
	for i, k := range jobs {
		on := paper(t, k.paper)
		x, y := 50.0, 60.0
		switch {
		case k.side: // turned a quarter to lie on the upright sheet
			x, y = 60, on.Height-150
		case k.paper == "A4 or Letter": // in the middle of the sheet the queue has
			sheet := paper(t, "Letter")
			x, y, on = x+(sheet.Width-on.Width)/2, y+(sheet.Height-on.Height)/2, sheet
		}
		w, h, across, down := lines(t, printed[i], y+70, x+70)
		if math.Abs(w-on.Width) > 0.3 || math.Abs(h-on.Height) > 0.7 {
			t.Errorf("%s on %s: the sheet is %.2f x %.2f mm", k.paper, k.printer, w, h)
		}
		if len(across) != 2 || len(down) != 2 {
			t.Errorf("%s on %s: lines at %.2f and %.2f", k.paper, k.printer, across, down)
			continue
		}
		t.Logf("%s on %s: %.3f x %.3f mm at %.3f, %.3f", k.paper, k.printer, across[1]-across[0], down[1]-down[0], across[0], down[0])
		if math.Abs(across[1]-across[0]-100) > near || math.Abs(down[1]-down[0]-100) > near {
			t.Errorf("%s on %s: 100 mm come out at %.3f x %.3f", k.paper, k.printer, across[1]-across[0], down[1]-down[0])
		}
		if math.Abs(across[0]-x) > 0.2 || math.Abs(down[0]-y) > 0.5 {
			t.Errorf("%s on %s: the corner comes out at %.2f, %.2f, want %g, %g", k.paper, k.printer, across[0], down[0], x, y)
		}
	}
	_, _, across, _ := lines(t, plain, 105, 100)
	if len(across) != 2 || math.Abs(across[1]-across[0]-100) < 3 {
		t.Errorf("without options lines come out at %.3f: this test could not fail", across)
	}
}

// without prints on Wardrobe as a program does that gives no options.
func (c *cups) without(out string, pdf []byte) []byte {
	c.t.Helper()
	if err := os.Remove(out); err != nil {
		c.t.Fatal(err)
	}
	name := filepath.Join(c.folder, "plain.pdf")
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		c.t.Fatal(err)
	}
	said := c.admin("lp", "-d", "Wardrobe", name)
	ticket := spool.Ticket{Printer: "Wardrobe"}
	if _, err := fmt.Sscanf(said, "request id is Wardrobe-%d", &ticket.ID); err != nil {
		c.t.Fatal(err, said)
	}
	if err := c.system.Watch(c.ctx, ticket, nil); err != nil {
		c.t.Fatalf("%v: %s", err, c.log())
	}
	data, err := os.ReadFile(out)
	if err != nil {
		c.t.Fatalf("nothing was printed: %v: %s", err, c.log())
	}
	return data
}

// What a real CUPS tells of its printers, and what is said when one cannot
// print: nothing is sent to it.
func TestARealSystemTellsOfItsPrinters(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a printing system")
	}
	c := startCUPS(t)
	ctx := c.ctx
	if _, err := c.system.Printers(ctx); !errors.Is(err, spool.ErrNoPrinter) {
		t.Errorf("without a printer: %v", err)
	}
	sheet := c.queue("Wardrobe", sheetModel, "Laser in the wardrobe")
	c.queue("Roll", rollModel, "Roll printer", "printer-error-policy=abort-job")
	if _, err := c.system.Printer(ctx, ""); err == nil || !strings.Contains(err.Error(), "Roll, Wardrobe") && !strings.Contains(err.Error(), "Wardrobe, Roll") {
		t.Errorf("without a usual printer: %v", err)
	}
	c.admin("lpadmin", "-d", "Wardrobe")
	all, err := c.system.Printers(ctx)
	if err != nil || len(all) != 2 {
		t.Fatalf("%v, %v", all, err)
	}
	laser, roll := all[0], all[1]
	if laser.Name != "Wardrobe" || laser.Words != "Laser in the wardrobe" || !laser.Default || !laser.Told || laser.Ready() != nil || roll.Default {
		t.Errorf("the usual printer: %+v", laser)
	}
	if math.Abs(laser.Margin-12.7) > 0.01 || roll.Margin != 0 { // 36 pt in its model
		t.Errorf("margins %g and %g mm", laser.Margin, roll.Margin)
	}
	if laser.Roll != (spool.Roll{}) || roll.Roll.MostWide < 1000 {
		t.Errorf("rolls %v and %v", laser.Roll, roll.Roll)
	}
	job := spool.Job{Title: "Square", Paper: paper(t, "914.4x1200mm"), PDF: squarePDF(t, 914.4, 1200)}
	if _, err := c.system.Send(ctx, laser, job); err == nil || !strings.Contains(err.Error(), "Laser in the wardrobe does not take 914.4 x 1200 mm; it takes A4, Letter") {
		t.Errorf("a roll on sheets: %v", err)
	}
	if _, err := c.system.Printer(ctx, "Typewriter"); err == nil || !strings.Contains(err.Error(), `no printer "Typewriter" here; there are Wardrobe, Roll`) {
		t.Errorf("another printer: %v", err)
	}
	c.failing(ctx, roll)
	c.halted(ctx, sheet)
	c.admin("cupsenable", "Wardrobe")
	c.admin("cupsreject", "-r", "no paper in the house", "Wardrobe")
	if _, err := c.system.Send(ctx, c.printer("Wardrobe"), c.square()); err == nil || !strings.Contains(err.Error(), `takes no pages now ("no paper in the house")`) {
		t.Errorf("a printer that refuses: %v", err)
	}
	stale := laser // seen before it refused
	if _, err := c.system.Send(ctx, stale, c.square()); err == nil || !strings.Contains(err.Error(), "Laser in the wardrobe did not take the pages") {
		t.Errorf("a printer that refuses since: %v", err)
	}
}

func (c *cups) square() spool.Job {
	return spool.Job{Title: "-o \"; rm ünder\n" + strings.Repeat("long ", 60), Paper: tile.Paper{Name: "A4", Width: 210, Height: 297}, PDF: squarePDF(c.t, 210, 297)}
}

// failing sends what is no page.
func (c *cups) failing(ctx context.Context, p spool.Printer) {
	c.t.Helper()
	job := c.square()
	job.PDF = []byte("%PDF-1.4\nnothing but a beginning")
	ticket, err := c.system.Send(ctx, p, job)
	if err != nil {
		c.t.Fatal(err)
	}
	if err := c.system.Watch(ctx, ticket, nil); err == nil || !strings.HasPrefix(err.Error(), "Roll printer gave the pages up (") || !strings.Contains(err.Error(), "save the PDF") {
		c.t.Errorf("a job that fails: %v", err)
	}
}

// halted sends to a printer that stops, and takes the pages back.
func (c *cups) halted(ctx context.Context, out string) {
	c.t.Helper()
	p := c.printer("Wardrobe")
	c.admin("cupsdisable", "-r", "out of thread", "Wardrobe")
	ticket, err := c.system.Send(ctx, p, c.square()) // as it was seen before
	if err != nil {
		c.t.Fatal(err)
	}
	err = c.system.Watch(ctx, ticket, nil)
	if err == nil || !strings.Contains(err.Error(), `Laser in the wardrobe has stopped ("out of thread"), and the pages wait in its queue.`) {
		c.t.Errorf("a printer that stops: %v", err)
	}
	for range 2 {
		if err := c.system.Cancel(ctx, ticket); err != nil {
			c.t.Errorf("taking back: %v", err)
		}
	}
	if err := c.system.Watch(ctx, ticket, nil); !errors.Is(err, spool.ErrTakenBack) {
		c.t.Errorf("pages taken back: %v", err)
	}
	if _, err := os.Stat(out); err == nil {
		c.t.Error("a stopped printer printed")
	}
	if _, err := c.system.Send(ctx, c.printer("Wardrobe"), c.square()); err == nil || !strings.Contains(err.Error(), `Laser in the wardrobe is stopped ("out of thread")`) {
		c.t.Errorf("a stopped printer: %v", err)
	}
}

// Nobody answers on a port that is free.
func TestNoSystemAnswers(t *testing.T) {
	if _, err := exec.LookPath("lpstat"); err != nil {
		t.Fatal("this check needs lpstat: install the package cups-client")
	}
	s := spool.System{Server: fmt.Sprintf("127.0.0.1:%d", freePort(t))}
	if _, err := s.Printers(t.Context()); !errors.Is(err, spool.ErrNotThere) {
		t.Errorf("%v", err)
	}
	p := spool.Printer{Name: "Wardrobe", Words: "Wardrobe"}
	job := spool.Job{Paper: paper(t, "A4"), PDF: []byte("%PDF-")}
	if _, err := s.Send(t.Context(), p, job); !errors.Is(err, spool.ErrNotThere) {
		t.Errorf("sent to nobody: %v", err)
	}
	t.Setenv("PATH", t.TempDir())
	if _, err := s.Printers(t.Context()); !errors.Is(err, spool.ErrNoSystem) {
		t.Errorf("without lpstat: %v", err)
	}
}
