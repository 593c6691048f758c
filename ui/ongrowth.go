package ui

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// growthStep is what the window keeps of the How it grows panel.
type growthStep struct {
	piece  string // the piece it was of
	spread bool   // cut lines are asked for
	cut    int    // the cut line in hand
}

func (w *Window) connectGrowth() {
	g := w.growth
	g.OnChoice = w.chooseGrowth
	g.OnOut = func(i int, text string) error { return w.typedGap(i, text, false) }
	g.OnDown = func(i int, text string) error { return w.typedGap(i, text, true) }
	g.OnDefaults = func() {
		if q, ok := w.once(); ok {
			w.do("usual cut lines", edit.DefaultCuts(q.ID))
		}
	}
	g.OnAdd = w.addCut
	g.OnCut = func(i int) { w.grows.cut = i; w.refresh() }
	g.OnFollow = func(i int) {
		if q, c, ok := w.cutInHand(); ok {
			m := followMeasures(w.doc.Pattern().Chart)[i]
			w.do("cut line by "+string(m), edit.SetCut(q.ID, c.ID, m, c.Share))
		}
	}
	g.OnShare = w.typedShare
	g.OnTakeOut = func(i int) {
		if q, ok := w.once(); ok && i < len(q.Cuts) {
			w.do("take a cut line out", edit.RemoveCut(q.ID, q.Cuts[i].ID))
		}
	}
	g.OnGrown = w.relaySide
	w.folds["How it grows"].OnFold = func(bool) { w.relaySide() }
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
	f := w.folds["How it grows"]
	if !ok {
		f.Hide()
		return
	}
	if w.grows.piece != q.ID {
		w.grows = growthStep{piece: q.ID}
	}
	p := w.doc.Pattern()
	v := growthView(p, q, w.doc.Result().Pieces[p.PieceIndex(q.ID)], w.grows.spread, w.grows.cut)
	w.growth.SetView(v)
	frozen := w.doc.Result().Pieces[p.PieceIndex(q.ID)].Frozen
	state := [...]string{growGaps: "typed gaps", growSpread: "cut and spread", growNever: "same in all sizes"}[v.Choice]
	if frozen {
		state = "say how"
	}
	f.SetState(state, frozen)
	f.Show()
}

// chooseGrowth has the piece in hand grow by gaps, by cut lines, or not at all.
func (w *Window) chooseGrowth(i int) {
	q, ok := w.once()
	if !ok {
		return
	}
	w.grows.spread = i == growSpread
	w.do([]string{"grow by typed gaps", "grow by cut lines", "the same in all sizes"}[i], func(p model.Pattern) (model.Pattern, error) {
		var err error
		if q.OneForAll != (i == growNever) {
			if p, err = edit.OneForAll(q.ID, i == growNever)(p); err != nil {
				return p, err
			}
		}
		if i == growGaps {
			for _, c := range q.Cuts {
				if p, err = edit.RemoveCut(q.ID, c.ID)(p); err != nil {
					return p, err
				}
			}
		}
		return p, nil
	})
	w.refresh()
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
	return w.doc.Do("gap of "+strings.ToLower(pointName(q, k)), edit.SetGap(q.ID, q.Points[k].ID, down, mm))
}

// addCut lays a cut line through the middle of the piece in hand.
func (w *Window) addCut(crosswise bool) {
	q, ok := w.once()
	if !ok {
		return
	}
	box := geom.Join(q.Nest[0].Edges...).Bounds()
	grain := q.GrainDir()
	dir, m, share := grain, model.Bust, 1.0/8
	if crosswise {
		dir, m, share = grain.Perp(), model.BackWaist, 1.0/2
	}
	chart := w.doc.Pattern().Chart
	if !chart.Has(m) {
		m, share = model.Steps, 3
	}
	reach := dir.Scale(box.Width() + box.Height())
	mid := box.Centre()
	w.grows.spread, w.grows.cut = true, len(q.Cuts)
	w.do("add a cut line", edit.AddCut(q.ID, mid.Add(reach.Scale(-1)), mid.Add(reach), m, share))
}

// cutInHand is the cut line whose share can be typed.
func (w *Window) cutInHand() (model.Piece, model.Cut, bool) {
	q, ok := w.once()
	if !ok || len(q.Cuts) == 0 {
		return q, model.Cut{}, false
	}
	return q, q.Cuts[min(max(w.grows.cut, 0), len(q.Cuts)-1)], true
}

// typedShare takes the share typed for the cut line in hand: a fraction, or for
// steps a length.
func (w *Window) typedShare(text string) error {
	q, c, ok := w.cutInHand()
	if !ok || strings.TrimSpace(text) == "" {
		return nil
	}
	share, err := w.shareOf(c, text)
	if err != nil || share == c.Share {
		return err
	}
	return w.doc.Do(fmt.Sprintf("share of %s", strings.ToLower(shareWords(w.doc.Pattern(), c))), edit.SetCut(q.ID, c.ID, c.Measure, share))
}

func (w *Window) shareOf(c model.Cut, text string) (float64, error) {
	if c.Measure == model.Steps {
		return w.typed(text)
	}
	r, ok := new(big.Rat).SetString(strings.ReplaceAll(strings.TrimSpace(text), ",", "."))
	if !ok || len(text) > 20 {
		return 0, errors.New("Type a share like 1/16 or 0.1.")
	}
	share, _ := r.Float64()
	return share, nil
}
