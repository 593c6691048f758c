package ui

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/propose"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// linkFinding is the links that were looked for: found by themselves in the
// document as it is, or as it was when they were looked for last. The zero
// linkFinding has not looked.
type linkFinding struct {
	asked   bool
	askedAt int // the document then
	serial  int // of the document that was looked through last
	under   bool
	took    time.Duration
	found   []propose.Proposal
	left    map[string]bool // what she left out, by what it promises
	picked  string          // what is shown on the Table
	at      scene.Ref       // what was in hand when it was picked
}

// lookAtOnce is how long looking for links may take to be done within a frame. What
// took longer the last time, or was never done, is done beside the window.
const lookAtOnce = 10 * time.Millisecond

// promise tells one proposal from another, whatever its ID.
func promise(l model.Link) string { return fmt.Sprint(l.Kind, l.Leads(), l.Follow) }

// findLinks looks for links from now on; what was left out comes again.
func (w *Window) findLinks() {
	w.finds = linkFinding{asked: true, askedAt: w.docSerial, serial: -1, took: w.finds.took}
	w.lookForLinks(w.doc.Pattern())
}

// foundLinks is findLinks where it is known what is found, and how long it took.
func (w *Window) foundLinks(found []propose.Proposal, took time.Duration) {
	w.finds = linkFinding{asked: true, askedAt: w.docSerial, serial: w.docSerial, took: took, found: found}
}

// lookForLinks looks through the document anew after it has changed. Where that
// takes long it is done beside the window, which shows what was found before.
func (w *Window) lookForLinks(p model.Pattern) {
	f := &w.finds
	if !f.asked || f.serial == w.docSerial || f.under || w.doc.Previewing() {
		return
	}
	if f.took > 0 && f.took < lookAtOnce {
		began := time.Now()
		found := propose.Links(p)
		w.lookedForLinks(found, w.docSerial, time.Since(began))
		return
	}
	f.under = true
	doc, serial, atOnce := w.doc, w.docSerial, true
	besideWindow(func() {
		var found []propose.Proposal
		began := time.Now()
		err := guarded(func() error {
			found = propose.Links(p)
			return nil
		})
		took := time.Since(began)
		fyne.Do(func() {
			if w.doc != doc {
				return
			}
			w.lookedForLinks(found, serial, took)
			if err != nil {
				w.say(sentence(err.Error()))
			}
			if !atOnce {
				w.refreshAside()
			}
		})
	})
	atOnce = false
}

// lookedForLinks keeps what was found in the document of a serial.
func (w *Window) lookedForLinks(found []propose.Proposal, serial int, took time.Duration) {
	f := &w.finds
	f.under, f.serial, f.took = false, serial, took
	f.found = slices.DeleteFunc(found, func(x propose.Proposal) bool { return f.left[promise(x.Link)] })
}

// proposalsView is the links found, and the button that looks for them while
// there are edges that no link names.
func (w *Window) proposalsView(p model.Pattern) panel.ProposalsView {
	w.lookForLinks(p)
	if w.finds.serial != w.docSerial { // what is shown was found before the latest changes
		w.finds.found = slices.DeleteFunc(slices.Clone(w.finds.found), func(x propose.Proposal) bool { return !linkWhole(p, x.Link) || w.finds.left[promise(x.Link)] })
	}
	f := w.finds
	if !f.asked || len(f.found) == 0 {
		v := panel.ProposalsView{}
		if hasFreeEdges(p) {
			v.Find = words.T("Find links")
		}
		if f.under {
			v.Find, v.None = "", words.T("Looking for links ...")
		} else if f.asked && f.askedAt == w.docSerial && len(f.left) == 0 {
			v.Find, v.None = "", words.T("No more links are found: what is left has no partner by its name and length.")
		}
		return v
	}
	v := panel.ProposalsView{Title: words.N(len(f.found), "%d link found", "%d links found", len(f.found)), All: words.F("Accept all %d", len(f.found))}
	if len(f.found) == 1 {
		v.All = words.T("Accept it")
	}
	for _, x := range f.found {
		v.Found = append(v.Found, panel.ProposalView{
			What: linkTitle(p, x.Link), How: x.How, Look: !x.Sure, Chosen: w.pickedLink(x.Link),
		})
	}
	return v
}

// hasFreeEdges reports whether there is an edge that no link names and that is
// no hem, fold or centre line.
func hasFreeEdges(p model.Pattern) bool {
	linked := map[scene.Ref]bool{}
	for _, l := range p.Links {
		for _, s := range append(l.Leads(), l.Follow) {
			for _, e := range s.Edges {
				linked[scene.Ref{Piece: s.Piece, Edge: e}] = true
			}
		}
	}
	for _, q := range p.Pieces {
		for _, e := range q.Edges {
			if e.Kind == model.Plain && !linked[scene.Ref{Piece: q.ID, Edge: e.ID}] {
				return len(p.Pieces) > 1
			}
		}
	}
	return false
}

func (w *Window) connectProposals() {
	l := w.proposals
	l.OnFind = func() { w.findLinks(); w.refresh() }
	l.OnPick = w.pickProposal
	l.OnAccept = func(i int) {
		if f := w.finds.found; i < len(f) {
			w.do(words.F("link %s", lower(linkTitle(w.doc.Pattern(), f[i].Link))), edit.AcceptLinks(f[i].Link))
		}
	}
	l.OnAll = func() {
		var links []model.Link
		for _, f := range w.finds.found {
			links = append(links, f.Link)
		}
		w.do(words.F("accept %s", count(len(links), "link")), edit.AcceptLinks(links...))
	}
	l.OnLeave = func(i int) {
		f := &w.finds
		if i >= len(f.found) {
			return
		}
		left := map[string]bool{promise(f.found[i].Link): true}
		for k := range f.left {
			left[k] = true
		}
		f.left, f.serial = left, -1
		w.refresh()
	}
}

// pickProposal shows the two sides of a link found on the Table; again, and
// they go.
func (w *Window) pickProposal(i int) {
	f := &w.finds
	if i >= len(f.found) {
		return
	}
	l := f.found[i].Link
	if w.pickedLink(l) {
		f.picked = ""
		w.refresh()
		return
	}
	w.hand = scene.Ref{Piece: l.Follow.Piece, Edge: l.Follow.Edges[0]}
	f.picked, f.at = promise(l), w.hand
	w.refresh()
}

// pickedLink reports that a link found is shown on the Table: as long as what
// was taken in hand with it is.
func (w *Window) pickedLink(l model.Link) bool {
	return w.finds.picked == promise(l) && w.finds.at == w.hand
}

// proposalOnTable lets the two sides of the link picked stand out; false
// without one.
func (w *Window) proposalOnTable(in *scene.Input) bool {
	for _, x := range w.finds.found {
		if w.pickedLink(x.Link) && linkWhole(in.Pattern, x.Link) {
			in.Runs = runsOf(in.Pattern, in.Result, x.Link)
			return true
		}
	}
	return false
}
