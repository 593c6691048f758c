package paper

import (
	"context"
	"math"
	"slices"
	"sync/atomic"
)

// turns are the angles by which a part may be turned against those that lie, in
// radians, the likeliest list first: held or laid down a little askew, and by
// quarters besides, as large paper is turned on the glass, and a phone does not
// know which way is up when it looks down.
func (p *Photo) turns(placed []Part) [][]float64 {
	most := scanTurn
	if !p.IsScan() || !placed[0].Photo.IsScan() {
		most = photoTurn
	}
	var out [][]float64
	for quarter := range 4 {
		var some []float64
		for a := -most; a <= most; a += turnStep {
			some = append(some, (float64(quarter)*90+a)*math.Pi/180)
		}
		out = append(out, some)
	}
	return out
}

// coarse are the places where a part may lie, the likeliest first, by all
// movements at every turn.
func (s sight) coarse(ctx context.Context, part sight, turns []float64, progress func(float64)) []spot {
	there := s.cells(coarseCell, 0)
	reach := int(math.Hypot(float64(part.w), float64(part.h))*part.step/coarseCell) + 2
	w, h := smooth(there.w+reach), smooth(there.h+reach)
	over := spectraOf(there, w, h)
	found := make([][]spot, len(turns))
	var done atomic.Int64
	rows(len(turns), func(i int) {
		if ctx.Err() != nil {
			return
		}
		found[i] = there.spots(over, part.cells(coarseCell, turns[i]), turns[i])
		progress(float64(done.Add(1)) / float64(len(turns)))
	})
	return best(slices.Concat(found...))
}

// spots are the likeliest places of a part turned already, as spot scores them.
func (s sight) spots(over spectra, here sight, turn float64) []spot {
	const nearly = 0.6 // of the best of this turn, to be looked at further
	moved := spectraOf(here, over.w, over.h)
	m := over.sumsOf(moved)
	cell := s.step * s.step
	var all []spot
	top := 0.0
	for dy := -here.h + 1; dy < s.h; dy++ {
		for dx := -here.w + 1; dx < s.w; dx++ {
			i := (dy+m.h)%m.h*m.w + (dx+m.w)%m.w
			n := m.n(i)
			if n < leastShare*float64(moved.cells) || n < 1 {
				continue
			}
			a, b := m.a(i), m.b(i)
			if min(a, b)*cell < leastInk {
				continue
			}
			va, vb := m.aa(i)-a*a/n, m.bb(i)-b*b/n
			at := spot{turn: turn, move: s.moveOf(here, dx, dy), area: n * cell}
			at.alike = (m.ab(i) - a*b/n) / math.Sqrt(max(va*vb, 1e-9))
			at.score = at.alike * math.Sqrt(at.area)
			if at.score > nearly*top {
				all, top = append(all, at), max(top, at.score)
			}
		}
	}
	return best(all)
}
