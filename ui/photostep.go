package ui

import (
	"context"
	"errors"
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/app/paper"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// photoStep is what bringing in from photos has in hand beyond the document.
type photoStep struct {
	photos []*photo
	inHand int
	trace  traceStep
	under  bool // show the photos under the pieces at the other steps
}

// photo is a picture on its way to be flat, or one kept with the project.
type photo struct {
	id   string // of its model.Picture, once it is flat
	name string
	shot *paper.Photo // as taken; nil where only the flat picture is kept

	ask      paper.Request
	clicks   []geom.Point // px
	straight paper.Straight
	solved   bool
	turns    int // quarter turns to the right of the flat picture
	asTaken  bool
	taken    []*image.RGBA // of the picture as taken

	flat     []*image.RGBA
	lines    *follow.Field // nil until they are ready to be followed
	prepared bool          // that they are made ready was asked for
	job      job
	note     string // why it cannot be used
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

// beside works on a photo while the window goes on: words say what is done, and
// then, if nothing went wrong and nobody cancelled it, the window does what work
// returned.
func (w *Window) beside(ph *photo, words string, work func(ctx context.Context, progress func(float64)) (func(), error)) {
	w.stopJob(ph)
	ctx, stop := context.WithCancel(context.Background())
	ph.job, ph.note = job{words: words, stop: stop}, ""
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
	w.aside(func() {
		then, err := work(ctx, oneAtATime(progress))
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
		then()
	}
	w.refresh()
}

// panelSentence is an error as a sentence.
func panelSentence(err error) string { return capital(err.Error()) + "." }

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
	w.settings.Folder = filepath.Dir(paths[0])
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
	w.beside(ph, "Reading "+ph.name, func(context.Context, func(float64)) (func(), error) {
		shot, err := paper.Open(path)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(shot.Picture.Color)
		return func() {
			ph.shot, ph.taken = shot, levels
			ph.ask = firstAsk(shot)
			w.table.Fit()
		}, nil
	})
}

// firstAsk is what a picture is most likely made flat by.
func firstAsk(shot *paper.Photo) paper.Request {
	if shot.IsScan() {
		return paper.Request{Reference: paper.Scan}
	}
	return paper.Request{Reference: paper.Page, Paper: pagePapers[0], Cell: 10}
}

// straightenPhoto makes the photo in hand flat and puts it on the Table.
func (w *Window) straightenPhoto() {
	ph := w.photo()
	if ph == nil || ph.shot == nil {
		return
	}
	ask, shot, turns := w.request(ph), ph.shot, ph.turns
	w.beside(ph, "Straightening", func(ctx context.Context, progress func(float64)) (func(), error) {
		s, err := shot.Straighten(ctx, ask)
		if err != nil {
			return nil, err
		}
		s = turned(s, turns)
		flat, err := shot.Flatten(ctx, s, progress)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			ph.straight, ph.solved = s, true
			w.keepFlat(ph, flat, levels)
		}, nil
	})
}

// turned is a way to the paper with the paper turned to the right by quarter
// turns.
func turned(s paper.Straight, quarters int) paper.Straight {
	for range quarters % 4 {
		h, b := s.Map.H, s.Bounds
		s.Map.H = [9]float64{-h[3], -h[4], -h[5], h[0], h[1], h[2], h[6], h[7], h[8]}
		s.Bounds = geom.Box{Min: geom.Pt(-b.Max.Y, b.Min.X), Max: geom.Pt(-b.Min.Y, b.Max.X)}
	}
	return s
}

// keepFlat puts a picture made flat into the document, in the place of an
// earlier one of the same photo that nothing was traced from.
func (w *Window) keepFlat(ph *photo, flat paper.Flat, levels []*image.RGBA) {
	p := w.doc.Pattern()
	was := ph.id
	ph.id = freshID("photo", func(id string) bool { return p.PictureIndex(id) < 0 && !w.knownPhoto(id) })
	ph.flat, ph.lines, ph.prepared, ph.asTaken = levels, nil, false, false
	file := ph.id + ".jpg"
	w.doc.KeepPicture(file, flat.File)
	pic := model.Picture{ID: ph.id, Name: ph.name, File: file, PerMM: flat.PerMM, At: w.roomFor(p)}
	w.do("straighten "+ph.name, func(p model.Pattern) (model.Pattern, error) {
		if was != "" && p.PictureIndex(was) >= 0 && !traced(p, was) {
			var err error
			if p, err = edit.RemovePicture(was)(p); err != nil {
				return p, err
			}
		}
		return edit.AddPicture(pic)(p)
	})
	if ph.straight.Learnt != nil {
		w.settings.Lenses = paper.Lenses(w.settings.Lenses, *ph.straight.Learnt)
		w.keepSettings()
	}
	w.makeReady(ph, flat)
	w.table.Fit()
}

// traced reports whether anything was traced from a picture.
func traced(p model.Pattern, picture string) bool {
	return slices.ContainsFunc(p.Tracings, func(t model.Tracing) bool { return t.Picture == picture }) ||
		slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return q.Picture == picture })
}

func (w *Window) knownPhoto(id string) bool {
	return slices.ContainsFunc(w.paper.photos, func(ph *photo) bool { return ph.id == id })
}

// freshID is the first of kind-1, kind-2, ... that is free.
func freshID(kind string, free func(string) bool) string {
	for n := 1; ; n++ {
		if id := fmt.Sprintf("%s-%d", kind, n); free(id) {
			return id
		}
	}
}

// roomFor is a place right of everything on the Table.
func (w *Window) roomFor(p model.Pattern) geom.Vec {
	const apart = 60
	b := (scene.Input{Pattern: p, Result: w.doc.Result(), Nest: true}).Bounds()
	if b.Empty() {
		return geom.Vec{}
	}
	return geom.Vec{X: b.Max.X + apart, Y: b.Min.Y}
}

// makeReady makes the printed lines of a flat picture ready to be followed.
func (w *Window) makeReady(ph *photo, flat paper.Flat) {
	ph.prepared = true
	w.beside(ph, "Looking for printed lines", func(ctx context.Context, progress func(float64)) (func(), error) {
		lines, err := flat.Lines(ctx, progress)
		if err != nil {
			return nil, err
		}
		return func() { ph.lines = lines }, nil
	})
}

// keepPhotos brings the photos in line with the pictures the document has: one
// that was opened with a project has a photo too, read when it is shown.
func (w *Window) keepPhotos(p model.Pattern) {
	for _, q := range p.Pictures {
		if !w.knownPhoto(q.ID) {
			w.paper.photos = append(w.paper.photos, &photo{id: q.ID, name: q.Name})
		}
	}
	w.paper.photos = slices.DeleteFunc(w.paper.photos, func(ph *photo) bool {
		return ph.id != "" && ph.shot == nil && p.PictureIndex(ph.id) < 0
	})
	w.paper.inHand = max(min(w.paper.inHand, len(w.paper.photos)-1), 0)
	if ph := w.photo(); ph != nil && w.step == stepBringIn {
		w.readKept(p, ph)
	}
}

// readKept reads a picture kept with the project, if that has not been done.
func (w *Window) readKept(p model.Pattern, ph *photo) {
	i := p.PictureIndex(ph.id)
	if i < 0 || ph.prepared || ph.job.stop != nil || ph.note != "" {
		return
	}
	q := p.Pictures[i]
	file := w.doc.Picture(q.File)
	ph.prepared = true
	w.beside(ph, "Reading "+ph.name, func(ctx context.Context, progress func(float64)) (func(), error) {
		flat, err := paper.Kept(file, q.PerMM)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			ph.flat = levels
			w.makeReady(ph, flat)
			w.table.Fit()
		}, nil
	})
}

// isFlat reports whether a photo's flat picture is in the document.
func (w *Window) isFlat(ph *photo) bool {
	return ph.id != "" && len(ph.flat) > 0 && w.doc.Pattern().PictureIndex(ph.id) >= 0
}

// showsFlat reports whether the flat picture is what the Table shows.
func (w *Window) showsFlat(ph *photo) bool {
	return ph != nil && w.isFlat(ph) && (!ph.asTaken || ph.shot == nil)
}

// removePhoto takes the photo in hand away; pieces traced from it stay.
func (w *Window) removePhoto() {
	ph := w.photo()
	if ph == nil {
		return
	}
	w.stopJob(ph)
	w.paper.trace = traceStep{}
	w.paper.photos = slices.Delete(w.paper.photos, w.paper.inHand, w.paper.inHand+1)
	if w.doc.Pattern().PictureIndex(ph.id) >= 0 {
		w.do("take "+ph.name+" away", edit.RemovePicture(ph.id))
	}
	w.refresh()
	w.table.Fit()
}

// choosePhoto takes a photo in hand.
func (w *Window) choosePhoto(i int) {
	if i < 0 || i >= len(w.paper.photos) || i == w.paper.inHand {
		return
	}
	w.paper.inHand = i
	w.paper.trace = traceStep{}
	w.refresh()
	w.table.Fit()
}

// turnPhoto turns the flat picture in hand by a quarter to the right, as long as
// nothing was traced from it.
func (w *Window) turnPhoto() {
	ph := w.photo()
	switch {
	case ph == nil || ph.shot == nil:
		w.say("There is no photo to turn.")
	case traced(w.doc.Pattern(), ph.id):
		w.say("Pieces were traced from this photo as it lies, so it stays.")
	default:
		ph.turns = (ph.turns + 1) % 4
		if ph.solved {
			w.straightenPhoto()
			return
		}
		w.say("It will be turned when it is straightened.")
	}
}
