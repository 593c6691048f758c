package ui

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/check"
	"quarterstep/grading/link"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// trueStep is what the True step remembers. The zero trueStep shows the seam
// walk of the seam that is furthest off.
type trueStep struct {
	link    string // ID of the link in hand
	walk    wish   // for the seam walk
	join    bool   // the pieces of the seam lie together
	end     scene.End
	apart   map[string]geom.Affine // how they lie else
	laid    scene.Joined           // how, as long as the hand holds something
	refused error                  // why they cannot
	misfits map[string]misfit
	make    linkMaking
	led     ledLine
}

// misfit is how far the two lines of a same-line link are apart in print, with
// the nests it was read from.
type misfit struct {
	lead, follow *model.Outline
	mm           float64
	known        bool
}

// linkInHand is the link in hand; false for none.
func (w *Window) linkInHand(p model.Pattern) (model.Link, bool) {
	i := slices.IndexFunc(p.Links, func(l model.Link) bool { return l.ID == w.trues.link })
	if i < 0 {
		return model.Link{}, false
	}
	return p.Links[i], true
}

// keepLink keeps a link in hand: that of the edge in hand where it has one,
// else the one there was, else the seam furthest off what is wanted.
func (w *Window) keepLink(p model.Pattern, r grading.Result) {
	if w.step != stepTrue {
		return
	}
	if l, ok := w.linkInHand(p); ok && linkHas(l, w.hand) {
		return
	}
	for _, l := range p.Links {
		if w.hand.Piece != "" && linkHas(l, w.hand) {
			w.takeLink(l)
			return
		}
	}
	if _, ok := w.linkInHand(p); ok {
		return
	}
	w.takeWorst(p, r)
}

// takeLink takes a link in hand.
func (w *Window) takeLink(l model.Link) {
	w.trues.link, w.trues.end = l.ID, firstEnd(l)
}

// takeWorst takes the link to look at first in hand, with its follower.
func (w *Window) takeWorst(p model.Pattern, r grading.Result) {
	w.trues.link = worstSeam(p, r)
	if l, ok := w.linkInHand(p); ok {
		w.takeLink(l)
		w.hand = scene.Ref{Piece: l.Follow.Piece}
	}
}

// firstEnd is where a link's pieces are laid together at first.
func firstEnd(l model.Link) scene.End {
	if len(l.And) > 0 {
		return scene.Leads
	}
	return scene.From
}

// linkHas reports whether an edge belongs to a link, or without an edge whether
// the piece does.
func linkHas(l model.Link, at scene.Ref) bool {
	return slices.ContainsFunc(append(l.Leads(), l.Follow), func(s model.Stretch) bool {
		return s.Piece == at.Piece && (at.Edge == "" || slices.Contains(s.Edges, at.Edge))
	})
}

// worstSeam is the ID of the link to look at first: a broken one, else the seam
// furthest off, else the one that eases in most; empty without links.
func worstSeam(p model.Pattern, r grading.Result) string {
	if len(r.Unlinked) > 0 {
		return r.Unlinked[0].Link
	}
	best, off, ease := "", -1.0, -1.0
	for _, s := range r.Seams {
		o, e := math.Abs(s.Off()), math.Abs(s.Ease())
		if o <= check.LimitOf(p, check.LimitSeams) {
			o = 0
		}
		if o > off || o == off && e > ease {
			best, off, ease = s.Link, o, e
		}
	}
	if best == "" && len(p.Links) > 0 {
		best = p.Links[0].ID
	}
	return best
}

// seamsOff is how many links want looking at.
func seamsOff(p model.Pattern, r grading.Result) int {
	n := len(r.Unlinked)
	for _, s := range r.Seams {
		if math.Abs(s.Off()) > check.LimitOf(p, check.LimitSeams) || s.Why != "" {
			n++
		}
	}
	return n
}

// trueState is the True step on the rail.
func trueState(p model.Pattern, r grading.Result) panel.StepView {
	v := panel.StepView{Name: words.T("True"), State: words.T("all seams fit"), Mark: panel.Done, Enabled: len(p.Pieces) > 0}
	if n := seamsOff(p, r); n > 0 {
		v.State, v.Mark = words.F("%d to look at", n), panel.LookAt
	} else if len(p.Links) == 0 {
		v.State, v.Mark = words.T("no links yet"), panel.NotStarted
	}
	return v
}

// showTrue shows the seam walk and how the pieces lie together.
func (w *Window) showTrue(p model.Pattern, r grading.Result) {
	l, ok := w.linkInHand(p)
	in := w.step == stepTrue && ok
	w.walk.Hidden = !in || !w.walkShown() || l.Kind == model.SameLine
	w.joinBar.Hidden = !in || !w.trues.join
	head, foot := 0.0, 0.0
	if !w.walk.Hidden {
		w.walk.SetView(w.walkOf(p, r, l))
		if w.roomForWalk() {
			foot = float64(w.walk.MinSize().Height + 14)
		}
	}
	if !w.joinBar.Hidden {
		w.joinBar.SetView(w.joinView(p, r, l))
		head = float64(w.joinBar.MinSize().Height + 14)
	}
	if w.withPhoto() {
		foot = float64(w.pill.MinSize().Height + 14)
	}
	w.table.SetCover(head, foot)
	w.walk.Refresh()
	w.joinBar.Refresh()
}

// wish is what the sewist said of something that is else chosen for her.
type wish int

const (
	notSaid wish = iota
	wanted
	unwanted
)

// walkShown reports whether the seam walk is to be shown: as she said, else where
// the Table has room for both.
func (w *Window) walkShown() bool {
	return w.trues.walk == wanted || w.trues.walk == notSaid && w.roomForWalk()
}

// roomForWalk reports whether the Table above the walk is high enough to work on,
// as it is not in the smallest window with large words. There the walk lies over
// all of it.
func (w *Window) roomForWalk() bool {
	const least = 140 // px
	high := w.table.Size().Height
	return high == 0 || high-w.walk.MinSize().Height >= least
}

// walkOf is the walk of link l as a view.
func (w *Window) walkOf(p model.Pattern, r grading.Result, l model.Link) panel.WalkView {
	walk, err := grading.Walk(p, r, l)
	if err != nil {
		return panel.WalkView{Empty: sentence(err.Error())}
	}
	return walkView(p, l, walk)
}

// sentence is what was said with a capital and a full stop.
func sentence(said string) string {
	if said == "" {
		return ""
	}
	return capital(strings.TrimSuffix(said, ".")) + "."
}

// trueOnTable is what the True step changes on the Table: the two sides of the
// link in hand stand out, and its pieces lie together where that is wanted.
func (w *Window) trueOnTable(in *scene.Input) {
	p := in.Pattern
	l, ok := w.linkInHand(p)
	if !ok || !linkWhole(p, l) || w.hand.Piece != "" && !linkHas(l, scene.Ref{Piece: w.hand.Piece}) {
		return
	}
	in.Runs = runsOf(p, in.Result, l)
	pieces := linkPieces(l)
	if !w.doc.Previewing() {
		w.trues.apart = in.InARow(pieces)
		if w.trues.join {
			w.trues.laid, w.trues.refused = scene.Join(*in, l, w.trues.end)
		}
	}
	*in = in.Only(pieces)
	in.Placement = w.trues.apart
	if w.trues.join && w.trues.refused == nil {
		in.Placement = w.trues.laid.Placement
	}
}

// linkPieces is the pieces of a link, each once, the leader's first.
func linkPieces(l model.Link) []string {
	var out []string
	for _, s := range append(l.Leads(), l.Follow) {
		if !slices.Contains(out, s.Piece) {
			out = append(out, s.Piece)
		}
	}
	return out
}

// runsOf is the two sides of a link with their names and lengths, for the Table.
func runsOf(p model.Pattern, r grading.Result, l model.Link) []scene.Run {
	var out []scene.Run
	add := func(s model.Stretch) {
		i := p.PieceIndex(s.Piece)
		run := scene.Run{Piece: s.Piece, Edges: s.Edges, Name: capital(stretchName(p.Pieces[i], s))}
		if mm, err := seam.NewTape(p.Pieces[i], r.Pieces[i].Edges).Stretch(p.Pieces[i], s); err == nil {
			run.Length = long(mm, p.Unit)
		}
		out = append(out, run)
	}
	for _, s := range l.Leads() {
		add(s)
	}
	add(l.Follow)
	return out
}

// joinView is how the pieces of link l lie together.
func (w *Window) joinView(p model.Pattern, r grading.Result, l model.Link) panel.JoinView {
	v := panel.JoinView{Places: endNames(p, l), Place: int(w.trues.end)}
	if w.trues.refused != nil {
		v.Say, v.Look = sentence(w.trues.refused.Error()), true
		return v
	}
	laid := w.trues.laid
	if w.doc.Previewing() {
		var err error
		if laid, err = scene.Join(scene.Input{Pattern: p, Result: r}, l, w.trues.end); err != nil {
			v.Say, v.Look = sentence(err.Error()), true
			return v
		}
	}
	if l.Kind == model.SameLine {
		v.Say = words.F("Both lines lie on each other within %s", finely(laid.Apart, p.Unit))
		return v
	}
	name := laid.Runs
	if name == "" {
		name = words.T("line")
	}
	const along = 150 // degrees: both lines leave the same way, so they are a seam too
	if laid.Bend > along {
		v.Say = words.F("The seam goes on along the %s", name)
		return v
	}
	limit := check.LimitOf(p, check.LimitJoin)
	switch printed, ok := printedBend(p, l, w.trues.end); {
	case laid.Bend <= limit:
		v.Say = words.F("The %s runs on flat, %s°", name, words.Figure(laid.Bend, 1))
	case ok && laid.Bend <= printed+limit:
		v.Say = words.F("The %s bends %s°, %s° in print", name, words.Figure(laid.Bend, 1), words.Figure(printed, 1))
	case ok:
		v.Say, v.Look = words.F("The %s bends %s°, %s° in print", name, words.Figure(laid.Bend, 1), words.Figure(printed, 1)), true
	default:
		v.Say, v.Look = words.F("The %s bends %s°", name, words.Figure(laid.Bend, 1)), true
	}
	return v
}

// printedBend is by how many degrees the line bends across the same join in the
// largest printed size that all pieces of the link have; false without one.
func printedBend(p model.Pattern, l model.Link, end scene.End) (float64, bool) {
	i := p.PieceIndex(l.Follow.Piece)
	for k := len(p.Pieces[i].Nest) - 1; k >= 0; k-- {
		size := p.Pieces[i].Nest[k].Size
		r := grading.Result{Size: size, Pieces: make([]grading.Piece, len(p.Pieces))}
		whole := true
		for n, q := range p.Pieces {
			o, ok := q.Printed(size)
			r.Pieces[n] = grading.Piece{ID: q.ID, Name: q.Name, Edges: o.Edges}
			if !ok && slices.ContainsFunc(append(l.Leads(), l.Follow), func(s model.Stretch) bool { return s.Piece == q.ID }) {
				whole = false
			}
		}
		if !whole {
			continue
		}
		j, err := scene.Join(scene.Input{Pattern: p, Result: r}, l, end)
		return j.Bend, err == nil
	}
	return 0, false
}

// endNames is where the pieces of a link can be laid together, in the order of
// scene.End: its two ends, and for a leader's side of several pieces where
// these meet.
func endNames(p model.Pattern, l model.Link) []string {
	leads := l.Leads()
	out := []string{endName(p, leads[0], scene.From), endName(p, leads[len(leads)-1], scene.To)}
	if out[0] == out[1] {
		for n, s := range []model.Stretch{leads[0], leads[len(leads)-1]} {
			if len(leads) > 1 {
				out[n] = shortName(p, l, s.Piece) + " " + out[n]
			}
		}
	}
	if len(leads) > 1 {
		out = append(out, endName(p, leads[0], scene.To))
	}
	return out
}

// endName is the grade point at an end of a stretch as walked.
func endName(p model.Pattern, s model.Stretch, end scene.End) string {
	i := p.PieceIndex(s.Piece)
	if i < 0 || len(s.Edges) == 0 {
		return words.T("end")
	}
	q := p.Pieces[i]
	id, forward := s.Edges[0], !s.Reverse
	if end == scene.To {
		id, forward = s.Edges[len(s.Edges)-1], s.Reverse
	}
	k := q.EdgeIndex(id)
	if k < 0 {
		return words.T("end")
	}
	if !forward {
		k = (k + 1) % len(q.Points)
	}
	return words.Small(pointName(q, k))
}

// misfitOf is how far the two lines of a same-line link are apart in print, mm;
// false where that cannot be said.
func (w *Window) misfitOf(p model.Pattern, l model.Link) (float64, bool) {
	a, b := p.PieceIndex(l.Lead.Piece), p.PieceIndex(l.Follow.Piece)
	if a < 0 || b < 0 || len(p.Pieces[a].Nest) == 0 || len(p.Pieces[b].Nest) == 0 {
		return 0, false
	}
	lead, follow := &p.Pieces[a].Nest[0], &p.Pieces[b].Nest[0]
	key := fmt.Sprint(l.ID, l.Lead, l.Follow)
	m, ok := w.trues.misfits[key]
	if !ok || m.lead != lead || m.follow != follow {
		pl, err := link.Read(p, l)
		m = misfit{lead: lead, follow: follow, known: err == nil}
		if err == nil {
			m.mm = pl.Misfit
		}
		if w.trues.misfits == nil {
			w.trues.misfits = map[string]misfit{}
		}
		w.trues.misfits[key] = m
	}
	return m.mm, m.known
}

// placeOnTable is a place of a piece as it lies on the Table now.
func (w *Window) placeOnTable(piece string, at geom.Point) geom.Point {
	in := w.sceneOf(w.doc.Pattern(), w.doc.Result())
	return in.Place(piece).Apply(at)
}
