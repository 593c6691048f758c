package grading

import (
	"errors"
	"math"
	"slices"

	"quarterstep/assets/words"
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
	broken map[int]bool   // links that are left alone
	gave   map[int]*Seam  // seams that were to give way, by link
	stiff  map[int]string // seams that may not give way after all, and why
	rings  bool           // seams that give way run in a ring
}

// mostSweeps is how often pieces that give way in a ring are gone through: each
// sweep leaves a part of the last, so that seams which do not fit by then pull
// against each other.
const mostSweeps = 8

// link redraws p's followers in lines, leaders first. A seam that pulls against
// another in a ring is given up, and all begun anew without it.
func (g *Grader) link(p model.Pattern, fits []*nest.Fit, lines [][]geom.Path) (linked, error) {
	reads, stiff := g.readLinks(p, fits), map[int]string{}
	for {
		l := newLinker(p, append([][]geom.Path(nil), lines...), reads, stiff)
		if err := l.run(); err != nil {
			return linked{}, err
		}
		if k, pulls := l.pulling(); pulls {
			stiff[k] = words.T("pulls against another seam that gives way")
			continue
		}
		copy(lines, l.lines)
		l.seams()
		return l.out, nil
	}
}

func newLinker(p model.Pattern, lines [][]geom.Path, reads []readLink, stiff map[int]string) *linker {
	l := &linker{p: p, lines: lines, reads: reads, stiff: stiff, broken: map[int]bool{}, gave: map[int]*Seam{}}
	l.out.given, l.out.tapes = make([]*link.Piece, len(p.Pieces)), make([]*seam.Tape, len(p.Pieces))
	for k, r := range l.reads {
		if r.err != nil {
			l.leave(k, r.err.Error())
		}
	}
	return l
}

func (l *linker) run() error {
	sweeps := 1
	order := l.order()
	if l.rings {
		sweeps = mostSweeps
	}
	moved := false
	for n := range sweeps {
		moved = false
		for _, i := range order {
			if err := l.redraw(i); err != nil {
				return err
			}
			moved = l.giveWay(i) || moved
		}
		if n > 0 && !moved {
			return nil
		}
	}
	if !l.rings || !moved {
		return nil
	}
	for _, i := range order { // what follows the last to move
		if err := l.redraw(i); err != nil {
			return err
		}
	}
	return nil
}

// pulling is a seam in a ring that gave way and still does not fit.
func (l *linker) pulling() (int, bool) {
	if !l.rings {
		return 0, false
	}
	for k := len(l.reads) - 1; k >= 0; k-- {
		s := l.gave[k]
		if s == nil || s.Why != "" {
			continue
		}
		lead, follow, err := l.lengths(l.reads[k].print)
		if err == nil && math.Abs(off(l.reads[k].print.Wanted(l.p.Target.Place), follow-lead)) > keptWithin {
			return k, true
		}
	}
	return 0, false
}

// off is by how much an ease lies outside what is wanted.
func off(wanted seam.Range, ease float64) float64 { return ease - wanted.Hold(ease) }

// keptWithin is how near its ease a seam that gives way is brought, mm.
const keptWithin = 0.005

// leave leaves link k alone, and says why.
func (l *linker) leave(k int, why string) {
	l.broken[k] = true
	l.out.unlinked = append(l.out.unlinked, Unlinked{Link: l.p.Links[k].ID, Why: why})
}

// gives reports that link k is a seam whose follower may give way.
func (l *linker) gives(k int) bool {
	_, stiff := l.stiff[k]
	return l.p.Links[k].Kind == model.Sewn && l.p.Links[k].Refit != model.NoRefit && !l.broken[k] && !stiff
}

// order is the pieces with every leader before its followers. Lines that follow
// each other in a ring are left alone; seams that give way in a ring are gone
// through more than once.
func (l *linker) order() []int {
	same := l.arrows(func(k int) bool { return l.p.Links[k].Kind == model.SameLine && !l.broken[k] })
	for k := range ringed(len(l.p.Pieces), same) {
		l.leave(k, words.T("follows its own follower"))
	}
	all := l.arrows(func(k int) bool { return l.p.Links[k].Kind == model.SameLine && !l.broken[k] || l.gives(k) })
	plain := make([]link.Arrow, len(all))
	for i, a := range all {
		plain[i] = a.Arrow
	}
	order, ring := link.Order(len(l.p.Pieces), plain)
	l.rings = len(ring) > 0
	return order
}

// arrow is one leader of a link.
type arrow struct {
	link.Arrow
	of int
}

func (l *linker) arrows(of func(k int) bool) []arrow {
	var out []arrow
	for k, m := range l.p.Links {
		if !of(k) {
			continue
		}
		for _, s := range m.Leads() {
			out = append(out, arrow{link.Arrow{Lead: l.p.PieceIndex(s.Piece), Follow: l.p.PieceIndex(m.Follow.Piece)}, k})
		}
	}
	return out
}

// ringed is the links whose arrows run in a ring.
func ringed(n int, arrows []arrow) map[int]bool {
	plain := make([]link.Arrow, len(arrows))
	for i, a := range arrows {
		plain[i] = a.Arrow
	}
	_, ring := link.Order(n, plain)
	out := map[int]bool{}
	for _, i := range ring {
		out[arrows[i].of] = true
	}
	return out
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
			l.leave(k, words.T("follows a line of its own piece"))
			continue
		}
		pls, of[r.placing] = append(pls, r.placing), k
	}
	pls, clash := link.Apart(pls)
	for _, pl := range clash {
		l.leave(of[pl], words.T("claims an edge that follows another line already"))
	}
	for len(pls) > 0 {
		edges, err := link.Redraw(pls, l.p.Pieces[i], l.lines, l.p.Target.Place)
		var pulled *link.ClashError
		if errors.As(err, &pulled) {
			l.leave(of[pulled.Placing], pulled.Error())
			pls = slices.DeleteFunc(pls, func(pl *link.Placing) bool { return pl == pulled.Placing })
			continue
		}
		if err != nil {
			return err
		}
		l.lines[i], l.out.tapes[i] = edges, nil
		break
	}
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

// giveWay lets piece i give way for the seams that allow it, and reports that it
// moved.
func (l *linker) giveWay(i int) bool {
	var seams []link.Seam
	var of []int
	for k, r := range l.reads {
		if r.print == nil || r.print.Follower() != i || !l.gives(k) {
			continue
		}
		if l.gave[k] == nil {
			l.gave[k] = &Seam{}
		}
		s, err := l.seam(r.print)
		if err != nil {
			l.gave[k].Why = err.Error()
			continue
		}
		seams, of = append(seams, s), append(of, k)
	}
	if len(seams) == 0 {
		return false
	}
	piece := l.out.given[i]
	if piece == nil {
		piece = &link.Piece{Piece: l.p.Pieces[i]}
		l.out.given[i] = piece
	}
	piece.Edges, piece.Shared = l.lines[i], l.shared(i)
	moved := false
	for n, gave := range piece.Give(seams) {
		s := l.gave[of[n]]
		s.Gave, s.Why, s.Aim = s.Gave+gave.By, "", seams[n].Aim
		if gave.Why != nil {
			s.Why = gave.Why.Error()
		}
		moved = moved || gave.By != 0
	}
	l.lines[i], l.out.tapes[i] = piece.Edges, nil
	return moved
}

// seam is a sewn link with its leaders as they are now.
func (l *linker) seam(pr *seam.Print) (link.Seam, error) {
	out := link.Seam{Print: pr}
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
	lead, follow, err := l.lengths(pr)
	if err != nil {
		return out, err
	}
	// As little as is needed: to the nearer end of what is wanted.
	out.Aim = pr.Wanted(l.p.Target.Place).Hold(follow - lead)
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
	for k, r := range l.reads {
		if r.print == nil || l.broken[k] {
			continue
		}
		s := Seam{Why: l.stiff[k], Aim: r.print.Aim(l.p.Target.Place)}
		if gave := l.gave[k]; gave != nil {
			s = *gave
		}
		s.Link, s.Printed, s.Wanted = r.link.ID, r.print.Eases(), r.print.Wanted(l.p.Target.Place)
		var err error
		if s.Lead, s.Follow, err = l.lengths(r.print); err != nil {
			l.leave(k, words.F("cannot be walked: %s", err))
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
		r.err = words.Errorf("cannot be laid: %w", r.err)
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
