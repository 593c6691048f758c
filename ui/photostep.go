package ui

import (
	"context"
	"errors"
	"image"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// photoStep is what bringing in from photos has in hand beyond the document.
type photoStep struct {
	photos  []*photo
	inHand  int
	hand    *photo // the photo in hand, and the one before it
	before  *photo
	trace   traceStep
	under   bool      // show the photos under the pieces at the other steps
	toJoin  []*photo  // parts still to be joined, one after another
	unseen  bool      // what is traced is not shown, so that the print is seen
	lens    bool      // the close-up came with the photo, and goes with it
	measure measuring // a drawn length is being clicked
	held    takenGrip // what is dragged of the places clicked
	picked  takenGrip // clicked of them, for the keys
}

// photo is a picture on its way to be flat, or one kept with the project.
type photo struct {
	laid
	name string
	shot *paper.Photo // as taken; nil where only the flat picture is kept

	ask     paper.Request
	seen    paper.Sighting // targets found
	clicks  []geom.Point   // of the reference, px
	cell    bool           // the side of the mat's squares was typed
	lengths [2]drawn       // measured on the paper, across and down
	turns   int            // quarter turns to the right, as it is looked at and flat
	asTaken bool
	stays   bool          // shown as taken once it is made flat anew: its clicks are being moved by keys
	taken   []*image.RGBA // of the picture as taken, turned; coarse at rest

	flat      []*image.RGBA
	flatOf    string        // the picture that flat is of
	flatPer   float64       // its px to the mm, as it is now: fewer at rest
	flatWhole float64       // its px to the mm when whole
	lines     *follow.Field // nil until they are ready to be followed
	prepared  bool          // that they are made ready was asked for
	job       job
	note      string // why it cannot be used

	cardSays string // what a bank card on the paper told
	twin     *photo // the same picture, brought in before; nil for none
	taught   bool   // the lens of its camera is known by this photo
	byLens   bool   // the lens of its camera was known before

	lead  *photo // the photo of whose piece this shows another part; nil for none
	marks partMarks
	// missed: where it meets the others was not found when missedBy were joined.
	missed   bool
	missedBy int
	past     []laid // as it was flat before, for undo
}

// laid is how a photo is flat: what is undone and done again with the document.
type laid struct {
	id       string // of its model.Picture; empty while it has none
	straight paper.Straight
	solved   bool
	from     geom.Point   // mm of the reference at the flat picture's upper left
	joined   []joinedPart // other photos on the same flat picture
}

// job is work on a photo beside the window.
type job struct {
	words string
	share float64
	stop  context.CancelFunc
}

// photo is the photo in hand, nil for none.
func (w *Window) photo() *photo {
	if w.paper.inHand < 0 || w.paper.inHand >= len(w.paper.photos) {
		return nil
	}
	return w.paper.photos[w.paper.inHand]
}

// beside works on a photo while the window goes on: saying tells what is done, and
// then, if nothing went wrong and nobody cancelled it, the window does what work
// returned.
func (w *Window) beside(ph *photo, saying string, work func(ctx context.Context, progress func(float64)) (func(), error)) {
	w.stopJob(ph)
	ctx, stop := context.WithCancel(context.Background())
	ph.job, ph.note = job{words: saying, stop: stop}, ""
	w.showPhoto()
	var last time.Time
	progress := func(share float64) {
		if now := time.Now(); now.Sub(last) > 100*time.Millisecond {
			last = now
			fyne.Do(func() {
				if ctx.Err() == nil {
					ph.job.share = share
					w.showPhoto()
				}
			})
		}
	}
	w.aside(ctx, func() {
		if ctx.Err() != nil {
			return
		}
		var then func()
		err := guarded(func() (err error) {
			then, err = work(ctx, oneAtATime(progress))
			return err
		})
		fyne.Do(func() { w.jobDone(ctx, ph, then, err) })
	})
}

// oneAtATime lets workers on several cores report to one listener.
func oneAtATime(f func(float64)) func(float64) {
	free := make(chan struct{}, 1)
	free <- struct{}{}
	return func(share float64) {
		select {
		case <-free:
			f(share)
			free <- struct{}{}
		default:
		}
	}
}

func (w *Window) jobDone(ctx context.Context, ph *photo, then func(), err error) {
	if ctx.Err() != nil {
		return // cancelled, and another may be under way
	}
	ph.job.stop()
	ph.job = job{}
	switch {
	case errors.Is(err, context.Canceled):
	case err != nil:
		ph.note = panelSentence(err)
	case then != nil:
		if err := guarded(func() error { then(); return nil }); err != nil {
			ph.note = panelSentence(err)
		}
	}
	w.refresh()
	if !slices.ContainsFunc(w.paper.photos, (*photo).busy) {
		w.aside(context.Background(), debug.FreeOSMemory) // what the work took in passing
	}
}

// panelSentence is an error as a sentence; one that begins with the name of a
// file keeps it as it is.
func panelSentence(err error) string {
	say := strings.TrimSuffix(err.Error(), ".") + "."
	if first, _, _ := strings.Cut(say, " "); strings.Contains(first, ".") {
		return say
	}
	return capital(say)
}

func (w *Window) stopJob(ph *photo) {
	if ph != nil && ph.job.stop != nil {
		ph.job.stop()
		ph.job = job{}
	}
}

// openPhotos reads photos, scans and the like, one after another in the
// background; the first of them is shown.
func (w *Window) openPhotos(paths []string) {
	if len(paths) == 0 {
		return
	}
	w.paper.inHand = len(w.paper.photos)
	for _, path := range paths {
		ph := &photo{name: photoName(path), asTaken: true}
		w.paper.photos = append(w.paper.photos, ph)
	}
	w.settings = w.settings.WithFolder(filepath.Dir(paths[0]))
	w.keepSettings()
	w.goTo(stepBringIn)
	w.setTool(board.Trace)
	for i, ph := range w.paper.photos[len(w.paper.photos)-len(paths):] {
		w.readPhoto(ph, paths[i])
	}
}

// photoName is what a photo is called: its file's name, in words.
func photoName(path string) string {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	return strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == '_' || r == '-' || r == ' ' }), " ")
}

func (w *Window) readPhoto(ph *photo, path string) {
	w.beside(ph, words.F("Reading %s", ph.name), func(ctx context.Context, _ func(float64)) (func(), error) {
		shot, err := paper.OpenUntil(ctx, path)
		if err != nil {
			return nil, err
		}
		picture, err := shot.Colours()
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(picture)
		var seen paper.Sighting
		if !shot.IsScan() {
			if seen, err = shot.FindTargets(ctx); err != nil {
				return nil, err
			}
		}
		return func() {
			ph.shot, ph.taken = shot, levels
			w.findTwin(ph)
			ph.ask = w.firstAsk(shot)
			w.table.Fit()
			if ph.ask.Reference == paper.Scan {
				w.straighten(ph)
			} else {
				w.sawTargets(ph, seen)
			}
		}, nil
	})
}

// findTwin looks whether a photo just read is the same picture as another; the
// later of the two is said to be the other's twin.
func (w *Window) findTwin(ph *photo) {
	for _, o := range w.paper.photos {
		switch {
		case o == ph || o.shot == nil || !o.shot.Same(ph.shot):
		case slices.Index(w.paper.photos, o) < slices.Index(w.paper.photos, ph):
			ph.twin = o
			return
		default:
			o.twin = ph
		}
	}
}

// firstAsk is what a picture is most likely made flat by: what the photo before
// it was, as they are often taken one after another.
func (w *Window) firstAsk(shot *paper.Photo) paper.Request {
	if shot.IsScan() {
		return paper.Request{Reference: paper.Scan}
	}
	ask := paper.Request{Reference: paper.Page, Paper: pagePapers[0], Across: 1, Down: 1, Cell: cellOf(w.doc.Pattern().Unit)}
	for _, ph := range w.paper.photos {
		if ph.shot != nil && ph.solved && (ph.ask.Reference == paper.Page || ph.ask.Reference == paper.Mat) {
			ask.Reference, ask.Paper, ask.Cell = ph.ask.Reference, ph.ask.Paper, ph.ask.Cell
		}
	}
	return ask
}

// isFlat reports whether a photo's flat picture is in the document.
func (w *Window) isFlat(ph *photo) bool {
	return ph.id != "" && len(ph.flat) > 0 && w.doc.Pattern().PictureIndex(ph.id) >= 0
}

// showsFlat reports whether the flat picture is what the Table shows.
func (w *Window) showsFlat(ph *photo) bool {
	return ph != nil && w.isFlat(ph) && (!ph.asTaken || ph.shot == nil)
}

// twoAtATime does work beside the window, no more than two pieces of it at once:
// many photos together would take more memory than there is. Work whose context has
// ended makes room for the next, though a drive may keep it from coming to its end.
func twoAtATime() func(ctx context.Context, work func()) {
	free := make(chan struct{}, 2)
	return func(ctx context.Context, work func()) {
		go func() {
			free <- struct{}{}
			release := sync.OnceFunc(func() { <-free })
			defer release()
			defer context.AfterFunc(ctx, release)()
			work()
		}()
	}
}
