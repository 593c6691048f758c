package ui

import (
	"context"
	"fmt"
	"image"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/paper"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/straight"
	"quarterstep/ui/scene"
)

// straightenPhoto makes the photo in hand flat and puts it on the Table.
func (w *Window) straightenPhoto() { w.straighten(w.photo()) }

// straightening is what a photo is said to be in while it is made flat.
const straightening words.Text = "Straightening"

// straighten makes a photo flat, and with it the other parts of its piece.
func (w *Window) straighten(ph *photo) {
	if ph == nil || ph.shot == nil {
		return
	}
	ask, shot, turns := w.request(ph), ph.shot, ph.turns
	parts := w.partsToJoin(ph, ph.joined)
	known := w.lensKnown(ph)
	w.beside(ph, straightening.String(), func(ctx context.Context, progress func(float64)) (func(), error) {
		s, err := shot.Straighten(ctx, ask)
		if err != nil {
			return nil, err
		}
		s = s.Turned(turns)
		laidParts, err := layParts(ctx, paper.Part{Photo: shot, Straight: s}, parts)
		if err != nil {
			return nil, err
		}
		flat, err := paper.FlattenParts(ctx, laidParts, progress)
		if err != nil {
			return nil, err
		}
		levels := scene.Levels(flat.Colour)
		return func() {
			ph.taught = ph.taught || s.Learnt != nil
			ph.byLens = known && !ph.taught
			w.keepFlat(ph, laid{straight: s, solved: true, joined: joinedParts(parts, laidParts)}, flat, levels, fmt.Sprintf(words.C("make a photo flat", "straighten %s"), ph.name))
			if ph.lead != nil {
				w.join(ph)
			}
			w.carryScale(ph)
		}, nil
	})
}

// lensKnown reports whether the lens of a photo's camera is known already and
// helps to make it flat.
func (w *Window) lensKnown(ph *photo) bool {
	c := ph.shot.Picture
	return ph.ask.Reference != paper.Scan && slices.ContainsFunc(w.settings.Lenses, func(k straight.KnownLens) bool {
		return k.Serves(c.Camera, c.Focal35)
	})
}

// keepFlat puts a picture made flat into the document, in the place of earlier
// ones of the same photos that nothing was traced from.
func (w *Window) keepFlat(ph *photo, now laid, flat paper.Flat, levels []*image.RGBA, label string) {
	p := w.doc.Pattern()
	gone := ph.giveUp()
	for _, k := range now.joined {
		gone = append(gone, k.ph.giveUp()...)
	}
	now.id, now.from = w.freshPicture(p), flat.From
	ph.laid, ph.cardSays = now, ""
	ph.flat, ph.flatOf, ph.flatPer, ph.flatWhole = levels, now.id, flat.PerMM, flat.PerMM
	stays := ph.stays && ph.asTaken
	ph.lines, ph.prepared, ph.asTaken, ph.stays = nil, true, stays, false
	file := keptName(ph.id)
	w.doc.KeepPicture(file, flat.File)
	pic := model.Picture{ID: ph.id, Name: ph.name, File: file, PerMM: flat.PerMM, At: w.roomFor(p)}
	w.do(label, func(p model.Pattern) (model.Pattern, error) {
		for _, was := range gone {
			if p.PictureIndex(was) < 0 || traced(p, was) {
				continue
			}
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
	if ph.prepared = w.tracesOn(ph); ph.prepared {
		w.makeReady(ph, flat)
	}
	if !stays && ph == w.photo() {
		w.table.Fit()
	}
}

// giveUp takes a photo's picture from it, to come back only by undo, and says
// which it was.
func (ph *photo) giveUp() []string {
	const most = 8
	if ph.id == "" {
		return nil
	}
	was := ph.id
	ph.past = append(ph.past, ph.laid)
	ph.past = ph.past[max(len(ph.past)-most, 0):]
	ph.id, ph.joined = "", nil
	return []string{was}
}

// keptName is the file that a picture is kept in with the project.
func keptName(id string) string { return id + ".jpg" }

// freshPicture is an ID that no picture has, nor had before an undo.
func (w *Window) freshPicture(p model.Pattern) string {
	return freshID("photo", func(id string) bool {
		return p.PictureIndex(id) < 0 && !slices.ContainsFunc(w.paper.photos, func(ph *photo) bool {
			return ph.id == id || slices.ContainsFunc(ph.past, func(l laid) bool { return l.id == id })
		})
	})
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
	flat.Colour = nil // which would take memory until its turn comes
	w.beside(ph, words.T("Looking for printed lines"), func(ctx context.Context, progress func(float64)) (func(), error) {
		lines, err := flat.Lines(ctx, progress)
		if err != nil {
			return nil, err
		}
		return func() { ph.lines = lines }, nil
	})
}
