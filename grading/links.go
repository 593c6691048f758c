package grading

import (
	"errors"
	"fmt"

	"quarterstep/grading/link"
	"quarterstep/grading/nest"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// readLink is a link as it was read, with the fits of its pieces: a placing for
// one on the same line, a print for a seam.
type readLink struct {
	link    model.Link
	fits    []*nest.Fit
	placing *link.Placing
	print   *seam.Print
	err     error
}

// linked is what the links did to a pattern's lines.
type linked struct {
	unlinked []Unlinked
	seams    []Seam
	given    []*link.Piece // by piece; nil for one that did not give way
	prints   []*seam.Print // of the seams
	tapes    []*seam.Tape  // by piece, of its final line; nil until asked for
}

// linker redraws the followers of one pattern.
type linker struct {
	p      model.Pattern
	lines  [][]geom.Path
	reads  []readLink // as p.Links
	out    linked
	broken map[int]bool // links that are left alone
}

// link redraws p's followers in lines, leaders first.
func (g *Grader) link(p model.Pattern, fits []*nest.Fit, lines [][]geom.Path) (linked, error) {
	l := linker{p: p, lines: lines, reads: g.readLinks(p, fits), broken: map[int]bool{}}
	l.out.given, l.out.tapes = make([]*link.Piece, len(p.Pieces)), make([]*seam.Tape, len(p.Pieces))
	for k, r := range l.reads {
		if r.err != nil {
			l.leave(k, r.err.Error())
		}
	}
	for _, i := range l.order() {
		if err := l.redraw(i); err != nil {
			return linked{}, err
		}
		l.giveWay(i)
	}
	l.seams()
	return l.out, nil
}

// leave leaves link k alone, and says why.
func (l *linker) leave(k int, why string) {
	l.broken[k] = true
	l.out.unlinked = append(l.out.unlinked, Unlinked{Link: l.p.Links[k].ID, Why: why})
}

// order is the pieces with every leader before its followers; links in a ring
// are left alone.
func (l *linker) order() []int {
	var arrows []link.Arrow
	var of []int
	for k, m := range l.p.Links {
		if l.broken[k] || m.Kind == model.Sewn && m.Refit == model.NoRefit {
			continue
		}
		for _, s := range m.Leads() {
			arrows = append(arrows, link.Arrow{Lead: l.p.PieceIndex(s.Piece), Follow: l.p.PieceIndex(m.Follow.Piece)})
			of = append(of, k)
		}
	}
	order, ring := link.Order(len(l.p.Pieces), arrows)
	for _, a := range ring {
		if k := of[a]; !l.broken[k] {
			l.leave(k, "follows its own follower")
		}
	}
	return order
}

// redraw draws the edges of piece i that follow another piece's line.
func (l *linker) redraw(i int) error {
	var pls []*link.Placing
	of := map[*link.Placing]int{}
	for k, r := range l.reads {
		if r.placing == nil || l.broken[k] || r.placing.Follower() != i {
			continue
		}
		if r.placing.Leader() == i {
			l.leave(k, "follows a line of its own piece")
			continue
		}
		pls, of[r.placing] = append(pls, r.placing), k
	}
	pls, clash := link.Apart(pls)
	for _, pl := range clash {
		l.leave(of[pl], "claims an edge that follows another line already")
	}
	if len(pls) == 0 {
		return nil
	}
	edges, err := link.Redraw(pls, l.p.Pieces[i], l.lines, l.p.Target.Place)
	if err != nil {
		return err
	}
	l.lines[i] = edges
	return nil
}

// shared is which edges of piece i follow another piece's line.
func (l *linker) shared(i int) []bool {
	var out []bool
	for k, r := range l.reads {
		if r.placing == nil || l.broken[k] || r.placing.Follower() != i {
			continue
		}
		if out == nil {
			out = make([]bool, len(l.lines[i]))
		}
		for _, j := range r.placing.Shared() {
			out[j] = true
		}
	}
	return out
}

// giveWay lets piece i give way for the seams that allow it.
func (l *linker) giveWay(i int) {
	var seams []link.Seam
	var of []int
	for k, r := range l.reads {
		if r.print == nil || l.broken[k] || r.link.Refit == model.NoRefit || r.print.Follower() != i {
			continue
		}
		s, err := l.seam(r.print)
		if err != nil {
			l.out.seams = append(l.out.seams, Seam{Link: r.link.ID, Why: err.Error()})
			continue
		}
		seams, of = append(seams, s), append(of, k)
	}
	if len(seams) == 0 {
		return
	}
	piece := &link.Piece{Piece: l.p.Pieces[i], Edges: l.lines[i], Shared: l.shared(i)}
	for n, gave := range piece.Give(seams) {
		s := Seam{Link: l.reads[of[n]].link.ID, Gave: gave.By}
		if gave.Why != nil {
			s.Why = gave.Why.Error()
		}
		l.out.seams = append(l.out.seams, s)
	}
	l.lines[i], l.out.given[i], l.out.tapes[i] = piece.Edges, piece, nil
}

// seam is a sewn link with its leaders as they are now.
func (l *linker) seam(pr *seam.Print) (link.Seam, error) {
	out := link.Seam{Print: pr, Aim: pr.Aim(l.p.Target.Place)}
	for k, s := range pr.Link.Leads() {
		i := pr.Leaders()[k]
		if i == pr.Follower() {
			out.Own = append(out.Own, s)
			continue
		}
		long, err := l.tape(i).Stretch(l.p.Pieces[i], s)
		if err != nil {
			return out, err
		}
		out.Lead += long
	}
	return out, nil
}

// meetNotches moves the notches of sewn followers to where they meet their
// leaders'. A notch belongs to the first seam that has it; one that cannot be
// placed stays.
func (l *linked) meetNotches(p model.Pattern, left []stages) {
	sheets := make([]seam.Sheet, len(p.Pieces))
	for i, q := range p.Pieces {
		if l.tapes[i] != nil {
			sheets[i] = seam.Sheet{Piece: q, Tape: l.tapes[i], Notches: left[i].spots}
		}
	}
	type notch struct{ piece, index int }
	placed := map[notch]bool{}
	for _, pr := range l.prints {
		at, err := pr.NotchPlaces(sheets, p.Target.Place)
		if err != nil {
			continue // the check of the seam says why
		}
		for _, n := range at {
			key := notch{pr.Follower(), n.Index}
			if !placed[key] {
				placed[key], left[key.piece].spots[n.Index].S = true, n.S
			}
		}
	}
}

// tape measures piece i as it is drawn by now.
func (l *linker) tape(i int) *seam.Tape {
	if l.out.tapes[i] == nil {
		l.out.tapes[i] = seam.NewTape(l.p.Pieces[i], l.lines[i])
	}
	return l.out.tapes[i]
}

// seams measures every sewn link as it is in the end, in the pattern's order.
func (l *linker) seams() {
	gave := map[string]Seam{}
	for _, s := range l.out.seams {
		gave[s.Link] = s
	}
	l.out.seams = nil
	for k, r := range l.reads {
		if r.print == nil || l.broken[k] {
			continue
		}
		s := gave[r.link.ID]
		s.Link, s.Printed = r.link.ID, r.print.Eases()
		s.Aim, s.Wanted = r.print.Aim(l.p.Target.Place), r.print.Wanted(l.p.Target.Place)
		var err error
		if s.Lead, s.Follow, err = l.lengths(r.print); err != nil {
			l.leave(k, err.Error())
			continue
		}
		l.out.seams, l.out.prints = append(l.out.seams, s), append(l.out.prints, r.print)
	}
}

// lengths is how long both sides of a seam are sewn, mm.
func (l *linker) lengths(pr *seam.Print) (lead, follow float64, err error) {
	for k, s := range pr.Link.Leads() {
		i := pr.Leaders()[k]
		long, err := l.tape(i).Stretch(l.p.Pieces[i], s)
		if err != nil {
			return 0, 0, err
		}
		lead += long
	}
	i := pr.Follower()
	follow, err = l.tape(i).Stretch(l.p.Pieces[i], pr.Link.Follow)
	return lead, follow, err
}

// readLinks reads every link of p that is not remembered.
func (g *Grader) readLinks(p model.Pattern, fits []*nest.Fit) []readLink {
	next := make(map[string]readLink, len(p.Links))
	out := make([]readLink, len(p.Links))
	for k, l := range p.Links {
		out[k] = g.readLink(p, l, fits)
		next[l.ID] = out[k]
	}
	g.links = next
	return out
}

func (g *Grader) readLink(p model.Pattern, l model.Link, fits []*nest.Fit) readLink {
	r := readLink{link: l}
	for _, s := range append(l.Leads(), l.Follow) {
		i := p.PieceIndex(s.Piece)
		if i < 0 {
			r.err = link.ErrGone
			return r
		}
		r.fits = append(r.fits, fits[i])
	}
	if old, ok := g.links[l.ID]; ok && old.remembers(r) {
		return old
	}
	if l.Kind == model.SameLine {
		r.placing, r.err = link.Read(p, l)
	} else {
		r.print, r.err = seam.Read(p, l)
	}
	if r.err != nil && !errors.Is(r.err, link.ErrGone) && !errors.Is(r.err, seam.ErrGone) {
		r.err = fmt.Errorf("cannot be laid: %w", r.err)
	}
	return r
}

// remembers reports that a link is the one read, between pieces printed as they
// were.
func (r readLink) remembers(now readLink) bool {
	a, b := r.link, now.link
	if len(r.fits) != len(now.fits) || len(a.And) != len(b.And) || a.Kind != b.Kind ||
		a.Ease != b.Ease || a.Room != b.Room || a.EaseFixed != b.EaseFixed || a.Refit != b.Refit {
		return false
	}
	for i, s := range append(a.Leads(), a.Follow) {
		if r.fits[i] != now.fits[i] || !sameStretch(s, append(b.Leads(), b.Follow)[i]) {
			return false
		}
	}
	return true
}

func sameStretch(a, b model.Stretch) bool {
	return a.Piece == b.Piece && a.Reverse == b.Reverse && same(a.Edges, b.Edges)
}
