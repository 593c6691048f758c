package ui

import (
	"fmt"
	"image"
	"slices"
	"strings"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/ui/paint"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme"
	"quarterstep/ui/view"
)

// shelfView is the Shelf: a card for every piece.
func (w *Window) shelfView(p model.Pattern, r grading.Result, report app.Report) panel.ShelfView {
	v := panel.ShelfView{Chosen: p.PieceIndex(w.hand.Piece), BringIn: words.T("Bring in a photo, scan or SVG of your pattern.")}
	for i, q := range p.Pieces {
		card := panel.CardView{Name: q.Name, State: panel.Done, How: pieceLine(p, q, r.Pieces[i]), Links: linkLine(p, q)}
		if n := faultsOn(report, q.ID); n > 0 {
			card.State, card.How = panel.LookAt, words.F("%d to look at", n)
		}
		if r.Pieces[i].Frozen {
			card.State, card.How = panel.LookAt, pieceLine(p, q, r.Pieces[i])
		}
		one := p
		one.Pieces = p.Pieces[i : i+1]
		one.Links = nil
		graded := r
		graded.Pieces = r.Pieces[i : i+1]
		card.Thumb = func(width, height int, colours theme.Palette) image.Image {
			return w.thumb(one, graded, width, height, colours)
		}
		card.Key = fmt.Sprintf("%s/%d/%v", q.ID, w.docSerial, w.settings.Dark)
		v.Cards = append(v.Cards, card)
	}
	for i, c := range w.shelfPhotos(p) {
		card := panel.CardView{Name: c.name, State: panel.NotStarted, How: c.how, Thumb: w.photoThumb(c)}
		card.Key = fmt.Sprint(c.name, card.Thumb != nil, w.docSerial)
		chosen := c.tracing == "" && c.photo == w.paper.inHand
		if c.look {
			card.State = panel.LookAt
		}
		if c.tracing != "" {
			card.State = panel.UnderWay
			chosen = c.tracing == w.paper.trace.id
		}
		if chosen && w.step == stepBringIn {
			v.Chosen = len(p.Pieces) + i
		}
		v.Cards = append(v.Cards, card)
	}
	return v
}

func pieceLine(p model.Pattern, q model.Piece, r grading.Piece) string {
	switch {
	case r.Frozen:
		return words.T("Printed once")
	case len(q.Hand.Moves)+len(q.Hand.Shapes) > 0:
		return words.T("Corrected by eye")
	case r.Printed:
		return words.T("As printed")
	}
	follows := func(l model.Link) bool { return l.Kind == model.SameLine && l.Follow.Piece == q.ID }
	if slices.ContainsFunc(p.Links, follows) {
		return words.T("Follows")
	}
	return words.T("Graded")
}

// linkLine names the pieces that q is linked with.
func linkLine(p model.Pattern, q model.Piece) string {
	var names []string
	seen := map[string]bool{q.ID: true}
	for _, l := range p.Links {
		for _, pair := range [][2]string{{l.Lead.Piece, l.Follow.Piece}, {l.Follow.Piece, l.Lead.Piece}} {
			i := p.PieceIndex(pair[1])
			if pair[0] == q.ID && i >= 0 && !seen[pair[1]] {
				seen[pair[1]] = true
				names = append(names, p.Pieces[i].Name)
			}
		}
	}
	return strings.Join(names, ", ")
}

// thumb draws one piece to fit width x height device pixels.
func (w *Window) thumb(p model.Pattern, r grading.Result, width, height int, colours theme.Palette) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	paint.Clear(img, colours.Table)
	factor := float64(w.win.Canvas().Scale())
	margin := 5 * factor
	in := scene.Input{Pattern: p, Result: r, Nest: true}
	v := view.Fit(in.Bounds(), float64(width), float64(height), margin)
	in.Scale = v.Scale
	small := scene.Thumb(in)
	for i := range small.Lines {
		small.Lines[i].Width *= factor
	}
	paint.New(nil, colours).Paint(img, paint.Screen{View: v, Factor: 1}, small)
	return img
}

// photoThumb draws a photo on its card; nil until it has been read.
func (w *Window) photoThumb(c shelfPhoto) func(width, height int, colours theme.Palette) image.Image {
	var levels []*image.RGBA
	for i, ph := range w.paper.photos {
		if c.tracing == "" && i == c.photo || c.tracing != "" && ph.id == c.picture {
			levels = ph.taken
			if len(ph.flat) > 0 {
				levels = ph.flat
			}
		}
	}
	if len(levels) == 0 {
		return nil
	}
	return func(width, height int, colours theme.Palette) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, width, height))
		paint.Clear(img, colours.Table)
		f := scene.Photo{Levels: levels, PerMM: 10}
		v := view.Fit(f.Box(), float64(width), float64(height), 2)
		paint.New(nil, colours).Paint(img, paint.Screen{View: v, Factor: 1}, scene.Layer{Photos: []scene.Photo{f}})
		return img
	}
}
