package link

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// straightTol is how far, in mm, an edge may bow and still be redrawn straight.
const straightTol = 0.01

// clashBeyond is how far apart, in mm, two leaders may have an end that their
// lines share on the follower before the two cannot both be kept. It is what a
// sewist's tape shows.
const clashBeyond = 1

// Apart sorts out placings of one follower: those that can be drawn, and those
// that claim an edge an earlier one has.
func Apart(pls []*Placing) (clear, clash []*Placing) {
	taken := map[int]bool{}
	for _, pl := range pls {
		free := true
		for _, j := range pl.followEdges {
			free = free && !taken[j]
		}
		if !free {
			clash = append(clash, pl)
			continue
		}
		for _, j := range pl.followEdges {
			taken[j] = true
		}
		clear = append(clear, pl)
	}
	return clear, clash
}

// Leader is the index of the piece that leads.
func (pl *Placing) Leader() int { return pl.lead }

// Shared is the edges of the follower that are drawn from the leader.
func (pl *Placing) Shared() []int { return pl.followEdges }

// Follower is the index of the piece that follows.
func (pl *Placing) Follower() int { return pl.follow }

// ClashError says that two leaders pull the end they share on their follower to
// two places.
type ClashError struct{ Placing *Placing }

func (e *ClashError) Error() string {
	return words.T("cannot lie on its line: the next edge follows another, which ends elsewhere")
}

// Redraw draws the follower of pls anew at place t. All of pls have the same
// follower q; lines holds every piece's edges, leaders already drawn. Links to
// one leader are laid together, as one sheet of paper. A *ClashError names the
// placing that cannot be drawn beside those before it.
func Redraw(pls []*Placing, q model.Piece, lines [][]geom.Path, t float64) ([]geom.Path, error) {
	old := lines[pls[0].follow]
	n := len(old)
	shared, owner := make([]geom.Path, n), make([]int, n)
	for i, pl := range pls {
		if err := pl.draw(shared, lines[pl.lead], old, beside(pls, pl).at(t)); err != nil {
			return nil, words.Errorf("redrawing %s: %w", q.Name, err)
		}
		for _, j := range pl.followEdges {
			owner[j] = i
		}
	}
	for j, p := range shared {
		next := (j + 1) % n
		if p == nil || shared[next] == nil || p.End().Dist(shared[next].Start()) <= clashBeyond {
			continue
		}
		return nil, &ClashError{pls[max(owner[j], owner[next])]}
	}
	moved := freePoints(old, shared)
	out := make([]geom.Path, n)
	for j := range out {
		if shared[j] != nil {
			out[j] = shared[j]
			continue
		}
		out[j] = old[j].CarryEnds(moved[j], moved[(j+1)%n], straightTol)
	}
	close := func(j int) {
		next := (j + 1) % n
		if shared[j] == nil {
			out[j] = endAt(out[j], out[next].Start())
		} else {
			out[next] = startAt(out[next], out[j].End())
		}
	}
	for j := range out {
		close(j)
	}
	return out, nil
}

// draw puts the leader's line, laid so, on the follower's shared edges.
func (pl *Placing) draw(shared, lead, old []geom.Path, lay geom.Affine) error {
	parts := make([]geom.Path, len(pl.followEdges))
	if len(pl.leadEdges) == len(pl.followEdges) {
		for i := range parts {
			parts[i] = walk(lead, pl.leadEdges[i:i+1], pl.Link.Lead.Reverse)
		}
	} else if err := pl.divide(parts, lead, old); err != nil {
		return err
	}
	for i, j := range pl.followEdges {
		p := parts[i].Transform(lay)
		if pl.Link.Follow.Reverse {
			p = p.Reverse()
		}
		shared[j] = p
	}
	return nil
}

// divide cuts the leader's whole stretch in the proportion of the follower's
// edges.
func (pl *Placing) divide(parts, lead, old []geom.Path) error {
	m, err := geom.Measure(walk(lead, pl.leadEdges, pl.Link.Lead.Reverse), arcTol)
	if err != nil {
		return err
	}
	lengths := make([]float64, len(parts))
	var total float64
	for i, j := range pl.followEdges {
		if lengths[i], err = old[j].Length(arcTol); err != nil {
			return err
		}
		total += lengths[i]
	}
	if total == 0 {
		return words.Error("its shared edge has no length")
	}
	var s float64
	for i := range parts {
		next := s + m.Length()*lengths[i]/total
		if i == len(parts)-1 {
			next = m.Length()
		}
		parts[i] = m.Between(s, next)
		s = next
	}
	return nil
}

// freePoints is how far each grade point of the follower moves: points on a
// shared edge go with it; a run of free points between goes along, its first
// and last point by as much as the shared point beside it, so that the
// follower keeps its width there, those between by shares of both.
func freePoints(old, shared []geom.Path) []geom.Vec {
	n := len(old)
	moved := make([]geom.Vec, n)
	fixed := make([]bool, n)
	for j, p := range shared {
		if p == nil {
			continue
		}
		k := (j + 1) % n
		moved[j], fixed[j] = p.Start().Sub(old[j].Start()), true
		moved[k], fixed[k] = p.End().Sub(old[j].End()), true
	}
	for a := range n {
		if !fixed[a] || fixed[(a+1)%n] {
			continue
		}
		run := 1
		for !fixed[(a+1+run)%n] {
			run++
		}
		from, to := moved[a], moved[(a+1+run)%n]
		for i := range run {
			share := 0.5
			if run > 1 {
				share = float64(i) / float64(run-1)
			}
			moved[(a+1+i)%n] = from.Scale(1 - share).Add(to.Scale(share))
		}
	}
	return moved
}

func startAt(p geom.Path, at geom.Point) geom.Path {
	out := append(geom.Path{}, p...)
	out[0].P0 = at
	return out
}

func endAt(p geom.Path, at geom.Point) geom.Path {
	out := append(geom.Path{}, p...)
	out[len(out)-1].P3 = at
	return out
}
