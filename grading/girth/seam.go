package girth

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// waistSeam lists the edges that are sewn to something else at the waist, by
// their names, without the caps of darts between them.
func (s *sheet) waistSeam() []int {
	caps := s.caps()
	var out []int
	for k, e := range s.q.Edges {
		switch strings.Join(wordsOf(e.Name), " ") {
		case "waist", "waistline", "waist seam", "waist edge": // words: none
			if caps[k] < 0 {
				out = append(out, k)
			}
		}
	}
	return out
}

// alongSeam measures the waist along its seam, darts taken up.
func (s *sheet) alongSeam(sewn []geom.Path, edges []int) (width, allowances, darts float64, why string) {
	caps := s.caps()
	at := map[int]bool{}
	var net float64
	for _, k := range edges {
		paper, errP := s.cut[k].Length(tol)
		line, errL := sewn[k].Length(tol)
		if errP != nil || errL != nil {
			return 0, 0, 0, words.F("The waist seam of %s cannot be measured.", s.q.Name)
		}
		width, net = width+paper, net+line
		for _, side := range [2]int{(k + len(caps) - 1) % len(caps), (k + 1) % len(caps)} {
			at[caps[side]] = true
		}
		darts += s.drawnOn(sewn[k])
	}
	allowances = width - net
	for i, d := range s.q.Darts {
		if from, to := s.q.PointIndex(d.From), s.q.PointIndex(d.To); at[i] && from >= 0 && to >= 0 {
			open := sewn[from].Start().Dist(sewn[to].Start())
			width, darts = width+open, darts+open
		}
	}
	return width, allowances, darts, ""
}

// drawnOn is how much of a seam lies between the legs of darts that are drawn
// up to it, straight from leg to leg, mm.
func (s *sheet) drawnOn(seam geom.Path) float64 {
	var sum float64
	for _, path := range s.drawnDarts() {
		if on := geom.Intersect(seam, prolonged(path), tol); len(on) == 2 {
			sum += on[0].At.Dist(on[1].At)
		}
	}
	return sum
}

// drawnDarts is the darts drawn as lines only.
func (s *sheet) drawnDarts() []geom.Path {
	only := sheet{q: s.q, lines: s.lines}
	return only.dartLines()
}

// prolonged is a line carried on straight by a millimetre at both ends, so that
// one drawn up to a seam crosses it.
func prolonged(p geom.Path) geom.Path {
	if p.Closed(tol) {
		return p
	}
	a, b := p.Start(), p.End()
	return geom.Join(
		geom.Polyline(a.Add(p.StartDir().Scale(-1)), a), p,
		geom.Polyline(b, b.Add(p.EndDir())),
	)
}
