package ui

import (
	"math/big"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/scene"
)

// foldGrows is the name of the panel among the folds.
const foldGrows = "How it grows" // words: none

// growthStep is what the window keeps of the How it grows panel.
type growthStep struct {
	piece  string // the piece it was of
	spread bool   // cut lines are asked for
	cut    int    // the cut line in hand
}

func (w *Window) connectGrowth() {
	g := w.growth
	g.OnChoice = w.chooseGrowth
	g.OnPoint = func(i int) {
		if q, ok := w.once(); ok && i < len(q.Points) {
			w.selected(scene.Ref{Piece: q.ID, Point: q.Points[i].ID})
		}
	}
	g.OnOut = func(i int, text string) error { return w.typedGap(i, text, false) }
	g.OnDown = func(i int, text string) error { return w.typedGap(i, text, true) }
	g.OnDefaults = w.layUsualCuts
	g.OnAdd = w.addCut
	g.OnCut = func(i int) {
		if q, ok := w.once(); ok && i < len(q.Cuts) {
			w.selected(scene.Ref{Piece: q.ID, Cut: q.Cuts[i].ID})
		}
	}
	g.OnFollow = w.followCut
	g.OnShare = w.typedShare
	g.OnTakeOut = func(i int) {
		if q, ok := w.once(); ok && i >= 0 && i < len(q.Cuts) {
			w.do(words.T("take a cut line out"), edit.RemoveCut(q.ID, q.Cuts[i].ID))
		}
	}
	g.OnGrown = w.relaySide
	w.folds[foldGrows].OnFold = func(bool) { w.relaySide() }
}

// once is the piece in hand where it was printed once.
func (w *Window) once() (model.Piece, bool) {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 || !printedOnce(p.Pieces[i]) {
		return model.Piece{}, false
	}
	return p.Pieces[i], true
}

// showGrowth shows the panel for a piece printed once, and hides it else.
func (w *Window) showGrowth() {
	q, ok := w.once()
	f := w.folds[foldGrows]
	if !ok {
		f.Hide()
		return
	}
	if w.grows.piece != q.ID {
		w.grows = growthStep{piece: q.ID}
	}
	if n := cutIndex(q, w.hand.Cut); n >= 0 {
		w.grows.cut = n
	}
	p := w.doc.Pattern()
	h := growth{
		p: p, q: q, g: w.doc.Result().Pieces[p.PieceIndex(q.ID)],
		spread: w.grows.spread, cut: w.grows.cut, point: w.hand.Point,
	}
	w.growth.SetView(h.view())
	f.SetState(h.state())
	f.Show()
}

// chooseGrowth has the piece in hand grow by gaps, by cut lines, or not at all.
// Cut lines count before gaps, so that choosing gaps takes them out.
func (w *Window) chooseGrowth(i int) {
	q, ok := w.once()
	if !ok {
		return
	}
	w.grows.spread = i == growSpread
	never := i == growNever
	if q.OneForAll == never && (i != growGaps || len(q.Cuts) == 0) {
		w.refresh()
		return
	}
	label := [...]string{growGaps: words.T("grow by typed gaps"), growSpread: words.T("grow by cut lines"), growNever: words.T("the same in all sizes")}[i]
	w.do(label, func(p model.Pattern) (model.Pattern, error) {
		p, err := edit.OneForAll(q.ID, never)(p)
		for n := 0; err == nil && i == growGaps && n < len(q.Cuts); n++ {
			p, err = edit.RemoveCut(q.ID, q.Cuts[n].ID)(p)
		}
		return p, err
	})
}

// typedGap takes the gap typed for grade point k of the piece in hand.
func (w *Window) typedGap(k int, text string, down bool) error {
	q, ok := w.once()
	if !ok || k >= len(q.Points) {
		return nil
	}
	mm, err := w.typed(text)
	if err != nil {
		return err
	}
	if !down {
		p := w.doc.Pattern()
		mm *= outward(q, w.doc.Result().Pieces[p.PieceIndex(q.ID)], k)
	}
	return w.doc.Do(words.F("gap of %s", words.Small(pointName(q, k))), edit.SetGap(q.ID, q.Points[k].ID, down, mm))
}

// layUsualCuts lays the cut lines that are usual for the piece in hand.
func (w *Window) layUsualCuts() {
	if q, ok := w.once(); ok {
		w.grows.cut = 0
		w.do(words.T("usual cut lines"), edit.DefaultCuts(q.ID))
	}
}

// addCut lays a cut line through the middle of the piece in hand.
func (w *Window) addCut(crosswise bool) {
	q, ok := w.once()
	if !ok {
		return
	}
	box := geom.Join(q.Nest[0].Edges...).Bounds()
	dir, m, share := q.GrainDir(), model.Bust, 1.0/8
	if crosswise {
		dir, m, share = dir.Perp(), model.BackWaist, 1.0/2
	}
	if !w.doc.Pattern().Chart.Has(m) {
		m, share = model.Steps, 3
	}
	reach := dir.Scale(box.Width() + box.Height())
	mid := box.Centre()
	if err := w.doc.Do(words.T("add a cut line"), edit.AddCut(q.ID, mid.Add(reach.Scale(-1)), mid.Add(reach), m, share)); err != nil {
		w.say(err.Error())
		return
	}
	if q, ok := w.once(); ok {
		w.selected(scene.Ref{Piece: q.ID, Cut: q.Cuts[len(q.Cuts)-1].ID})
	}
}

// cutInHand is the cut line whose share can be typed.
func (w *Window) cutInHand() (model.Piece, model.Cut, bool) {
	q, ok := w.once()
	if !ok || len(q.Cuts) == 0 {
		return q, model.Cut{}, false
	}
	return q, q.Cuts[min(max(w.grows.cut, 0), len(q.Cuts)-1)], true
}

// followCut has the cut line in hand open with another measure: by the same
// share, or between steps and a measure by as much from the print to the next
// size as before.
func (w *Window) followCut(i int) {
	q, c, ok := w.cutInHand()
	if !ok {
		return
	}
	chart := w.doc.Pattern().Chart
	m := followMeasures(chart)[i]
	if m == c.Measure {
		return
	}
	share := c.Share
	was, now := growth1(chart, q, c.Measure), growth1(chart, q, m)
	if c.Measure == model.Steps || m == model.Steps {
		share *= was / now
	}
	if m != model.Steps {
		share = min(share, 1)
	}
	w.do(words.F("cut line with %s", m.Said()), edit.SetCut(q.ID, c.ID, m, share))
}

// typedShare takes the share typed for the cut line in hand.
func (w *Window) typedShare(text string) error {
	q, c, ok := w.cutInHand()
	if !ok || strings.TrimSpace(text) == "" {
		return nil
	}
	share, err := w.shareOf(q, c, text)
	if err != nil || share == c.Share {
		return err
	}
	c.Share = share
	return w.doc.Do(words.F("cut line by %s", shareWords(w.doc.Pattern(), c)), edit.SetCut(q.ID, c.ID, c.Measure, share))
}

var errShare = words.Fault("type a share like 1/16 or 0.1, or a length like 3 mm")

// shareOf reads a share: a fraction of what the measure grows, or the length the
// cut opens by from the print to the next size.
func (w *Window) shareOf(q model.Piece, c model.Cut, text string) (float64, error) {
	if c.Measure == model.Steps {
		return w.typed(text)
	}
	const longest = 20 // what a share can take to write
	if r, ok := new(big.Rat).SetString(strings.ReplaceAll(strings.TrimSpace(text), ",", ".")); ok && len(text) <= longest {
		share, _ := r.Float64()
		return share, nil
	}
	l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
	grown := growth1(w.doc.Pattern().Chart, q, c.Measure)
	if err != nil || grown == 0 {
		return 0, errShare
	}
	return l.MM() / grown, nil
}

var errCutGone = words.Fault("the cut line is gone")

// moveCutEnd moves the end of a cut line that at names, or all of it.
func moveCutEnd(at scene.Ref, by geom.Vec) session.Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(at.Piece)
		if i < 0 {
			return p, errCutGone
		}
		n := cutIndex(p.Pieces[i], at.Cut)
		if n < 0 {
			return p, errCutGone
		}
		c := p.Pieces[i].Cuts[n]
		if at.Control != scene.CutEnd {
			c.From = c.From.Add(by)
		}
		if at.Control != scene.CutStart {
			c.To = c.To.Add(by)
		}
		return edit.MoveCut(at.Piece, at.Cut, c.From, c.To)(p)
	}
}
