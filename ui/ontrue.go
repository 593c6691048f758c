package ui

import (
	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/scene"
)

// connectTrue connects the Links panel, the seam walk and the joined view.
func (w *Window) connectTrue() {
	l := w.links
	l.OnPick = w.pickLink
	l.OnLow = func(text string) error { return w.typedEase(text, true) }
	l.OnHigh = func(text string) error { return w.typedEase(text, false) }
	l.OnPrint = func() {
		w.withLink(func(k model.Link) { w.do(words.T("ease as in print"), edit.EaseAsPrinted(k.ID)) })
	}
	l.OnRemedy = w.remedy
	l.OnGive = func(i int) {
		w.withLink(func(k model.Link) {
			all := refitsOf(w.doc.Pattern(), w.doc.Result(), k)
			if i < len(all) && all[i] != k.Refit {
				w.setRefit(k, all[i])
			}
		})
	}
	l.OnUnlink = func() {
		w.withLink(func(k model.Link) { w.do(words.F("unlink %s", followName(w.doc.Pattern(), k)), edit.Unlink(k.ID)) })
	}
	l.OnStart, l.OnMake, l.OnTurn = w.startLink, w.makeLink, w.turnLink
	l.OnKind = func(i int) { w.trues.make.kind = i; w.refresh() }
	l.OnLetGo = func() { w.letLinkGo(); w.refresh() }
	l.OnGrown = w.relaySide
	w.walk.OnPart = w.showPart
	w.walk.OnMark = w.showMark
	w.walk.OnHint = w.hint
	w.joinBar.OnPlace = func(i int) { w.trues.end = scene.End(i); w.refresh(); w.table.Fit() }
	w.joinBar.OnHint = w.hint
}

// withLink does f with the link in hand.
func (w *Window) withLink(f func(model.Link)) {
	if l, ok := w.linkInHand(w.doc.Pattern()); ok {
		f(l)
	}
}

// pickLink opens link i and takes its follower in hand where nothing of it is.
func (w *Window) pickLink(i int) {
	p := w.doc.Pattern()
	if i < 0 || i >= len(p.Links) {
		return
	}
	l := p.Links[i]
	w.takeLink(l)
	if !linkHas(l, w.hand) {
		w.hand = scene.Ref{Piece: l.Follow.Piece}
	}
	w.refresh()
	if w.step == stepTrue {
		w.table.Fit()
	}
}

// typedEase takes an end of the ease wanted, as typed.
func (w *Window) typedEase(text string, low bool) error {
	p := w.doc.Pattern()
	k, ok := w.linkInHand(p)
	s, walked := seamOf(w.doc.Result(), k)
	if !ok || !walked {
		return nil
	}
	typed, err := measure.Parse(text, bareUnit(p.Unit))
	if err != nil {
		return err
	}
	from, to := s.Wanted.Low, s.Wanted.High
	if low {
		from, to = typed.MM(), max(to, typed.MM())
	} else {
		from, to = min(from, typed.MM()), typed.MM()
	}
	return w.doc.Do(words.F("ease of the %s", followName(p, k)), edit.SetEase(k.ID, from, to))
}

// setRefit has the follower of a link give way.
func (w *Window) setRefit(k model.Link, r model.Refit) {
	label := words.F("let %s give way", followName(w.doc.Pattern(), k))
	if r == model.NoRefit {
		label = words.F("let nothing of %s give way", followName(w.doc.Pattern(), k))
	}
	w.do(label, edit.SetRefit(k.ID, r))
}

// remediesOf is what would make the seam of link l fit, the best first.
func (w *Window) remediesOf(p model.Pattern, r grading.Result, l model.Link) []grading.Remedy {
	all := grading.Remedies(p, r, l)
	return all[:min(len(all), 2)]
}

// remedy does what button i of the open link says.
func (w *Window) remedy(i int) {
	w.withLink(func(k model.Link) {
		if all := w.remediesOf(w.doc.Pattern(), w.doc.Result(), k); i < len(all) {
			w.do(lower(all[i].Say), edit.SetRefit(k.ID, all[i].Refit))
		}
	})
}

// walkInHand is the walk of the link in hand.
func (w *Window) walkInHand() (seam.Walk, bool) {
	p, r := w.doc.Pattern(), w.doc.Result()
	l, ok := w.linkInHand(p)
	if !ok || l.Kind == model.SameLine {
		return seam.Walk{}, false
	}
	walk, err := grading.Walk(p, r, l)
	return walk, err == nil
}

// showPart brings part i of the seam walk into sight and takes its edge in hand.
func (w *Window) showPart(i int) {
	walk, ok := w.walkInHand()
	if !ok || i >= len(walk.Parts) {
		return
	}
	k := walk.Parts[i]
	mid := (k.From.Follow.At + k.To.Follow.At) / 2
	w.showAlong(walk.Link.Follow, mid, "")
}

// showMark brings a mark of the seam walk into sight and takes it in hand.
func (w *Window) showMark(follow bool, i int) {
	walk, ok := w.walkInHand()
	if !ok {
		return
	}
	side := walk.Lead
	if follow {
		side = walk.Follow
	}
	if i >= len(side.Marks) {
		return
	}
	m := side.Marks[i]
	if follow {
		w.showAlong(walk.Link.Follow, m.At, m.Point)
		return
	}
	before := 0.0
	p, r := w.doc.Pattern(), w.doc.Result()
	for _, s := range walk.Link.Leads() {
		n := p.PieceIndex(s.Piece)
		mm, err := seam.NewTape(p.Pieces[n], r.Pieces[n].Edges).Stretch(p.Pieces[n], s)
		if err != nil {
			return
		}
		if s.Piece == m.Piece && m.At <= before+mm+1e-6 {
			w.showAlong(s, m.At-before, m.Point)
			return
		}
		before += mm
	}
}

// showAlong takes the edge in hand that a place lies on, at mm along the
// stitching line of a stretch, with a grade point where it is one, and brings
// it into sight.
func (w *Window) showAlong(s model.Stretch, at float64, point string) {
	p, r := w.doc.Pattern(), w.doc.Result()
	i := p.PieceIndex(s.Piece)
	if i < 0 {
		return
	}
	edge, place, err := placeAlong(p.Pieces[i], r.Pieces[i], s, at)
	if err != nil {
		w.say(err.Error())
		return
	}
	w.hand = scene.Ref{Piece: s.Piece, Edge: edge, Point: point}
	w.refresh()
	w.table.Centre(w.placeOnTable(s.Piece, place))
}

// placeAlong is the edge and the place of the piece that lie at mm along a
// stretch's stitching line.
func placeAlong(q model.Piece, g grading.Piece, s model.Stretch, at float64) (string, geom.Point, error) {
	const tol = 0.01
	tape := seam.NewTape(q, g.Edges)
	for n, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 {
			return "", geom.Point{}, seam.ErrGone
		}
		mm, err := tape.Length(j)
		if err != nil {
			return "", geom.Point{}, err
		}
		if at > mm && n < len(s.Edges)-1 {
			at -= mm
			continue
		}
		at = min(max(at, 0), mm)
		if s.Reverse {
			at = mm - at
		}
		along, err := tape.Place(j, at)
		if err != nil {
			return "", geom.Point{}, err
		}
		m, err := geom.Measure(g.Edges[j], tol)
		if err != nil {
			return "", geom.Point{}, err
		}
		return id, m.At(along), nil
	}
	return "", geom.Point{}, words.Error("the seam has no edges")
}
