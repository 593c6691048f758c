package ui

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/app/paper"
	"quarterstep/app/session"
	"quarterstep/model/store"
)

// heldUp has moments pass, and what is done beside the window be done, only when the
// test says so.
func heldUp(t *testing.T) (soon *moments, disk *later) {
	soon, disk = new(moments), new(later)
	put(t, &afterAMoment, soon.add)
	put(t, &besideWindow, disk.add)
	return soon, disk
}

// TestOpeningFromADriveThatDoesNotAnswer: after a moment a dialog says so, Escape lets
// go, what comes in the end does not count, and the window can be closed meanwhile.
func TestOpeningFromADriveThatDoesNotAnswer(t *testing.T) {
	w := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	was := w.doc
	soon, disk := heldUp(t)
	for say, letGo := range map[string]func(){
		"Escape":     func() { typed(w, fyne.KeyEscape) },
		"the button": func() { w.waits.cancel() },
	} {
		w.open(path)
		if w.waits == nil || w.waits.shown != nil || !w.dialogOpen {
			t.Fatalf("%s: at first it waits %v", say, w.waits != nil)
		}
		soon.pass()
		if w.waits.shown == nil {
			t.Errorf("%s: after a moment nothing is said", say)
		}
		ctx := w.waits.ctx
		letGo()
		if w.waits != nil || w.dialogOpen || ctx.Err() == nil {
			t.Errorf("%s: it still waits %v, dialogs are kept away %v, the work goes on: %v", say, w.waits != nil, w.dialogOpen, ctx.Err() == nil)
		}
		w.do("name", named(say))
		disk.next(t)
		if w.doc != was || w.dialogOpen {
			t.Errorf("%s: what came in the end counted", say)
		}
		*disk = nil
	}
	w.open(path)
	disk.next(t)
	soon.pass()
	if w.waits != nil {
		t.Error("it waits for what has come")
	}
}

// TestAFileThatIsLetGoIsNotWorkedOut: letting go ends the grading of what is opened.
func TestAFileThatIsLetGoIsNotWorkedOut(t *testing.T) {
	w := open(t)
	var disk later
	put(t, &besideWindow, disk.add)
	var err error
	w.opening("Opening", "It cannot be opened", func(ctx context.Context) (*session.Session, error) {
		w.waits.cancel()
		var doc *session.Session
		doc, err = session.NewUntil(ctx, manyCorners())
		return doc, err
	}, func(*session.Session) { t.Error("it was opened") })
	disk.next(t)
	if err == nil {
		t.Error("it was worked out to its end")
	}
}

// TestASaveThatKeepsWaiting: a save to a drive that does not answer says so after a
// moment; she saves elsewhere, and when the drive comes back its save does no harm.
func TestASaveThatKeepsWaiting(t *testing.T) {
	w := open(t)
	folder := t.TempDir()
	gone, other := filepath.Join(folder, "gone.qstep"), filepath.Join(folder, "other.qstep")
	soon, disk := heldUp(t)
	w.do("name", named("A"))
	w.saveTo(gone, nil)
	hangs := *disk
	*disk = nil
	soon.pass()
	if !w.saves.slow || !w.red.Visible() {
		t.Fatalf("slow %v, said %v", w.saves.slow, w.red.Visible())
	}
	w.do("name", named("B")) // she goes on
	put(t, &besideWindow, func(work func()) { work() })
	w.saveAs()
	if w.fileBox == nil || w.saves.under {
		t.Fatalf("it asks where: %v, still waits: %v", w.fileBox != nil, w.saves.under)
	}
	w.fileBox.leave()
	w.saveTo(other, nil)
	if w.doc.Path() != other || w.doc.Dirty() || w.red.Visible() {
		t.Errorf("saved at %q, dirty %v, red %v", w.doc.Path(), w.doc.Dirty(), w.red.Visible())
	}
	w.saveTo(gone, nil)
	if !w.red.Visible() || w.doc.Path() != other {
		t.Error("a save goes to the drive that has one to end yet")
	}
	hangs.next(t)
	if f, err := store.Load(gone); err != nil || f.Pattern.Name != "A" {
		t.Errorf("the drive has %q, %v", f.Pattern.Name, err)
	}
	if w.doc.Path() != other || w.doc.Dirty() || len(w.saves.lost) != 0 {
		t.Errorf("the late save changed the document: at %q, dirty %v, lost %v", w.doc.Path(), w.doc.Dirty(), w.saves.lost)
	}
	w.saveTo(gone, nil)
	if f, err := store.Load(gone); err != nil || f.Pattern.Name != "B" || w.doc.Path() != gone {
		t.Errorf("after it came back the drive has %q, %v", f.Pattern.Name, err)
	}
}

// TestClosingWhileASaveKeepsWaiting: she can let go of the save, and is then asked as
// ever where work would be lost.
func TestClosingWhileASaveKeepsWaiting(t *testing.T) {
	w := open(t)
	soon, _ := heldUp(t)
	w.do("name", named("A"))
	w.saveTo(filepath.Join(t.TempDir(), "gone.qstep"), nil)
	closed := false
	w.ifSafe(func() { closed = true })
	soon.pass()
	if w.waits == nil || w.waits.shown == nil || closed {
		t.Fatalf("waits %v, closed %v", w.waits != nil, closed)
	}
	typed(w, fyne.KeyEscape)
	if closed || !w.dialogOpen || w.waits != nil || w.saves.under {
		t.Errorf("closed %v, asked %v, waits %v, saving %v", closed, w.dialogOpen, w.waits != nil, w.saves.under)
	}
}

// TestChangedUnderneathIsAskedBeside: whether another program has changed the file is
// asked of the disk by the save itself.
func TestChangedUnderneathIsAskedBeside(t *testing.T) {
	w := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	if err := os.WriteFile(path, []byte("of another program"), 0o600); err != nil {
		t.Fatal(err)
	}
	w.do("name", named("B"))
	var disk later
	put(t, &besideWindow, disk.add)
	w.save()
	if w.dialogOpen || len(disk) == 0 {
		t.Fatalf("asked at once %v, %d works beside", w.dialogOpen, len(disk))
	}
	for len(disk) > 0 {
		disk.next(t)
	}
	if got, err := os.ReadFile(path); !w.dialogOpen || err != nil || string(got) != "of another program" || !w.doc.Dirty() {
		t.Errorf("asked %v, the file has %d bytes, %v", w.dialogOpen, len(got), err)
	}
	w.dialogKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.saveTo(path, nil)
	for len(disk) > 0 {
		disk.next(t)
	}
	if f, err := store.Load(path); err != nil || f.Pattern.Name != "B" {
		t.Errorf("saved over it: %q, %v", f.Pattern.Name, err)
	}
}

// TestBringingInShowsHowFar: the dialog shows how far it is, and letting go ends it.
func TestBringingInShowsHowFar(t *testing.T) {
	w := open(t)
	soon, disk := heldUp(t)
	var watch app.Watch
	w.bringing("a.svg", func(got app.Watch) func() {
		watch = got
		watch.Progress(0.5)
		if w.waits.share != 0.5 {
			t.Errorf("it is %v far", w.waits.share)
		}
		w.waits.cancel()
		return func() { t.Error("it counted") }
	})
	soon.pass()
	disk.next(t)
	if watch.Context.Err() == nil || w.dialogOpen {
		t.Errorf("goes on %v, dialogs are kept away %v", watch.Context.Err() == nil, w.dialogOpen)
	}
}

// TestAPDFThatIsLetGo: she goes on while a PDF is written; after a moment a dialog shows
// how far it is, and letting go ends it before the next page: nothing is written.
func TestAPDFThatIsLetGo(t *testing.T) {
	w := open(t)
	w.goTo(stepPrint)
	soon, disk := heldUp(t)
	path := filepath.Join(t.TempDir(), "a.pdf")
	job := w.print.now()
	pages, of := 0, job.Pages()
	write := func(watch app.Watch, to io.Writer) error {
		far := watch.Progress
		watch.Progress = func(share float64) {
			far(share)
			if pages++; pages == 2 {
				if w.waits == nil || w.waits.share != share || share == 0 {
					t.Errorf("it is %v far, and shows that %v", share, w.waits != nil)
				}
				typed(w, fyne.KeyEscape)
			}
		}
		return watch.WritePages(job, to, nil)
	}
	w.writing(path, "It cannot be written", write, func() { t.Error("it was written") })
	if w.dialogOpen {
		t.Error("she cannot go on while it is written")
	}
	w.do("name", named("B"))
	soon.pass()
	disk.next(t)
	if _, err := os.Stat(path); pages != 2 || of < 3 || err == nil || w.dialogOpen {
		t.Errorf("%d pages of %d were drawn, %v, dialogs are kept away %v", pages, of, err, w.dialogOpen)
	}
}

// TestAPlanNobodyWaitsFor: pages that are worked out for what is no more stop.
func TestAPlanNobodyWaitsFor(t *testing.T) {
	w := open(t)
	var disk later
	put(t, &besideWindow, disk.add)
	w.goTo(stepPrint)
	stopped := 0
	w.print.stop = func() { stopped++ }
	w.do("name", named("B")) // the pages are worked out anew
	if stopped != 1 || !w.print.under {
		t.Errorf("stopped %d times, another under way %v", stopped, w.print.under)
	}
	for len(disk) > 0 {
		disk.next(t)
	}
	if w.print.under || w.print.why != "" || w.print.job.Pages() < 2 {
		t.Errorf("at the end under way %v, %q, %d pages", w.print.under, w.print.why, w.print.job.Pages())
	}
	w.print.stop = func() { stopped++ }
	w.take(nothing())
	if stopped != 2 {
		t.Error("pages are worked out for a document that was put away")
	}
}

// TestPlanningStops: at whatever question it ends, nothing of a plan comes of it.
func TestPlanningStops(t *testing.T) {
	w := open(t)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	watch := app.Watch{Context: ctx}
	p, s := w.doc.Pattern(), w.print
	if got := planOf(watch, p, s.chosen(p), s.setup, app.Printed{}); len(got.ids) != 0 || got.why == "" {
		t.Errorf("%d pieces, %q", len(got.ids), got.why)
	}
}

// TestAPhotoOnADriveThatDoesNotAnswer: cancelling lets the photos go on that wait for
// their turn; what the drive says in the end does not count.
func TestAPhotoOnADriveThatDoesNotAnswer(t *testing.T) {
	w := open(t)
	w.aside = twoAtATime()
	hangs, began := make(chan struct{}), make(chan struct{}, 2)
	ended := make(chan struct{}, 2)
	var gone []*photo
	for range 2 { // all turns there are
		ph := &photo{name: "gone"}
		gone = append(gone, ph)
		w.beside(ph, "Reading", func(context.Context, func(float64)) (func(), error) {
			defer func() { ended <- struct{}{} }()
			began <- struct{}{}
			<-hangs
			return func() { t.Error("it counted") }, nil
		})
		<-began
	}
	other := make(chan struct{})
	w.beside(&photo{name: "other"}, "Reading", func(context.Context, func(float64)) (func(), error) {
		close(other)
		return nil, nil
	})
	select {
	case <-other:
		t.Fatal("three are read at once")
	case <-time.After(50 * time.Millisecond):
	}
	for _, ph := range gone {
		w.stopJob(ph)
	}
	select {
	case <-other:
	case <-time.After(10 * time.Second):
		t.Error("the other photo waits for the drive")
	}
	close(hangs)
	<-ended
	<-ended
}

// TestReadingAPhotoStops: a picture is unpacked no further once nobody wants it.
func TestReadingAPhotoStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	path := filepath.Join("..", "testdata", "scans", "facing.png")
	if _, err := paper.Open(path); err != nil {
		t.Fatal(err)
	}
	if _, err := paper.OpenUntil(ctx, path); !errors.Is(err, context.Canceled) {
		t.Errorf("it was read to its end: %v", err)
	}
}
